#pragma once
// What stands and lies on the airfield: pavements with markings, buildings, obstacles, wind sock.

#include <string>
#include <vector>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"
#include "viewer/render/landscape.h"

namespace plumbline::render {

class AirfieldPainter {
public:
    explicit AirfieldPainter(std::string& problem);
    void setLandscape(const Landscape& landscape, const scene::World& world);
    /// On the ground, depth test off.
    void drawPavements(const Frame& frame) const;
    /// Depth test on.
    void drawStanding(const Frame& frame);

    struct SolidVertex {
        glm::vec3 at;
        glm::vec3 normal;
        glm::vec3 colour;
    };

private:
    struct PavementVertex {
        glm::vec2 at;
        glm::vec2 uv;         ///< along, across [m]
        glm::vec3 half_kind;  ///< half length, half width [m]; 1 runway, 0 taxiway
    };

    void hoistSock(const Frame& frame);

    Program pavement_;
    Program solid_;
    Mesh pavement_mesh_;
    Mesh solid_mesh_;
    Mesh sock_mesh_;
    Texture marks_;  ///< runway numbers: left half for the start, right half for the end
    glm::vec2 sock_at_{0};
    glm::vec2 wind_towards_{1, 0};
    float wind_mps_ = 0;
    std::vector<SolidVertex> sock_;
};

}  // namespace plumbline::render

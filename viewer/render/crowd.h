#pragma once
// The crowd: standing figures from behind, billboards.

#include <string>
#include <vector>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"
#include "viewer/render/landscape.h"

namespace plumbline::render {

class CrowdPainter {
public:
    explicit CrowdPainter(std::string& problem);
    void setLandscape(const Landscape& landscape) { people_ = landscape.crowd; }
    /// Depth test on.
    void draw(const Frame& frame);

private:
    struct Instance {
        glm::vec3 foot;
        glm::vec4 height_shape;  ///< height [m], shape, mirrored (-1 or 1), sleeve tone
        glm::vec3 shirt;
    };

    Program program_;
    Texture atlas_;
    Mesh mesh_;
    std::vector<Person> people_;
    std::vector<Instance> instances_;
};

}  // namespace plumbline::render

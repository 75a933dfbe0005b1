#pragma once
// Smoke: lit, noise-eaten sprites, sorted, merged where they are small.

#include <string>
#include <vector>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"

namespace plumbline::render {

class SmokePainter {
public:
    explicit SmokePainter(std::string& problem);
    void draw(const Frame& frame);

private:
    struct Vertex {
        glm::vec4 clip;
        glm::vec4 uv_spent_lumps;
        glm::vec4 sun_opacity;  ///< direction to the sun in the sprite's axes; opacity
        glm::vec4 haze;         ///< colour and amount
    };
    struct Sprite {
        glm::vec3 rel;
        float radius_m;
        float opacity;
        float seed;
        float spent;
        float lumps;  ///< how much of its own light is seen, 0..1
        float distance_m;
    };

    void gather(const Frame& frame);
    void emit(const Frame& frame, const Sprite& sprite);

    Program program_;
    Mesh mesh_;
    Texture atlas_;
    std::vector<Sprite> sprites_;
    std::vector<Vertex> vertices_;
    std::vector<std::uint32_t> indices_;
};

}  // namespace plumbline::render

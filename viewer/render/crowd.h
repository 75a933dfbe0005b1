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
    struct Corner {
        glm::vec3 foot;
        glm::vec4 height_shape;  ///< height [m], shape, mirrored (-1 or 1), -
        glm::vec3 shirt;
        glm::vec2 corner;
    };

    Program program_;
    Texture atlas_;
    Mesh mesh_;
    std::vector<Person> people_;
    std::vector<Corner> corners_;
    std::vector<std::uint32_t> indices_;
};

}  // namespace plumbline::render

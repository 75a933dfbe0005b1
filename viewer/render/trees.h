#pragma once
// Trees and far rows of trees: billboards lit from the sun's side.

#include <string>
#include <vector>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"
#include "viewer/render/landscape.h"

namespace plumbline::render {

class TreePainter {
public:
    explicit TreePainter(std::string& problem);
    void setLandscape(const Landscape& landscape);
    /// Depth test on; sorts when the eye has moved.
    void draw(const Frame& frame);

private:
    struct Corner {
        glm::vec3 foot;
        glm::vec4 size_shape_tint;  ///< width, height, shape, tint
        glm::vec2 corner;
    };
    struct RowVertex {
        glm::vec3 at;
        glm::vec3 uv_foot;  ///< u along, v up; height
    };

    void sortFor(const Frame& frame);

    Program tree_;
    Program row_;
    Texture atlas_;
    Texture row_texture_;
    Mesh mesh_;
    Mesh row_mesh_;
    std::vector<Tree> trees_;
    std::vector<TreeRow> rows_;
    std::vector<Corner> corners_;
    std::vector<std::uint32_t> indices_;
    std::vector<RowVertex> row_vertices_;
    std::vector<std::uint32_t> row_indices_;
    Vec3 sorted_eye_S_m_{1e9, 0, 0};
    glm::vec3 sorted_forward_{0};
    std::size_t most_ = 0;
};

}  // namespace plumbline::render

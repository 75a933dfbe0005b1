#include "viewer/render/panel_painter.h"

#include <glad/gl.h>

namespace plumbline::render {
namespace {

const char* const kVertex = R"(
layout(location = 0) in vec2 a_place_px;
layout(location = 1) in vec2 a_uv;
layout(location = 2) in vec4 a_colour;
uniform vec2 u_half_size_px;
out vec2 v_uv;
out vec4 v_colour;
void main() {
    v_uv = a_uv;
    v_colour = a_colour;
    vec2 place = a_place_px / u_half_size_px - 1.0;
    gl_Position = vec4(place.x, -place.y, 0.0, 1.0);
}
)";

const char* const kFragment = R"(
in vec2 v_uv;
in vec4 v_colour;
uniform sampler2D u_texels;
out vec4 o_colour;
void main() { o_colour = v_colour * texture(u_texels, v_uv); }
)";

}  // namespace

PanelPainter::PanelPainter(std::string& problem)
    : program_("panels", kVertex, kFragment, problem, Shares::None),
      mesh_(sizeof(PanelVertex), {{0, 2, offsetof(PanelVertex, x_px)},
                                  {1, 2, offsetof(PanelVertex, u)},
                                  {2, 4, offsetof(PanelVertex, rgba), true}}) {}

void PanelPainter::draw(std::span<const PanelVertex> vertices,
                        std::span<const std::uint32_t> indices, std::span<const PanelRun> runs,
                        int width_px, int height_px) {
    if (vertices.empty() || width_px < 1 || height_px < 1) return;
    glViewport(0, 0, width_px, height_px);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glEnable(GL_BLEND);
    glBlendFuncSeparate(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA, GL_ONE, GL_ONE_MINUS_SRC_ALPHA);
    glEnable(GL_SCISSOR_TEST);
    program_.use();
    program_.set("u_half_size_px", glm::vec2(0.5F * static_cast<float>(width_px),
                                             0.5F * static_cast<float>(height_px)));
    program_.set("u_texels", 0);
    mesh_.setVertices(vertices);
    mesh_.setIndices(indices);
    glActiveTexture(GL_TEXTURE0);
    for (const PanelRun& run : runs) {
        glScissor(run.left_px, height_px - run.bottom_px, run.right_px - run.left_px,
                  run.bottom_px - run.top_px);
        glBindTexture(GL_TEXTURE_2D, run.texture);
        mesh_.drawIndices(run.first_index, run.index_count);
    }
    glDisable(GL_SCISSOR_TEST);
    glDisable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    glBindVertexArray(0);
    glUseProgram(0);
}

}  // namespace plumbline::render

#include "viewer/render/enlarged.h"

#include <array>

#include <glad/gl.h>

#include "viewer/render/shader_common.h"

namespace plumbline::render {
namespace {

const char* const kFragment = R"(
in vec2 v_uv;
uniform sampler2D u_picture;
out vec4 o_colour;
void main() { o_colour = vec4(texture(u_picture, v_uv).rgb, 1.0); }
)";

}  // namespace

Enlarged::Enlarged(std::string& problem)
    : program_("enlarged picture", kQuadVertex, kFragment, problem),
      quad_(sizeof(glm::vec2), {{0, 2, 0}}) {
    const std::array<glm::vec2, 4> corners{cornerOfQuad(0), cornerOfQuad(1), cornerOfQuad(2),
                                           cornerOfQuad(3)};
    quad_.setVertices(std::span<const glm::vec2>(corners));
}

const Target& Enlarged::target(int width_px, int height_px) {
    if (target_.width() != width_px || target_.height() != height_px) {
        colour_ = Texture(width_px, height_px, 4, nullptr, Filter::Linear, Wrap::Clamp);
        target_ = Target(colour_, true);
    }
    return target_;
}

void Enlarged::show(std::uint32_t framebuffer, int x, int y, int width_px, int height_px) const {
    glBindFramebuffer(GL_FRAMEBUFFER, framebuffer);
    glViewport(x, y, width_px, height_px);
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_CULL_FACE);
    glDisable(GL_BLEND);
    program_.use();
    program_.set("u_picture", 0);
    colour_.bind(0);
    quad_.drawStrip();
}

}  // namespace plumbline::render

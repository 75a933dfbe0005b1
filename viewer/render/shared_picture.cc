#include "viewer/render/shared_picture.h"

#include <glad/gl.h>

namespace plumbline::render {

SharedPicture::SharedPicture(int width_px, int height_px)
    : texture_(width_px, height_px, 4, nullptr, Filter::Nearest, Wrap::Clamp),
      target_(texture_, false) {}

void SharedPicture::drawn() const { glFinish(); }

void showPicture(std::uint32_t texture, int width_px, int height_px) {
    // Framebuffers are not shared between contexts, textures are.
    std::uint32_t from = 0;
    glGenFramebuffers(1, &from);
    glBindFramebuffer(GL_READ_FRAMEBUFFER, from);
    glFramebufferTexture2D(GL_READ_FRAMEBUFFER, GL_COLOR_ATTACHMENT0, GL_TEXTURE_2D, texture, 0);
    glBindFramebuffer(GL_DRAW_FRAMEBUFFER, 0);
    glDisable(GL_SCISSOR_TEST);
    glBlitFramebuffer(0, 0, width_px, height_px, 0, 0, width_px, height_px, GL_COLOR_BUFFER_BIT,
                      GL_NEAREST);
    glDeleteFramebuffers(1, &from);
}

std::unique_ptr<Texture> textureOf(const std::uint8_t* rgba, int width_px, int height_px) {
    return std::make_unique<Texture>(width_px, height_px, 4, rgba, Filter::Linear, Wrap::Clamp);
}

}  // namespace plumbline::render

#include "viewer/render/ui_surface.h"

#include <algorithm>
#include <vector>

#include <glad/gl.h>

namespace plumbline::render {
namespace {

/// Smooth, ending at its edges; bound.
std::uint32_t newTexture() {
    std::uint32_t name = 0;
    glGenTextures(1, &name);
    glBindTexture(GL_TEXTURE_2D, name);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MAG_FILTER, GL_LINEAR);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_S, GL_CLAMP_TO_EDGE);
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_WRAP_T, GL_CLAMP_TO_EDGE);
    return name;
}

}  // namespace

GlyphTexture::GlyphTexture(int size) : size_(size) {
    name_ = newTexture();
    if (es_) {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, size, size, 0, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    } else {
        glTexImage2D(GL_TEXTURE_2D, 0, GL_R8, size, size, 0, GL_RED, GL_UNSIGNED_BYTE, nullptr);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_SWIZZLE_R, GL_ONE);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_SWIZZLE_G, GL_ONE);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_SWIZZLE_B, GL_ONE);
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_SWIZZLE_A, GL_RED);
    }
    glBindTexture(GL_TEXTURE_2D, 0);
}

GlyphTexture::~GlyphTexture() { glDeleteTextures(1, &name_); }

void GlyphTexture::upload(const std::uint8_t* texels, int first_row, int row_count) {
    if (row_count <= 0) return;
    glBindTexture(GL_TEXTURE_2D, name_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    const std::uint8_t* const from = texels + static_cast<std::ptrdiff_t>(first_row) * size_;
    if (es_) {
        const auto count = static_cast<std::size_t>(size_) * static_cast<std::size_t>(row_count);
        std::vector<std::uint8_t> rgba(4 * count, 255);
        for (std::size_t i = 0; i < count; ++i) rgba[4 * i + 3] = from[i];
        glTexSubImage2D(GL_TEXTURE_2D, 0, 0, first_row, size_, row_count, GL_RGBA, GL_UNSIGNED_BYTE,
                        rgba.data());
    } else {
        glTexSubImage2D(GL_TEXTURE_2D, 0, 0, first_row, size_, row_count, GL_RED, GL_UNSIGNED_BYTE,
                        from);
    }
    glBindTexture(GL_TEXTURE_2D, 0);
}

PictureTexture::PictureTexture() {
    name_ = newTexture();
    glBindTexture(GL_TEXTURE_2D, 0);
}

PictureTexture::~PictureTexture() { glDeleteTextures(1, &name_); }

void PictureTexture::upload(int width, int height, const std::uint8_t* rgba) {
    if (width <= 0 || height <= 0) return;
    glBindTexture(GL_TEXTURE_2D, name_);
    glPixelStorei(GL_UNPACK_ALIGNMENT, 1);
    glTexImage2D(GL_TEXTURE_2D, 0, GL_RGBA8, width, height, 0, GL_RGBA, GL_UNSIGNED_BYTE, rgba);
    glBindTexture(GL_TEXTURE_2D, 0);
}

Image OffscreenTarget::read() const {
    Image image;
    read(image);
    return image;
}

void OffscreenTarget::read(Image& image) const {
    image.width_px = target_.width();
    image.height_px = target_.height();
    const auto row = static_cast<std::ptrdiff_t>(image.width_px) * 4;
    image.rgba.resize(static_cast<std::size_t>(row * image.height_px));
    glBindFramebuffer(GL_READ_FRAMEBUFFER, target_.name());
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, image.width_px, image.height_px, GL_RGBA, GL_UNSIGNED_BYTE,
                 image.rgba.data());
    // GL's rows run from the bottom.
    const auto first = image.rgba.begin();
    for (std::ptrdiff_t r = 0, last = image.height_px - 1; r < last; ++r, --last) {
        std::swap_ranges(first + r * row, first + (r + 1) * row, first + last * row);
    }
    for (std::size_t i = 3; i < image.rgba.size(); i += 4) image.rgba[i] = 255;
}

ReadBack::ReadBack(int width_px, int height_px) : width_px_(width_px), height_px_(height_px) {
    const auto size = static_cast<GLsizeiptr>(width_px) * height_px * 4;
    glGenBuffers(kBuffers, buffers_);
    for (const std::uint32_t buffer : buffers_) {
        glBindBuffer(GL_PIXEL_PACK_BUFFER, buffer);
        glBufferData(GL_PIXEL_PACK_BUFFER, size, nullptr, GL_STREAM_READ);
    }
    glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
}

ReadBack::~ReadBack() { glDeleteBuffers(kBuffers, buffers_); }

void ReadBack::ask(const OffscreenTarget& target) {
    glBindFramebuffer(GL_READ_FRAMEBUFFER, target.name());
    glBindBuffer(GL_PIXEL_PACK_BUFFER, buffers_[asked_ % kBuffers]);
    glPixelStorei(GL_PACK_ALIGNMENT, 1);
    glReadPixels(0, 0, width_px_, height_px_, GL_RGBA, GL_UNSIGNED_BYTE, nullptr);
    glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
    ++asked_;
}

void ReadBack::take(Image& image) {
    image.width_px = width_px_;
    image.height_px = height_px_;
    const std::size_t row = static_cast<std::size_t>(width_px_) * 4;
    const std::size_t size = row * static_cast<std::size_t>(height_px_);
    image.rgba.resize(size);
    glBindBuffer(GL_PIXEL_PACK_BUFFER, buffers_[taken_ % kBuffers]);
    const auto* pixels = static_cast<const std::uint8_t*>(
        glMapBufferRange(GL_PIXEL_PACK_BUFFER, 0, static_cast<GLsizeiptr>(size), GL_MAP_READ_BIT));
    if (pixels != nullptr) {
        for (std::size_t r = 0; r < static_cast<std::size_t>(height_px_); ++r) {
            std::copy_n(pixels + (static_cast<std::size_t>(height_px_) - 1 - r) * row, row,
                        image.rgba.data() + r * row);
        }
        glUnmapBuffer(GL_PIXEL_PACK_BUFFER);
    }
    for (std::size_t i = 3; i < size; i += 4) image.rgba[i] = 255;
    glBindBuffer(GL_PIXEL_PACK_BUFFER, 0);
    ++taken_;
}

void bindWindow() { glBindFramebuffer(GL_FRAMEBUFFER, 0); }

void clearPicture(int width_px, int height_px, float red, float green, float blue) {
    glViewport(0, 0, width_px, height_px);
    glDisable(GL_SCISSOR_TEST);
    glClearColor(red, green, blue, 1);
    glClear(GL_COLOR_BUFFER_BIT);
}

}  // namespace plumbline::render

#pragma once
// Pictures between windows: drawn in one context, shown by another that shares its textures; and
// pictures made elsewhere as textures.

#include <cstdint>
#include <memory>

#include "viewer/render/gl_objects.h"

namespace plumbline::render {

/// Drawn into where it was made, shown elsewhere.
class SharedPicture {
public:
    SharedPicture(int width_px, int height_px);
    /// What is drawn from here on goes into it.
    void bind() const { target_.bind(); }
    /// All that was drawn is on its way before another context looks.
    void drawn() const;
    std::uint32_t name() const { return texture_.name(); }
    int width() const { return texture_.width(); }
    int height() const { return texture_.height(); }

private:
    Texture texture_;
    Target target_;
};

/// Fills the window of the current context with a texture of its size.
void showPicture(std::uint32_t texture, int width_px, int height_px);

/// Pixels made elsewhere, rows from above: red, green, blue, opacity.
std::unique_ptr<Texture> textureOf(const std::uint8_t* rgba, int width_px, int height_px);

}  // namespace plumbline::render

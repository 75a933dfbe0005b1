#pragma once
// What the user interface needs of GL besides the scene: the texture of its glyphs, and a target to
// draw a whole window into without one.

#include <cstdint>

#include "viewer/render/gl_objects.h"
#include "viewer/render/renderer.h"

namespace plumbline::render {

/// A square texture of one byte a texel, read as white with that opacity.
class GlyphTexture {
public:
    explicit GlyphTexture(int size);
    ~GlyphTexture();
    GlyphTexture(const GlyphTexture&) = delete;
    GlyphTexture& operator=(const GlyphTexture&) = delete;

    /// @param texels  the whole square; only these rows are taken
    void upload(const std::uint8_t* texels, int first_row, int row_count);
    std::uint32_t name() const { return name_; }

private:
    std::uint32_t name_ = 0;
    int size_ = 0;
    bool es_ = isEs();  ///< a browser takes no channel for another: four bytes a texel
};

/// A picture made elsewhere, drawn by the panels dot by dot.
class PictureTexture {
public:
    PictureTexture();
    ~PictureTexture();
    PictureTexture(const PictureTexture&) = delete;
    PictureTexture& operator=(const PictureTexture&) = delete;

    /// @param rgba  rows from above, opacity not multiplied in
    void upload(int width, int height, const std::uint8_t* rgba);
    std::uint32_t name() const { return name_; }

private:
    std::uint32_t name_ = 0;
};

/// A framebuffer in place of a window's.
class OffscreenTarget {
public:
    OffscreenTarget(int width_px, int height_px) : target_(width_px, height_px, 0) {}
    void bind() const { target_.bind(); }
    Image read() const;
    /// Into an image whose memory is used again.
    void read(Image& image) const;
    std::uint32_t name() const { return target_.name(); }

private:
    Target target_;
};

/// Reads pictures of a target back one after the other while the next is being drawn: what was
/// asked for is on its way meanwhile.
class ReadBack {
public:
    ReadBack(int width_px, int height_px);
    ~ReadBack();
    ReadBack(const ReadBack&) = delete;
    ReadBack& operator=(const ReadBack&) = delete;

    /// Asks for what is drawn in the target now. At most two may be on their way.
    void ask(const OffscreenTarget& target);
    int onTheirWay() const { return asked_ - taken_; }
    /// The oldest one asked for, waited for. Uses the image's memory again.
    void take(Image& image);

private:
    static constexpr int kBuffers = 2;
    int width_px_, height_px_;
    std::uint32_t buffers_[kBuffers] = {};
    int asked_ = 0, taken_ = 0;
};

/// Draws go to the window from here on.
void bindWindow();

/// Fills the bound framebuffer with one colour (0..1).
void clearPicture(int width_px, int height_px, float red, float green, float blue);

}  // namespace plumbline::render

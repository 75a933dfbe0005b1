#pragma once
// Draws the panels: coloured triangles that take their texels from a texture, clipped to
// rectangles. It sets the state that it needs and asks the driver for none: in a browser every
// question waits for all that was to be drawn before.

#include <cstddef>
#include <cstdint>
#include <span>
#include <string>

#include "viewer/render/gl_objects.h"

namespace plumbline::render {

/// In pixels from the upper left corner.
struct PanelVertex {
    float x_px = 0, y_px = 0;
    float u = 0, v = 0;
    std::uint8_t rgba[4] = {};  ///< opacity not multiplied in
};

/// Triangles of one texture inside one rectangle.
struct PanelRun {
    int left_px = 0, top_px = 0, right_px = 0, bottom_px = 0;
    std::uint32_t texture = 0;
    std::size_t first_index = 0, index_count = 0;
};

class PanelPainter {
public:
    /// On failure appends a sentence with the driver's words to `problem` and draws nothing.
    explicit PanelPainter(std::string& problem);

    /// Into all of the bound framebuffer, over what is there.
    void draw(std::span<const PanelVertex> vertices, std::span<const std::uint32_t> indices,
              std::span<const PanelRun> runs, int width_px, int height_px);

private:
    Program program_;
    Mesh mesh_;
};

}  // namespace plumbline::render

#pragma once
// A picture drawn smaller than it is shown, and then enlarged: where drawing dots is what a frame
// costs. By a quad, since some software drivers copy with scaling far more slowly than they draw.

#include <cstdint>
#include <string>

#include "viewer/render/gl_objects.h"

namespace plumbline::render {

class Enlarged {
public:
    explicit Enlarged(std::string& problem);

    /// Where to draw, made anew for another size.
    const Target& target(int width_px, int height_px);
    /// Fills a part of a framebuffer with what was drawn there.
    void show(std::uint32_t framebuffer, int x, int y, int width_px, int height_px) const;

private:
    Program program_;
    Mesh quad_;
    Texture colour_;
    Target target_;
};

}  // namespace plumbline::render

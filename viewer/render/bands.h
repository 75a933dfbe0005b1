#pragma once
// The path band: what was flown as a filled strip with two sides, what is to come as an open
// ladder.

#include <string>
#include <vector>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"
#include "viewer/render/lines.h"

namespace plumbline::render {

class BandPainter {
public:
    explicit BandPainter(std::string& problem);

    /// The filled strips; depth test on.
    void drawFills(const Frame& frame);
    /// Edges, cross lines and ladders, added to the frame's lines.
    static void addLines(const Frame& frame, LinePainter& lines);

private:
    struct Vertex {
        glm::vec3 rel;
        glm::vec4 colour;
        glm::vec2 side_time;  ///< > 0: the canopy side is seen; seconds
    };

    Program program_;
    Mesh mesh_;
    std::vector<Vertex> vertices_;
    std::vector<std::uint32_t> indices_;
};

}  // namespace plumbline::render

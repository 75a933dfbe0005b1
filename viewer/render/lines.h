#pragma once
// Lines of a given width in pixels or metres, bobs and marks: quads made on the processor with
// alpha edges, so that they need no multisampling.

#include <span>
#include <string>
#include <vector>

#include "viewer/render/frame.h"
#include "viewer/render/gl_objects.h"

namespace plumbline::render {

/// One stroke's looks; widths are final pixels.
struct Stroke {
    glm::vec4 colour{1};
    float width_px = 1.2F;
    float width_m = 0;   ///< > 0: this width on the ground, at least width_px
    bool round = false;  ///< width_m is that of a rod instead
    float dash_m = 0;    ///< > 0: dash and gap
    float nearer_m = 0;  ///< drawn as if so much nearer to the eye, over what it lies on
};

class LinePainter {
public:
    explicit LinePainter(std::string& problem);

    void begin(const Frame& frame);
    /// Points relative to the eye.
    void add(std::span<const glm::vec3> points_rel_m, const Stroke& stroke);
    void addPolyline(const scene::Polyline& line);
    void addBob(const scene::Bob& bob);
    /// Draws what was added since begin() or the last flush().
    void flush(bool depth_test);

private:
    struct Vertex {
        glm::vec3 place;  ///< normalised device
        glm::vec4 colour;
        glm::vec4 across;  ///< signed distance from the middle, half width [px]; along/w, 1/w
        float dash_m;
    };
    struct Corner {
        glm::vec2 px;
        float depth;
        float inverse_w;
        float along_m;
        float half_width_px;
    };

    void addRun(std::vector<Corner>& run, const Stroke& stroke);
    Corner cornerAt(const glm::vec4& clip, float along_m) const;
    float groundHalfWidth(const glm::vec3& rel, const glm::vec3& direction, float width_m) const;

    const Frame* frame_ = nullptr;
    Program program_;
    Mesh mesh_;
    std::vector<Vertex> vertices_;
    std::vector<std::uint32_t> indices_;
    std::vector<Corner> run_;  ///< kept to reuse its memory
};

}  // namespace plumbline::render

#include "viewer/render/bands.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glad/gl.h>
#include <glm/geometric.hpp>

namespace plumbline::render {
namespace {

const char* const kVertex = R"(
layout(location = 0) in vec3 a_rel;
layout(location = 1) in vec4 a_colour;
layout(location = 2) in vec2 a_side_time;
out vec4 v_colour;
out vec2 v_side_time;
out float v_near;
void main() {
    v_colour = a_colour;
    v_side_time = a_side_time;
    // Close to the eye the band would be a wall.
    v_near = u_haze.z > 0.5 ? 1.0 : smoothstep(12.0, 48.0, length(a_rel));
    gl_Position = u_clip_from_rel * vec4(a_rel, 1.0);
}
)";

// Wheel side: darker, a little indigo, six cross stripes a second.
const char* const kFragment = R"(
in vec4 v_colour;
in vec2 v_side_time;
in float v_near;
uniform float u_near_part;
out vec4 o_colour;
void main() {
    if ((v_near < 0.98) != (u_near_part > 0.5)) discard;
    vec3 c = v_colour.rgb;
    float at = v_side_time.y * 6.0;
    float soft = max(fwidth(at), 1e-4);
    float phase = abs(fract(at) - 0.5);
    float stripe = mix(clamp((phase - 0.25) / soft + 0.5, 0.0, 1.0), 0.5,
                       clamp(soft * 2.5 - 0.5, 0.0, 1.0));
    vec3 wheels = (c * 0.62 + vec3(0.010, 0.012, 0.050)) * (1.0 + 0.16 * stripe);
    o_colour = vec4(v_side_time.x < 0.0 ? wheels : c, v_colour.a * v_near);
}
)";

/// The vertices of a band that are worth drawing: those nearer to the aircraft than half a length
/// would hide it, and those on a straight piece say nothing.
std::vector<std::size_t> chosenVertices(const Frame& frame, const scene::Band& band) {
    const scene::DrawList& list = *frame.list;
    const double clear_m = list.show_aircraft ? 0.8 * list.aircraft.span_m : 0;
    const std::size_t count = band.vertices.size();
    std::vector<std::size_t> chosen;
    std::vector<glm::vec4> screen(count);  // both edges in pixels
    std::vector<char> usable(count);       // 0 hidden by the aircraft, 1 behind the eye, 2 visible
    const glm::vec2 size(frame.width_px, frame.height_px);
    for (std::size_t i = 0; i < count; ++i) {
        const scene::BandVertex& v = band.vertices[i];
        const Vec3 middle = (v.left_S_m + v.right_S_m) * 0.5;
        if (glm::length(middle - list.aircraft.position_S_m) < clear_m) continue;
        const glm::vec4 a = frame.clip(frame.relative(v.left_S_m));
        const glm::vec4 b = frame.clip(frame.relative(v.right_S_m));
        const bool seen = a.w > 0.1F && b.w > 0.1F;
        usable[i] = seen ? 2 : 1;
        if (seen)
            screen[i] = glm::vec4(glm::vec2(a) / a.w * size, glm::vec2(b) / b.w * size) * 0.5F;
    }
    std::size_t from = 0;
    constexpr std::size_t kLongest = 32;
    constexpr float kError_px = 0.45F;
    for (std::size_t i = 0; i < count; ++i) {
        if (usable[i] == 0) continue;
        bool keep = chosen.empty() || i + 1 == count || usable[i] == 1 || usable[i + 1] != 2 ||
                    usable[from] != 2 || i - from >= kLongest || band.vertices[i].rung;
        if (!keep) {
            // Would the strip from the last kept vertex to the next one miss those between?
            const glm::vec4& a = screen[from];
            const glm::vec4& b = screen[i + 1];
            for (std::size_t k = from + 1; k <= i && !keep; ++k) {
                const float f = static_cast<float>(k - from) / static_cast<float>(i + 1 - from);
                const glm::vec4 miss = glm::abs(screen[k] - glm::mix(a, b, f));
                // Along the path a shift is not seen; half of it counts for the stripes.
                keep = std::max({miss.x, miss.y, miss.z, miss.w}) > kError_px;
            }
            const glm::vec4 step =
                glm::abs(band.vertices[i + 1].colour - band.vertices[from].colour);
            keep = keep || std::max({step.x, step.y, step.z}) > 0.04F;
        }
        if (keep) {
            chosen.push_back(i);
            from = i;
        }
    }
    return chosen;
}

glm::vec3 edge(const Frame& frame, const scene::BandVertex& v, bool left) {
    return frame.relative(left ? v.left_S_m : v.right_S_m);
}

/// As in the shader: close to the eye the band would be a wall.
float nearFade(const Frame& frame, const glm::vec3& rel) {
    if (frame.orthographic) return 1;
    const float t = std::clamp((glm::length(rel) - 12) / 36, 0.0F, 1.0F);
    return t * t * (3 - 2 * t);
}

/// Lines along the edges in pieces, as their strength changes along the way.
void addEdges(const Frame& frame, const scene::Band& band, const std::vector<std::size_t>& chosen,
              LinePainter& lines) {
    constexpr std::size_t kPiece = 6;
    std::vector<glm::vec3> points;
    for (const bool left : {true, false}) {
        for (std::size_t first = 0; first + 1 < chosen.size(); first += kPiece) {
            points.clear();
            const std::size_t last = std::min(first + kPiece, chosen.size() - 1);
            for (std::size_t k = first; k <= last; ++k) {
                points.push_back(edge(frame, band.vertices[chosen[k]], left));
            }
            const glm::vec4 colour = band.vertices[chosen[(first + last) / 2]].colour;
            Stroke stroke;
            stroke.nearer_m = 0.25F;
            if (band.ladder) {
                stroke.colour = colour;
                stroke.width_px = 1.3F * frame.line_scale;
            } else {
                float there = 1;
                for (const glm::vec3& p : points) there = std::min(there, nearFade(frame, p));
                stroke.colour = glm::vec4(0.063F, 0.09F, 0.10F, 0.75F * colour.a * there);
                stroke.width_px = 1.2F * frame.line_scale;
            }
            lines.add(points, stroke);
        }
    }
}

void addCrossLine(const Frame& frame, const scene::BandVertex& a, const scene::BandVertex& b,
                  float f, const glm::vec4& colour, LinePainter& lines) {
    const double d = f;
    const std::array<glm::vec3, 2> points{frame.relative(glm::mix(a.left_S_m, b.left_S_m, d)),
                                          frame.relative(glm::mix(a.right_S_m, b.right_S_m, d))};
    Stroke stroke;
    stroke.colour = colour;
    stroke.width_px = 1.2F * frame.line_scale;
    stroke.nearer_m = 0.25F;
    lines.add(points, stroke);
}

}  // namespace

BandPainter::BandPainter(std::string& problem)
    : program_("band", kVertex, kFragment, problem),
      mesh_(sizeof(Vertex), {{0, 3, offsetof(Vertex, rel)},
                             {1, 4, offsetof(Vertex, colour)},
                             {2, 2, offsetof(Vertex, side_time)}}) {}

void BandPainter::drawFills(const Frame& frame) {
    vertices_.clear();
    indices_.clear();
    for (const scene::Band& band : frame.list->bands) {
        if (band.ladder) continue;
        const std::vector<std::size_t> chosen = chosenVertices(frame, band);
        const auto first = static_cast<std::uint32_t>(vertices_.size());
        const float start_s = chosen.empty() ? 0 : std::floor(band.vertices[chosen[0]].time_s);
        for (const std::size_t i : chosen) {
            const scene::BandVertex& v = band.vertices[i];
            for (const bool left : {true, false}) {
                const glm::vec3 rel = edge(frame, v, left);
                const glm::vec3 to_eye =
                    frame.orthographic ? -glm::vec3(frame.block.forward) : -rel;
                const float side = glm::dot(glm::vec3(v.canopy_S), to_eye);
                vertices_.push_back({rel, v.colour, glm::vec2(side, v.time_s - start_s)});
            }
        }
        for (std::uint32_t i = 0; i + 1 < chosen.size(); ++i) {
            const std::uint32_t a = first + 2 * i;
            for (const std::uint32_t k : {a, a + 1, a + 3, a, a + 3, a + 2}) {
                indices_.push_back(k);
            }
        }
    }
    if (indices_.empty()) return;
    mesh_.setVertices(std::span<const Vertex>(vertices_));
    mesh_.setIndices(indices_);
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    program_.use();
    program_.set("u_near_part", 0.0F);
    mesh_.draw();
    if (!frame.orthographic) {
        // What fades before the eye must not hide what is behind it.
        glDepthMask(GL_FALSE);
        program_.set("u_near_part", 1.0F);
        mesh_.draw();
        glDepthMask(GL_TRUE);
    }
    glDisable(GL_BLEND);
    glDisable(GL_DEPTH_TEST);
}

void BandPainter::addLines(const Frame& frame, LinePainter& lines) {
    for (const scene::Band& band : frame.list->bands) {
        const std::vector<std::size_t> chosen = chosenVertices(frame, band);
        addEdges(frame, band, chosen, lines);
        for (std::size_t k = 0; k + 1 < chosen.size(); ++k) {
            const scene::BandVertex& a = band.vertices[chosen[k]];
            const scene::BandVertex& b = band.vertices[chosen[k + 1]];
            if (band.ladder) {
                if (a.rung) addCrossLine(frame, a, b, 0, a.colour, lines);
                continue;
            }
            const float second = std::floor(b.time_s);
            if (second <= a.time_s || b.time_s <= a.time_s) continue;
            const float f = (second - a.time_s) / (b.time_s - a.time_s);
            const float there = nearFade(frame, frame.relative(a.left_S_m));
            addCrossLine(frame, a, b, f,
                         glm::vec4(0.063F, 0.09F, 0.10F, 0.75F * b.colour.a * there), lines);
        }
    }
}

}  // namespace plumbline::render

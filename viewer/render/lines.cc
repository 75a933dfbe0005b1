#include "viewer/render/lines.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glad/gl.h>
#include <glm/geometric.hpp>

namespace plumbline::render {
namespace {

constexpr float kFeather_px = 0.75F;

// Places are already divided by w, so what must stay straight in space (dashes) carries 1/w along.
const char* const kVertex = R"(
layout(location = 0) in vec3 a_place;
layout(location = 1) in vec4 a_colour;
layout(location = 2) in vec4 a_across;
layout(location = 3) in float a_dash;
out vec4 v_colour;
out vec4 v_across;
flat out float v_dash;
void main() {
    v_colour = a_colour;
    v_across = a_across;
    v_dash = a_dash;
    gl_Position = vec4(a_place, 1.0);
}
)";

const char* const kFragment = R"(
in vec4 v_colour;
in vec4 v_across;
flat in float v_dash;
out vec4 o_colour;
void main() {
    float cover = clamp(v_across.y + 0.5 - abs(v_across.x), 0.0, 1.0);
    if (v_dash > 0.0) {
        float at = v_across.z / v_across.w / (2.0 * v_dash);
        float soft = max(fwidth(at), 1e-4);
        float phase = abs(fract(at) - 0.5);
        float on = clamp((phase - 0.25) / soft + 0.5, 0.0, 1.0);
        cover *= mix(on, 0.5, clamp(soft * 2.5 - 0.5, 0.0, 1.0));
    }
    o_colour = vec4(v_colour.rgb, v_colour.a * cover);
}
)";

}  // namespace

LinePainter::LinePainter(std::string& problem)
    : program_("lines", kVertex, kFragment, problem),
      mesh_(sizeof(Vertex), {{0, 3, offsetof(Vertex, place)},
                             {1, 4, offsetof(Vertex, colour)},
                             {2, 4, offsetof(Vertex, across)},
                             {3, 1, offsetof(Vertex, dash_m)}}) {}

void LinePainter::begin(const Frame& frame) {
    frame_ = &frame;
    vertices_.clear();
    indices_.clear();
}

LinePainter::Corner LinePainter::cornerAt(const glm::vec4& clip, float along_m) const {
    const glm::vec3 ndc = glm::vec3(clip) / clip.w;
    const glm::vec2 size(frame_->width_px, frame_->height_px);
    return {(glm::vec2(ndc) * 0.5F + 0.5F) * size, ndc.z, 1 / clip.w, along_m, 0};
}

float LinePainter::groundHalfWidth(const glm::vec3& rel, const glm::vec3& direction,
                                   float width_m) const {
    const glm::vec2 flat(direction);
    const float length = glm::length(flat);
    if (length < 1e-6F) return 0;
    const glm::vec3 side(glm::vec3(-flat.y, flat.x, 0) * (width_m / 2 / length));
    const glm::vec4 a = frame_->clip(rel - side);
    const glm::vec4 b = frame_->clip(rel + side);
    const glm::vec4 c = frame_->clip(rel + direction * 0.01F);
    const glm::vec4 d = frame_->clip(rel);
    if (a.w <= 0 || b.w <= 0 || c.w <= 0 || d.w <= 0) return 0;
    const glm::vec2 size(frame_->width_px, frame_->height_px);
    const glm::vec2 across = (glm::vec2(b) / b.w - glm::vec2(a) / a.w) * size * 0.5F;
    const glm::vec2 along = (glm::vec2(c) / c.w - glm::vec2(d) / d.w) * size;
    const float along_length = glm::length(along);
    if (along_length < 1e-9F) return 0;
    return std::abs(across.x * along.y - across.y * along.x) / along_length / 2;
}

void LinePainter::add(std::span<const glm::vec3> points, const Stroke& stroke) {
    if (points.size() < 2 || stroke.colour.a <= 0.003F) return;
    const float near = frame_->orthographic ? -1.0F : static_cast<float>(frame_->near_m);
    const auto clipOf = [&](const glm::vec3& rel) {
        glm::vec3 p = rel;
        if (stroke.nearer_m > 0) {
            const float distance = glm::length(rel);
            p *= std::max(1 - stroke.nearer_m / std::max(distance, 0.1F), 0.5F);
        }
        return frame_->clip(p);
    };
    run_.clear();
    float along = 0;
    glm::vec4 before_clip = clipOf(points[0]);
    for (std::size_t i = 0; i < points.size(); ++i) {
        const glm::vec4 clip = clipOf(points[i]);
        const glm::vec3 step = points[i] - points[i > 0 ? i - 1 : 0];
        const float step_m = glm::length(step);
        const glm::vec3 direction = i > 0 ? step : points[1] - points[0];
        const auto push = [&](const glm::vec4& at_clip, const glm::vec3& at_rel, float at_m) {
            Corner corner = cornerAt(at_clip, at_m);
            corner.half_width_px = stroke.width_px / 2;
            if (stroke.width_m > 0 && stroke.round) {
                const float rod_px = stroke.width_m * frame_->pixelsPerMetre(at_clip.w);
                corner.half_width_px = std::max(corner.half_width_px, rod_px / 2);
            } else if (stroke.width_m > 0) {
                corner.half_width_px = std::max(corner.half_width_px,
                                                groundHalfWidth(at_rel, direction, stroke.width_m));
            }
            run_.push_back(corner);
        };
        const bool inside = clip.w > near;
        const bool was_inside = before_clip.w > near;
        if (i > 0 && inside != was_inside) {
            const float f = (near * 1.0001F - before_clip.w) / (clip.w - before_clip.w);
            push(glm::mix(before_clip, clip, f), points[i - 1] + step * f, along + step_m * f);
            if (!inside) addRun(run_, stroke);
        }
        along += step_m;
        if (inside) push(clip, points[i], along);
        before_clip = clip;
    }
    addRun(run_, stroke);
}

void LinePainter::addRun(std::vector<Corner>& run, const Stroke& stroke) {
    // Points closer than a pixel add nothing.
    std::size_t kept = 0;
    for (std::size_t i = 0; i < run.size(); ++i) {
        if (kept > 0 && i + 1 < run.size() && glm::length(run[i].px - run[kept - 1].px) < 0.8F) {
            continue;
        }
        if (kept > 0 && glm::length(run[i].px - run[kept - 1].px) < 1e-4F) continue;
        run[kept++] = run[i];
    }
    run.resize(kept);
    if (run.size() < 2) {
        run.clear();
        return;
    }
    const glm::vec2 size(frame_->width_px, frame_->height_px);
    const auto first = static_cast<std::uint32_t>(vertices_.size());
    for (std::size_t i = 0; i < run.size(); ++i) {
        const glm::vec2 in = i > 0 ? glm::normalize(run[i].px - run[i - 1].px)
                                   : glm::normalize(run[1].px - run[0].px);
        const glm::vec2 out = i + 1 < run.size() ? glm::normalize(run[i + 1].px - run[i].px) : in;
        glm::vec2 middle = in + out;
        middle = glm::length(middle) > 1e-3F ? glm::normalize(middle) : in;
        const glm::vec2 normal(-middle.y, middle.x);
        const float mitre = 1 / std::max(glm::dot(middle, out), 0.4F);
        const Corner& corner = run[i];
        // Thinner than a pixel: a pixel wide and fainter, never broken up.
        const float half = std::max(corner.half_width_px, 0.5F);
        glm::vec4 colour = stroke.colour;
        colour.a *= std::min(corner.half_width_px / 0.5F, 1.0F);
        const float reach = half + kFeather_px;
        for (const float side : {-1.0F, 1.0F}) {
            const glm::vec2 ndc =
                (corner.px + normal * (side * reach * mitre)) / size * 2.0F - 1.0F;
            vertices_.push_back(
                {glm::vec3(ndc, corner.depth), colour,
                 glm::vec4(side * reach, half, corner.along_m * corner.inverse_w, corner.inverse_w),
                 stroke.dash_m});
        }
    }
    for (std::uint32_t i = 0; i + 1 < run.size(); ++i) {
        const std::uint32_t a = first + 2 * i;
        // Far outside the picture the driver would clip for nothing.
        const glm::vec2 p = glm::abs(glm::vec2(vertices_[a].place));
        const glm::vec2 q = glm::abs(glm::vec2(vertices_[a + 2].place));
        if (std::min(p.x, q.x) > 1e4F || std::min(p.y, q.y) > 1e4F) continue;
        for (const std::uint32_t k : {a, a + 1, a + 3, a, a + 3, a + 2}) indices_.push_back(k);
    }
    run.clear();
}

void LinePainter::addPolyline(const scene::Polyline& line) {
    std::vector<glm::vec3> points;
    points.reserve(line.points_S_m.size());
    for (const Vec3& p : line.points_S_m) points.push_back(frame_->relative(p));
    Stroke stroke;
    stroke.colour = line.colour;
    stroke.width_px = line.width_px * frame_->line_scale;
    stroke.width_m = line.width_m;
    stroke.round = line.round;
    stroke.dash_m = line.dash_m;
    if (line.halo_px > 0) {
        Stroke halo = stroke;
        halo.colour = glm::vec4(0.063F, 0.09F, 0.10F, 0.35F * line.colour.a);
        halo.width_px = line.halo_px * frame_->line_scale;
        add(points, halo);
    }
    add(points, stroke);
}

void LinePainter::addBob(const scene::Bob& bob) {
    const glm::vec4 clip = frame_->clip(frame_->relative(bob.position_S_m));
    if (clip.w <= 0) return;
    const Corner tip = cornerAt(clip, 0);
    const float unit_px = bob.size_px / 17 * frame_->line_scale;
    // The plumb bob of the sheet, its point on the place; y upwards from the point.
    const std::array<glm::vec2, 6> outline{glm::vec2(0, 17), glm::vec2(5, 12), glm::vec2(5, 9),
                                           glm::vec2(0, 0),  glm::vec2(-5, 9), glm::vec2(-5, 12)};
    const glm::vec2 size(frame_->width_px, frame_->height_px);
    const glm::vec2 middle(0, 10);
    const auto corner = [&](const glm::vec2& at_px, const glm::vec4& colour, float inside_px) {
        const glm::vec2 ndc = (tip.px + at_px) / size * 2.0F - 1.0F;
        vertices_.push_back({glm::vec3(ndc, tip.depth), colour, glm::vec4(0, inside_px, 0, 1), 0});
    };
    // A dark rim first, then the body; the feather is the last pixel of each.
    for (const auto& [grow_px, colour] :
         {std::pair<float, glm::vec4>{1.3F * frame_->line_scale,
                                      glm::vec4(0.063F, 0.09F, 0.10F, 0.55F * bob.colour.a)},
          std::pair<float, glm::vec4>{0.0F, bob.colour}}) {
        const auto first = static_cast<std::uint32_t>(vertices_.size());
        corner(middle * unit_px, colour, 10);
        for (const glm::vec2& p : outline) {
            const glm::vec2 out = glm::normalize(p - middle);
            corner(p * unit_px + out * grow_px, colour, 0.5F);
            corner(p * unit_px + out * (grow_px + 1), colour, -0.5F);
        }
        for (std::uint32_t i = 0; i < 6; ++i) {
            const std::uint32_t a = first + 1 + 2 * i;
            const std::uint32_t b = first + 1 + 2 * ((i + 1) % 6);
            for (const std::uint32_t k : {first, a, b, a, a + 1, b + 1, a, b + 1, b}) {
                indices_.push_back(k);
            }
        }
    }
}

void LinePainter::flush(bool depth_test) {
    if (!indices_.empty()) {
        mesh_.setVertices(std::span<const Vertex>(vertices_));
        mesh_.setIndices(indices_);
        if (depth_test) {
            glEnable(GL_DEPTH_TEST);
        } else {
            glDisable(GL_DEPTH_TEST);
        }
        glDepthMask(GL_FALSE);
        glEnable(GL_BLEND);
        glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
        program_.use();
        mesh_.draw();
        glDisable(GL_BLEND);
        glDepthMask(GL_TRUE);
        glDisable(GL_DEPTH_TEST);
    }
    vertices_.clear();
    indices_.clear();
}

}  // namespace plumbline::render

#include "viewer/render/ground.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include <glad/gl.h>

namespace plumbline::render {
namespace {

/// Half sides of the three textures [m].
constexpr std::array<float, 3> kHalf_m{600, 2400, kCountryHalf_m};

const char* const kPaintVertex = R"(
layout(location = 0) in vec2 a_at;
layout(location = 1) in vec4 a_colour;
layout(location = 2) in vec2 a_across;
layout(location = 3) in vec3 a_pitch_kind_pad;
layout(location = 4) in vec2 a_widen;
uniform float u_half;
uniform float u_texel;
out vec2 v_at;
out vec4 v_colour;
out vec2 v_across;
flat out vec2 v_pitch_kind;
void main() {
    vec2 at = a_at;
    v_colour = a_colour;
    float kind = a_pitch_kind_pad.y;
    if (kind > 1.5 && kind < 3.5) {
        // A strip thinner than the texels is painted wider and weaker.
        float half_width = a_pitch_kind_pad.x;
        float wide = max(half_width, 0.8 * u_texel);
        at += a_widen * (wide - half_width);
        v_colour.a *= half_width / wide;
    }
    v_at = at;
    v_across = a_across;
    v_pitch_kind = a_pitch_kind_pad.xy;
    gl_Position = vec4(at / u_half, 0.0, 1.0);
}
)";

const char* const kPaintFragment = R"(
in vec2 v_at;
in vec4 v_colour;
in vec2 v_across;
flat in vec2 v_pitch_kind;
uniform float u_texel;
uniform vec2 u_cloud_shadow;  // strength, cover
out vec4 o_colour;
// How much of a pattern of this length the texels can carry.
float carried(float length_m) { return clamp(length_m / u_texel * 0.5 - 0.6, 0.0, 1.0); }
float grain(float length_m) { return (valueNoise(v_at / length_m) - 0.5) * carried(length_m); }
void main() {
    vec4 colour = v_colour;
    float kind = v_pitch_kind.y;
    if (kind < 1.5) {
        float wide = fractalNoise(v_at / 240.0, 4) - 0.47;
        float fine = grain(31.0) * 0.5 + grain(9.0) * 0.5 + grain(2.6) * 0.6 + grain(1.3) * 0.45;
        if (kind < 0.5) {
            colour.rgb *= 1.0 + 0.42 * wide + 0.26 * fine;
            float pitch = v_pitch_kind.x;
            if (pitch > 0.0) {
                float across = dot(v_at, vec2(-v_across.y, v_across.x));
                float bend = 2.5 * valueNoise(v_at / 90.0);
                colour.rgb *= 1.0 + 0.07 * carried(pitch) *
                                        sin((across + bend) * 6.2832 / pitch);
                // Wheel tracks every 24 m.
                float track = abs(fract((across + bend) / 24.0) - 0.5) * 24.0;
                float lines = 1.0 - smoothstep(0.4, 0.4 + 1.2 * u_texel, abs(track - 1.0));
                colour.rgb *= 1.0 - 0.13 * lines * clamp(1.2 - 0.18 * u_texel, 0.0, 1.0);
            }
        } else {
            float dry = clamp(0.42 + 1.5 * wide + 0.5 * fine, 0.0, 1.0);
            colour.rgb = mix(vec3(0.318, 0.388, 0.205), vec3(0.482, 0.496, 0.308), dry);
            float across = dot(v_at, vec2(-v_across.y, v_across.x));
            float stripe = fract(across / 24.0);
            float edge = max(u_texel / 24.0, 0.03);
            float up = smoothstep(0.0, edge, stripe) - smoothstep(0.5, 0.5 + edge, stripe);
            colour.rgb *= 1.0 + 0.065 * (2.0 * up - 1.0) * carried(24.0);
            colour.rgb *= 1.0 + 0.20 * fine;
        }
    } else if (kind < 2.5) {
        float ragged = abs(v_across.x) + 0.9 * (valueNoise(v_at / 6.0) - 0.5) * carried(6.0);
        colour.a *= 1.0 - smoothstep(0.35, 0.95, ragged);
        colour.rgb *= 1.0 + 0.5 * grain(4.0);
    } else if (kind < 3.5) {
        colour.a *= 1.0 - smoothstep(0.75, 1.0, abs(v_across.x));
        colour.rgb *= 1.0 + 0.15 * grain(3.0);
    } else {
        float r = length(v_across) + 0.3 * (valueNoise(v_at / 4.0) - 0.5) * carried(4.0);
        colour.a *= 1.0 - smoothstep(0.45, 1.0, r);
    }
    if (kind < 1.5) {
        float shade = smoothstep(1.02 - 0.75 * u_cloud_shadow.y, 1.25 - 0.75 * u_cloud_shadow.y,
                                 2.0 * fractalNoise(v_at / 900.0 + 31.7, 3));
        colour.rgb *= 1.0 - u_cloud_shadow.x * shade;
    }
    o_colour = colour;
}
)";

const char* const kLitVertex = R"(
layout(location = 0) in vec2 a_at;
uniform float u_half;
uniform float u_fade;
out vec2 v_uv;
out vec4 v_haze;
out vec4 v_light;
void main() {
    vec3 rel = vec3(a_at, 0.0) - u_eye.xyz;
    float amount = hazeAmount(rel);
    v_haze = vec4(hazeColour(rel) * amount, 1.0 - amount);
    float edge = max(abs(a_at.x), abs(a_at.y)) / u_half;
    v_light.a = u_fade > 0.5 ? clamp((1.0 - edge) * 7.0, 0.0, 1.0) : 1.0;
    // Grass seen against the low sun is brighter and warmer than with it at one's back.
    vec3 dir = normalize(rel);
    float towards = dot(normalize(dir.xy + 1e-5), normalize(u_sun.xy + 1e-5));
    float direct = pow(max(u_sun.z, 0.0), 0.25) * mix(0.80, 1.05, u_sun.w) * u_sunlight.w;
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.90, 0.70), u_sun.w * 0.8);
    float sheen = 1.0 + 0.16 * u_sun.w * towards;
    v_light.rgb = (u_ambient.rgb * 0.62 + sun * (0.82 * direct * sheen)) * (1.0 - amount);
    v_uv = a_at / (2.0 * u_half) + 0.5;
    gl_Position = u_clip_from_rel * vec4(rel, 1.0);
}
)";

const char* const kLitFragment = R"(
in vec2 v_uv;
in vec4 v_haze;
in vec4 v_light;
uniform sampler2D u_ground;
out vec4 o_colour;
void main() {
    o_colour = vec4(texture(u_ground, v_uv).rgb * v_light.rgb + v_haze.rgb, v_light.a);
}
)";

/// Grid lines of one level, and the square in its middle that the finer level covers.
struct GridPlan {
    std::vector<float> lines_m;
    float hole_m = 0;
};

GridPlan gridPlan(int level) {
    GridPlan plan;
    const float half = kHalf_m[static_cast<std::size_t>(level)];
    const float step = level == 0 ? 100.0F : level == 1 ? 200.0F : 800.0F;
    plan.hole_m = level == 0 ? 0.0F : level == 1 ? 400.0F : 1600.0F;
    // Beyond the country: the texture repeats mirrored, under thick haze.
    const std::vector<float> beyond{60000, 36000, 22000, 14000};
    if (level == 2) {
        for (const float x : beyond) plan.lines_m.push_back(-x);
    }
    for (float x = -half; x <= half + 1; x += step) plan.lines_m.push_back(x);
    if (level == 2) {
        for (auto x = beyond.rbegin(); x != beyond.rend(); ++x) plan.lines_m.push_back(*x);
    }
    return plan;
}

Mesh makeGrid(int level) {
    const GridPlan plan = gridPlan(level);
    const auto count = static_cast<std::uint32_t>(plan.lines_m.size());
    std::vector<glm::vec2> vertices;
    for (const float y : plan.lines_m) {
        for (const float x : plan.lines_m) vertices.emplace_back(x, y);
    }
    std::vector<std::uint32_t> indices;
    for (std::uint32_t j = 0; j + 1 < count; ++j) {
        for (std::uint32_t i = 0; i + 1 < count; ++i) {
            const glm::vec2 middle =
                (vertices[j * count + i] + vertices[(j + 1) * count + i + 1]) / 2.0F;
            if (std::max(std::abs(middle.x), std::abs(middle.y)) < plan.hole_m) continue;
            const std::uint32_t a = j * count + i;
            for (const std::uint32_t k : {a, a + 1, a + count + 1, a, a + count + 1, a + count}) {
                indices.push_back(k);
            }
        }
    }
    Mesh mesh(sizeof(glm::vec2), {{0, 2, 0}});
    mesh.setVertices(std::span<const glm::vec2>(vertices));
    mesh.setIndices(indices);
    return mesh;
}

}  // namespace

Ground::Ground(std::string& problem)
    : paint_("ground painting", kPaintVertex, kPaintFragment, problem),
      lit_("ground", kLitVertex, kLitFragment, problem),
      paint_mesh_(sizeof(PaintVertex), {{0, 2, offsetof(PaintVertex, at_S_m)},
                                        {1, 4, offsetof(PaintVertex, colour)},
                                        {2, 2, offsetof(PaintVertex, across)},
                                        {3, 3, offsetof(PaintVertex, pitch_m)},
                                        {4, 2, offsetof(PaintVertex, widen)}}) {
    for (int level = 0; level < kLevels; ++level) {
        grids_[static_cast<std::size_t>(level)] = makeGrid(level);
    }
}

void Ground::setLandscape(const Landscape& landscape, const scene::World& world,
                          int texture_side_px) {
    side_px_ = texture_side_px;
    const float cover = static_cast<float>(world.weather.cloud_cover_frac);
    const bool sunny = world.sun_elevation_rad > 0.02;
    cloud_shadow_ = sunny ? std::min(cover, 0.8F) : 0.0F;
    paint_mesh_.setVertices(std::span<const PaintVertex>(landscape.paint));
    paint_mesh_.setIndices(landscape.paint_indices);
    constexpr int kCoarse_px = 256;
    for (int level = 0; level < kLevels; ++level) {
        Texture coarse(kCoarse_px, kCoarse_px, 4, nullptr, Filter::Trilinear, Wrap::Mirror);
        const Target target(coarse, false);
        paintBand(level, target, 0, 1);
        coarse.makeMipmaps();
        shown_[static_cast<std::size_t>(level)] = std::move(coarse);
    }
    done_ = 0;
}

int Ground::pendingWork() const { return kLevels * kPieces - done_; }

void Ground::work() {
    if (pendingWork() == 0) return;
    const int level = done_ / kPieces;
    const int piece = done_ % kPieces;
    if (piece == 0) {
        next_ = Texture(side_px_, side_px_, 4, nullptr, Filter::Trilinear, Wrap::Mirror);
        next_target_ = Target(next_, false);
    }
    paintBand(level, next_target_, piece, kPieces);
    if (piece == kPieces - 1) {
        next_.makeMipmaps();
        next_target_ = Target();
        shown_[static_cast<std::size_t>(level)] = std::move(next_);
        next_ = Texture();
    }
    ++done_;
}

void Ground::paintBand(int level, const Target& target, int piece, int pieces) const {
    target.bind();
    glDisable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    glEnable(GL_SCISSOR_TEST);
    const int from = target.height() * piece / pieces;
    const int to = target.height() * (piece + 1) / pieces;
    glScissor(0, from, target.width(), to - from);
    glClearColor(0.33F, 0.40F, 0.22F, 1);
    glClear(GL_COLOR_BUFFER_BIT);
    const float half = kHalf_m[static_cast<std::size_t>(level)];
    paint_.use();
    paint_.set("u_half", half);
    paint_.set("u_texel", 2 * half / static_cast<float>(target.width()));
    paint_.set("u_cloud_shadow", glm::vec2(0.22F, cloud_shadow_));
    paint_mesh_.draw();
    glDisable(GL_SCISSOR_TEST);
    glDisable(GL_BLEND);
}

void Ground::draw(const Frame& frame) const {
    if (shown_[0].width() == 0) return;
    glDisable(GL_DEPTH_TEST);
    lit_.use();
    lit_.set("u_ground", 0);
    for (int level = kLevels - 1; level >= 0; --level) {
        const auto k = static_cast<std::size_t>(level);
        // From far above, the fine texture would only be minified.
        if (level == 0 &&
            frame.pixelsPerMetre(static_cast<float>(frame.camera().eye_S_m.z)) < 0.3F) {
            continue;
        }
        shown_[k].bind(0);
        lit_.set("u_half", kHalf_m[k]);
        lit_.set("u_fade", level < kLevels - 1 ? 1.0F : 0.0F);
        if (level < kLevels - 1) {
            glEnable(GL_BLEND);
            glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
        }
        grids_[k].draw();
    }
    glDisable(GL_BLEND);
}

}  // namespace plumbline::render

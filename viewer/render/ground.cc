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

// The user's own picture from above, soft at its edges.
const char* const kPictureVertex = R"(
layout(location = 0) in vec2 a_at;
layout(location = 1) in vec2 a_uv;
uniform float u_half;
out vec2 v_uv;
void main() {
    v_uv = a_uv;
    gl_Position = vec4(a_at / u_half, 0.0, 1.0);
}
)";

const char* const kPictureFragment = R"(
in vec2 v_uv;
uniform sampler2D u_picture;
out vec4 o_colour;
void main() {
    vec4 c = texture(u_picture, v_uv);
    vec2 edge = min(v_uv, 1.0 - v_uv);
    o_colour = vec4(c.rgb, c.a * smoothstep(0.0, 0.015, min(edge.x, edge.y)));
}
)";

const char* const kLitVertex = R"(
layout(location = 0) in vec2 a_at;
uniform float u_half;
uniform float u_fade;
out vec2 v_uv;
out vec3 v_haze;
out vec4 v_light;
void main() {
    vec3 rel = vec3(a_at, 0.0) - u_eye.xyz;
    float amount = hazeAmount(rel);
    v_haze = hazeColour(rel) * amount;
    float edge = max(abs(a_at.x), abs(a_at.y)) / u_half;
    v_light.a = u_fade > 0.5 ? clamp((1.0 - edge) * 6.0, 0.0, 1.0) : 1.0;
    // Grass seen against the low sun is brighter and warmer than with it at one's back.
    vec3 dir = normalize(rel);
    float towards = dot(normalize(dir.xy + 1e-5), normalize(u_sun.xy + 1e-5));
    float direct = pow(max(u_sun.z, 0.0), 0.18) * mix(0.80, 1.05, u_sun.w) * u_sunlight.w;
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.90, 0.70), u_sun.w * 0.8);
    float sheen = 1.0 + 0.16 * u_sun.w * towards;
    v_light.rgb = (u_ambient.rgb * 0.64 + sun * (0.82 * direct * sheen)) * (1.0 - amount);
    v_uv = a_at / (2.0 * u_half) + 0.5;
    gl_Position = u_clip_from_rel * vec4(rel, 1.0);
}
)";

const char* const kLitFragment = R"(
in vec2 v_uv;
in vec3 v_haze;
in vec4 v_light;
uniform sampler2D u_ground;
out vec4 o_colour;
void main() {
    o_colour = vec4(texture(u_ground, v_uv).rgb * v_light.rgb + v_haze, v_light.a);
}
)";

// Near the eye the texture is coarse: tufts and blades as far as a pixel can carry them, laid over
// it as a factor about one half. A disc of its own, as the software driver runs both sides of a
// branch.
const char* const kBladesVertex = R"(
layout(location = 0) in vec2 a_at;
uniform float u_reach;
out vec2 v_at;
out float v_near;
void main() {
    vec2 offset = a_at * u_reach;
    v_at = u_eye.xy + offset;
    v_near = 1.0 - length(a_at);
    gl_Position = u_clip_from_rel * vec4(offset, -u_eye.z, 1.0);
}
)";

const char* const kBladesFragment = R"(
in vec2 v_at;
in float v_near;
out vec4 o_colour;
void main() {
    float pixel_m = max(fwidth(v_at.x), fwidth(v_at.y));
    float tufts = (valueNoise(v_at * 1.3) - 0.5) * clamp(1.5 - 1.0 * pixel_m, 0.0, 1.0);
    float blades = (valueNoise(v_at * 6.0) - 0.5) * clamp(1.5 - 4.0 * pixel_m, 0.0, 1.0);
    o_colour = vec4(vec3(0.5 + (0.16 * tufts + 0.20 * blades) * v_near), 1.0);
}
)";

Mesh makeDisc() {
    std::vector<glm::vec2> vertices;
    std::vector<std::uint32_t> indices;
    constexpr std::uint32_t kSides = 20;
    vertices.emplace_back(0, 0);
    for (std::uint32_t i = 0; i < kSides; ++i) {
        const float a = static_cast<float>(i) / kSides * 6.2831853F;
        vertices.emplace_back(std::cos(a), std::sin(a));
        for (const std::uint32_t k : {0U, i + 1, (i + 1) % kSides + 1}) indices.push_back(k);
    }
    Mesh mesh(sizeof(glm::vec2), {{0, 2, 0}});
    mesh.setVertices(std::span<const glm::vec2>(vertices));
    mesh.setIndices(indices);
    return mesh;
}

/// Grid lines of one level, the square in its middle that the finer level covers, and where its rim
/// begins to fade into the coarser level.
struct GridPlan {
    std::vector<float> lines_m;
    float hole_m = 0;
    float rim_m = 0;
};

GridPlan gridPlan(int level) {
    GridPlan plan;
    // Half of the lines; the coarsest goes on beyond the country, where the texture repeats
    // mirrored under thick haze.
    std::vector<float> half;
    switch (level) {
        case 0:
            half = {0, 125, 250, 375, 500, 600};
            plan.rim_m = 500;
            break;
        case 1:
            half = {0, 250, 500, 600, 800, 1000, 1200, 1400, 1600, 1800, 2000, 2400};
            plan.hole_m = 500;
            plan.rim_m = 2000;
            break;
        default:
            half = {0,    1000, 2000, 2400, 3000,  3600,  4400,  5200,
                    6200, 7300, 8400, 9600, 14000, 22000, 36000, 60000};
            plan.hole_m = 2000;
            plan.rim_m = 1e9F;
            break;
    }
    for (auto x = half.rbegin(); x != half.rend(); ++x) {
        if (*x > 0) plan.lines_m.push_back(-*x);
    }
    plan.lines_m.insert(plan.lines_m.end(), half.begin(), half.end());
    return plan;
}

/// @param opaque_count  how many indices, from the first, belong to the part that needs no blending
Mesh makeGrid(int level, std::size_t& opaque_count, std::size_t& index_count) {
    const GridPlan plan = gridPlan(level);
    const auto count = static_cast<std::uint32_t>(plan.lines_m.size());
    std::vector<glm::vec2> vertices;
    for (const float y : plan.lines_m) {
        for (const float x : plan.lines_m) vertices.emplace_back(x, y);
    }
    std::vector<std::uint32_t> indices;
    for (const bool rim : {false, true}) {
        for (std::uint32_t j = 0; j + 1 < count; ++j) {
            for (std::uint32_t i = 0; i + 1 < count; ++i) {
                const std::uint32_t a = j * count + i;
                const glm::vec2 middle = (vertices[a] + vertices[a + count + 1]) / 2.0F;
                const float reach = std::max(std::abs(middle.x), std::abs(middle.y));
                if (reach < plan.hole_m || (reach > plan.rim_m) != rim) continue;
                for (const std::uint32_t k :
                     {a, a + 1, a + count + 1, a, a + count + 1, a + count}) {
                    indices.push_back(k);
                }
            }
        }
        if (!rim) opaque_count = indices.size();
    }
    index_count = indices.size();
    Mesh mesh(sizeof(glm::vec2), {{0, 2, 0}});
    mesh.setVertices(std::span<const glm::vec2>(vertices));
    mesh.setIndices(indices);
    return mesh;
}

}  // namespace

Ground::Ground(std::string& problem)
    : paint_("ground painting", kPaintVertex, kPaintFragment, problem),
      picture_("aerial picture", kPictureVertex, kPictureFragment, problem),
      lit_("ground", kLitVertex, kLitFragment, problem),
      blades_("grass", kBladesVertex, kBladesFragment, problem),
      disc_(makeDisc()),
      paint_mesh_(sizeof(PaintVertex), {{0, 2, offsetof(PaintVertex, at_S_m)},
                                        {1, 4, offsetof(PaintVertex, colour)},
                                        {2, 2, offsetof(PaintVertex, across)},
                                        {3, 3, offsetof(PaintVertex, pitch_m)},
                                        {4, 2, offsetof(PaintVertex, widen)}}),
      aerial_mesh_(sizeof(glm::vec4), {{0, 2, 0}, {1, 2, sizeof(glm::vec2)}}) {
    for (int level = 0; level < kLevels; ++level) {
        const auto k = static_cast<std::size_t>(level);
        grids_[k] = makeGrid(level, opaque_count_[k], index_count_[k]);
    }
}

void Ground::setLandscape(const Landscape& landscape, const scene::World& world,
                          int texture_side_px) {
    side_px_ = texture_side_px;
    // Each piece takes all that is painted through the driver: of small textures few.
    constexpr int kSmall_px = 1024;
    pieces_ = texture_side_px > kSmall_px ? kPieces : kPieces / 4;
    const float cover = static_cast<float>(world.weather.cloud_cover_frac);
    const bool sunny = world.sun_elevation_rad > 0.02;
    cloud_shadow_ = sunny ? std::min(cover, 0.8F) : 0.0F;
    paint_mesh_.setVertices(std::span<const PaintVertex>(landscape.paint));
    paint_mesh_.setIndices(landscape.paint_indices);
    setAerial(world.aerial.get());
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

void Ground::setAerial(const scene::GroundPicture* aerial) {
    aerial_ = Texture();
    if (aerial == nullptr || aerial->width_px < 1) return;
    aerial_ = Texture(aerial->width_px, aerial->height_px, 4, aerial->rgba.data(),
                      Filter::Trilinear, Wrap::Clamp);
    aerial_.makeMipmaps();
    const glm::vec2 left(aerial->top_left_S_m), right(aerial->top_right_S_m),
        below(aerial->bottom_left_S_m);
    const std::array<glm::vec4, 4> corners{glm::vec4(left, 0, 0), glm::vec4(right, 1, 0),
                                           glm::vec4(below, 0, 1),
                                           glm::vec4(below + right - left, 1, 1)};
    aerial_mesh_.setVertices(std::span<const glm::vec4>(corners));
}

int Ground::pendingWork() const { return kLevels * pieces_ - done_; }

void Ground::work() {
    if (pendingWork() == 0) return;
    const int level = done_ / pieces_;
    const int piece = done_ % pieces_;
    if (piece == 0) {
        next_ = Texture(side_px_, side_px_, 4, nullptr, Filter::Trilinear, Wrap::Mirror);
        next_target_ = Target(next_, false);
    }
    paintBand(level, next_target_, piece, pieces_);
    if (piece == pieces_ - 1) {
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
    if (aerial_.width() > 0) {
        picture_.use();
        picture_.set("u_half", half);
        picture_.set("u_picture", 0);
        aerial_.bind(0);
        aerial_mesh_.drawStrip();
    }
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
        // From far above, the fine texture would only be minified: the next one serves its place.
        const bool far =
            level == 0 && frame.pixelsPerMetre(static_cast<float>(frame.camera().eye_S_m.z)) < 0.3F;
        const std::size_t texture = far ? k + 1 : k;
        shown_[texture].bind(0);
        // A map has one scale, so that no change of level can show and half the fetches suffice.
        const bool one_level = frame.orthographic || frame.list->quality == scene::Quality::Low;
        glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER,
                        one_level ? GL_LINEAR_MIPMAP_NEAREST : GL_LINEAR_MIPMAP_LINEAR);
        lit_.set("u_half", kHalf_m[texture]);
        lit_.set("u_fade", level < kLevels - 1 && !far ? 1.0F : 0.0F);
        grids_[k].drawIndices(0, opaque_count_[k]);
        if (index_count_[k] == opaque_count_[k]) continue;
        glEnable(GL_BLEND);
        glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
        grids_[k].drawIndices(opaque_count_[k], index_count_[k] - opaque_count_[k]);
        glDisable(GL_BLEND);
    }
    constexpr float kBladesReach_m = 80;
    if (!frame.orthographic && frame.list->quality != scene::Quality::Low &&
        frame.camera().eye_S_m.z < 60) {
        glEnable(GL_BLEND);
        glBlendFunc(GL_DST_COLOR, GL_SRC_COLOR);  // twice the product
        blades_.use();
        blades_.set("u_reach", kBladesReach_m);
        disc_.draw();
        glDisable(GL_BLEND);
    }
}

}  // namespace plumbline::render

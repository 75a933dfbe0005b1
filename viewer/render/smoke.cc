#include "viewer/render/smoke.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glad/gl.h>
#include <glm/geometric.hpp>

#include "viewer/render/painting.h"

namespace plumbline::render {
namespace {

constexpr int kPuff_px = 64;
constexpr int kPuffs = 4;
constexpr std::size_t kMost = 1400;  ///< sprites a frame, after merging

const char* const kVertex = R"(
layout(location = 0) in vec4 a_clip;
layout(location = 1) in vec4 a_uv_spent_lumps;
layout(location = 2) in vec4 a_sun_opacity;
layout(location = 3) in vec4 a_haze;
out vec4 v_uv_spent_lumps;
flat out vec4 v_sun_opacity;
flat out vec4 v_haze;
void main() {
    v_uv_spent_lumps = a_uv_spent_lumps;
    v_sun_opacity = a_sun_opacity;
    v_haze = a_haze;
    gl_Position = a_clip;
}
)";

// White, never grey: the shaded side takes the sky's light, the lit side the sun's.
const char* const kFragment = R"(
in vec4 v_uv_spent_lumps;
flat in vec4 v_sun_opacity;
flat in vec4 v_haze;
uniform sampler2D u_puffs;
out vec4 o_colour;
void main() {
    vec4 puff = texture(u_puffs, v_uv_spent_lumps.xy);
    puff.rgb = mix(vec3(0.5, 0.5, 0.86), puff.rgb, v_uv_spent_lumps.w);
    // A puff's ball dissolves from its edge: what is left is thick in the middle only.
    puff.a *= mix(1.0, puff.a * puff.a * puff.b * puff.b, v_uv_spent_lumps.z);
    vec3 n = puff.rgb * 2.0 - 1.0;
    float lit = clamp(0.5 + 0.55 * dot(n, v_sun_opacity.xyz), 0.0, 1.0);
    vec3 shade = mix(u_ambient.rgb, vec3(1.0), 0.38) * (0.62 + 0.38 * u_sunlight.w);
    vec3 sunny = mix(vec3(1.0), u_sunlight.rgb, 0.5);
    vec3 c = mix(shade, sunny, lit * u_sunlight.w);
    o_colour = vec4(mix(c, v_haze.rgb, v_haze.a), puff.a * v_sun_opacity.w);
}
)";

/// Four balls of cotton: normals in RGB, noise-eaten density in A.
Texture makeAtlas() {
    const int width = kPuff_px * kPuffs;
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(width * kPuff_px * 4));
    for (int puff = 0; puff < kPuffs; ++puff) {
        const auto seed = static_cast<std::uint32_t>(41 + puff * 7);
        for (int y = 0; y < kPuff_px; ++y) {
            for (int x = 0; x < kPuff_px; ++x) {
                const glm::vec2 p = (glm::vec2(x, y) + 0.5F) / (kPuff_px / 2.0F) - 1.0F;
                const float r = glm::length(p);
                const float lumps = fractal(p * 2.1F, seed, 4);
                const float bump_x = fractal(p * 2.1F + glm::vec2(0.06F, 0), seed, 4) - lumps;
                const float bump_y = fractal(p * 2.1F + glm::vec2(0, 0.06F), seed, 4) - lumps;
                const float eaten = r + 0.75F * (lumps - 0.47F);
                float density = 1 - smooth(0.40F, 0.82F, eaten);
                density *= 1 - smooth(0.82F, 0.99F, r);
                glm::vec3 n(p.x - 5 * bump_x, p.y - 5 * bump_y, 0);
                const float flat = std::min(glm::length(glm::vec2(n)), 0.98F);
                if (flat > 0) n *= flat / glm::length(n);
                n.z = std::sqrt(1 - flat * flat);
                const auto at = static_cast<std::size_t>((y * width + puff * kPuff_px + x) * 4);
                for (int k = 0; k < 3; ++k) {
                    pixels[at + static_cast<std::size_t>(k)] = toByte(n[k] * 0.5F + 0.5F);
                }
                pixels[at + 3] = toByte(density);
            }
        }
    }
    return Texture(width, kPuff_px, 4, pixels.data(), Filter::Trilinear, Wrap::Clamp);
}

/// How far apart puffs stand, over their diameter. Small ones cost little to fill and, far apart,
/// look like beads on a string; large ones show their own lumps.
float gapPart(float seen_px) { return glm::mix(0.20F, 0.40F, smooth(8.0F, 60.0F, seen_px)); }

/// How much of a puff's own light is seen; what is left is that of a plain ball. Lumps that are
/// smaller than a pixel or two would only flicker.
float lumpsSeen(float seen_px) { return smooth(6.0F, 48.0F, seen_px); }

}  // namespace

SmokePainter::SmokePainter(std::string& problem)
    : program_("smoke", kVertex, kFragment, problem),
      mesh_(sizeof(Vertex), {{0, 4, offsetof(Vertex, clip)},
                             {1, 4, offsetof(Vertex, uv_spent_lumps)},
                             {2, 4, offsetof(Vertex, sun_opacity)},
                             {3, 4, offsetof(Vertex, haze)}}),
      atlas_(makeAtlas()) {}

void SmokePainter::gather(const Frame& frame) {
    sprites_.clear();
    const auto& puffs = frame.list->smoke;
    const glm::vec3 forward(frame.block.forward);
    const float spread =
        1.1F * std::hypot(static_cast<float>(frame.width_px), static_cast<float>(frame.height_px)) /
        2 / frame.focal_px;
    // Neighbours closer together than they can be told apart become one.
    std::size_t i = 0;
    while (i < puffs.size()) {
        const scene::Puff& head = puffs[i];
        const glm::vec3 rel = frame.relative(head.position_S_m);
        const float forward_m = glm::dot(rel, forward);
        const float seen_px = head.diameter_m * frame.pixelsPerMetre(forward_m);
        float gap_m = std::max(0.8F, head.diameter_m * gapPart(seen_px));
        if (frame.list->quality == scene::Quality::Low) {
            // chosen: farther apart large ones become beads
            gap_m = std::clamp(0.46F * head.diameter_m, gap_m, 1.7F * gap_m);
        }
        glm::vec3 sum = rel;
        float through = 1 - head.opacity;
        std::size_t next = i + 1;
        while (next < puffs.size() && next - i < 12) {
            const glm::vec3 other = frame.relative(puffs[next].position_S_m);
            if (glm::length(other - rel) > gap_m) break;
            sum += other;
            through *= 1 - puffs[next].opacity;
            ++next;
        }
        Sprite sprite;
        sprite.rel = sum / static_cast<float>(next - i);
        sprite.radius_m = head.diameter_m / 2 * 1.12F;  // the eaten edge takes some away
        sprite.opacity = 1 - through;
        sprite.seed = head.seed;
        sprite.lumps = lumpsSeen(seen_px);
        sprite.spent = std::clamp(head.spent * 1.6F - 0.2F, 0.0F, 1.0F);
        sprite.distance_m = frame.orthographic ? forward_m : glm::length(sprite.rel);
        i = next;
        const float side = glm::length(sprite.rel - forward * forward_m);
        const bool outside = frame.orthographic ? false
                                                : forward_m < -sprite.radius_m ||
                                                      side > spread * std::max(forward_m, 0.0F) +
                                                                 3 * sprite.radius_m + 2;
        if (sprite.opacity > 0.008F && !outside) sprites_.push_back(sprite);
    }
    std::sort(sprites_.begin(), sprites_.end(),
              [](const Sprite& a, const Sprite& b) { return a.distance_m > b.distance_m; });
    if (sprites_.size() > kMost) {
        sprites_.erase(sprites_.begin(), sprites_.end() - static_cast<std::ptrdiff_t>(kMost));
    }
}

void SmokePainter::emit(const Frame& frame, const Sprite& sprite) {
    const glm::vec3 right(frame.block.right), up(frame.block.up), forward(frame.block.forward);
    // Turned by the seed, so that the four balls do not repeat.
    const float angle = sprite.seed * 6.2831853F;
    const float c = std::cos(angle), s = std::sin(angle);
    const glm::vec3 x = right * c + up * s;
    const glm::vec3 y = up * c - right * s;
    const glm::vec3 sun(frame.block.sun);
    // A puff round the eye would be a grey wall: it thins out as one enters it.
    float opacity = sprite.opacity;
    if (!frame.orthographic) {
        opacity *= std::clamp((sprite.distance_m - 0.6F * sprite.radius_m) / 5.0F, 0.0F, 1.0F);
    }
    if (opacity < 0.008F) return;
    // Nearer than the band it hangs on, but never before the aircraft that makes it.
    float pull_m = frame.orthographic ? 0 : std::min(1.3F * sprite.radius_m, 3.5F);
    if (frame.list->show_aircraft) {
        const float from_aircraft_m =
            glm::length(sprite.rel - frame.relative(frame.list->aircraft.position_S_m));
        pull_m *= std::clamp((from_aircraft_m - 8) / 15, 0.0F, 1.0F);
    }
    const float haze = frame.block.haze.y *
                       (1 - std::exp(-std::pow(sprite.distance_m * frame.block.haze.x, 1.15F)));
    const glm::vec4 haze_colour(frame.light.horizon, haze);
    const float column = std::min(
        std::floor(sprite.seed * 977.0F) - kPuffs * std::floor(sprite.seed * 977.0F / kPuffs),
        kPuffs - 1.0F);
    const auto first = static_cast<std::uint32_t>(vertices_.size());
    const glm::vec4 light(glm::dot(sun, x), glm::dot(sun, y), -glm::dot(sun, forward), opacity);
    for (int i = 0; i < 4; ++i) {
        const glm::vec2 side = cornerOfQuad(i);
        const glm::vec3 rel = sprite.rel + (x * side.x + y * side.y) * sprite.radius_m;
        glm::vec4 clip = frame.clip(rel);
        if (pull_m > 0 && clip.w > pull_m + static_cast<float>(frame.near_m)) {
            // Same place in the picture, nearer depth.
            const glm::vec4 nearer = frame.clip(rel - forward * pull_m);
            clip.z = nearer.z / nearer.w * clip.w;
        }
        // Half a texel inside, so that neighbours do not bleed in.
        const glm::vec2 in = side * (0.5F - 1.0F / kPuff_px) + 0.5F;
        vertices_.push_back({clip,
                             glm::vec4((column + in.x) / kPuffs, in.y, sprite.spent, sprite.lumps),
                             light, haze_colour});
    }
    addQuad(indices_, first);
}

void SmokePainter::draw(const Frame& frame) {
    if (frame.list->smoke.empty()) return;
    gather(frame);
    vertices_.clear();
    indices_.clear();
    for (const Sprite& sprite : sprites_) emit(frame, sprite);
    if (indices_.empty()) return;
    mesh_.setVertices(std::span<const Vertex>(vertices_));
    mesh_.setIndices(indices_);
    glEnable(GL_DEPTH_TEST);
    glDepthMask(GL_FALSE);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    program_.use();
    atlas_.bind(0);
    program_.set("u_puffs", 0);
    mesh_.draw();
    glDisable(GL_BLEND);
    glDepthMask(GL_TRUE);
    glDisable(GL_DEPTH_TEST);
}

}  // namespace plumbline::render

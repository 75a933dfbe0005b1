#include "viewer/render/sky.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <glad/gl.h>

#include "viewer/render/landscape.h"
#include "viewer/render/shader_common.h"

namespace plumbline::render {
namespace {

constexpr int kShapeSide_px = 512;

const char* const kDomeVertex = R"(
layout(location = 0) in vec3 a_direction;
out vec3 v_sky;
out vec2 v_uv;
void main() {
    v_sky = skyColour(a_direction);
    v_uv = a_direction.xy / (1.0 + max(a_direction.z, 0.0)) * 0.498 + 0.5;
    vec4 clip = u_clip_from_rel * vec4(a_direction * 1000.0, 1.0);
    gl_Position = clip;
}
)";

// Dither against banding: half a step of eight bits.
const char* const kDomeFragment = R"(
in vec3 v_sky;
in vec2 v_uv;
uniform sampler2D u_clouds;
out vec4 o_colour;
void main() {
    vec4 cloud = texture(u_clouds, v_uv);
    float grain = fract(52.9829 * fract(dot(gl_FragCoord.xy, vec2(0.06711, 0.00584)))) - 0.5;
    o_colour = vec4(v_sky * (1.0 - cloud.a) + cloud.rgb + grain / 255.0, 1.0);
}
)";

// Shapes that tile: R height of the cumulus, G detail that eats its edges, B cirrus.
const char* const kShapesFragment = R"(
in vec2 v_uv;
out vec4 o_colour;
float tiled(vec2 p, vec2 period) {
    vec2 i = floor(p);
    vec2 f = p - i;
    f = f * f * (3.0 - 2.0 * f);
    vec2 i1 = mod(i + 1.0, period);
    i = mod(i, period);
    return mix(mix(hash21(i), hash21(vec2(i1.x, i.y)), f.x),
               mix(hash21(vec2(i.x, i1.y)), hash21(i1), f.x), f.y);
}
float tiledFractal(vec2 p, float period, int octaves) {
    float sum = 0.0;
    float weight = 0.5;
    for (int i = 0; i < octaves; ++i) {
        sum += weight * tiled(p * period, vec2(period));
        period *= 2.0;
        p += 0.37;
        weight *= 0.5;
    }
    return sum;
}
// Rounded lumps: distance to scattered points.
float lumps(vec2 p, float period) {
    vec2 q = p * period;
    vec2 i = floor(q);
    float nearest = 2.0;
    for (int y = -1; y <= 1; ++y) {
        for (int x = -1; x <= 1; ++x) {
            vec2 cell = i + vec2(float(x), float(y));
            vec2 wrapped = mod(cell, period);
            vec2 point = cell + vec2(hash21(wrapped), hash21(wrapped + 91.0));
            nearest = min(nearest, length(point - q));
        }
    }
    return 1.0 - min(nearest, 1.0);
}
void main() {
    vec2 warp = vec2(tiledFractal(v_uv, 6.0, 3), tiledFractal(v_uv + 0.41, 6.0, 3)) - 0.45;
    vec2 p = v_uv + 0.05 * warp;
    float body = tiledFractal(p, 5.0, 3);
    float billow = 0.66 * lumps(p, 17.0) + 0.26 * lumps(p + 0.3, 38.0) + 0.08 * lumps(p, 77.0);
    float cumulus = 0.72 * body + 0.34 * billow;
    float detail = 0.6 * lumps(p + 0.17, 61.0) + 0.4 * lumps(v_uv, 128.0);
    float cirrus = 0.0;
    float weight = 0.5;
    float period = 3.0;
    for (int i = 0; i < 5; ++i) {
        // Streaks: four times finer across than along.
        vec2 periods = vec2(period, period * 4.0);
        cirrus += weight * tiled(vec2(v_uv.x + 0.10 * warp.y, v_uv.y + 0.08 * warp.x) * periods,
                                 periods);
        period *= 2.0;
        weight *= 0.5;
    }
    o_colour = vec4(cumulus, detail, cirrus, 1.0);
}
)";

// A cumulus is the room between the base and a height field; the ray walks through that slab.
// simplified: light inside comes from the height of cloud towards the sun, not from scattering.
const char* const kCloudsFragment = R"(
in vec2 v_uv;
uniform sampler2D u_shapes;
uniform float u_cover;
uniform float u_base;
out vec4 o_colour;
const int kSteps = 30;
const float kTile = 9000.0;
float g_level = 0.0;
float cumulusHeight(vec2 at) { return textureLod(u_shapes, at / kTile, g_level).r; }
void main() {
    vec2 p = (v_uv - 0.5) / 0.498;
    float r2 = dot(p, p);
    vec3 d = vec3(2.0 * p, 1.0 - r2) / (1.0 + r2);
    o_colour = vec4(0.0);
    if (d.z < 0.004) return;

    float direct = u_sunlight.w;
    vec3 sun_colour = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.84, 0.62), u_sun.w * 0.75);
    vec3 sky = skyColour(d);

    // Cirrus, a sheet at 8 km.
    vec2 high = d.xy / (d.z + 0.08) * 8000.0;
    vec2 turned = mat2(0.87, -0.5, 0.5, 0.87) * high;
    float streaks = textureLod(u_shapes, turned / 52000.0, 0.0).b;
    float patches = textureLod(u_shapes, turned / 140000.0 + 0.31, 0.0).r;
    float thin = smoothstep(0.44, 0.78, streaks) * smoothstep(0.40, 0.62, patches);
    float cirrus = (0.28 + 0.30 * u_cover) * thin * smoothstep(0.02, 0.16, d.z);
    vec3 cirrus_colour = mix(vec3(1.0), sun_colour, 0.7) * (0.80 + 0.20 * direct);
    vec3 light = cirrus_colour * cirrus;
    float through = 1.0 - cirrus;

    if (u_cover > 0.01) {
        float thick = 620.0;
        float threshold = mix(0.72, 0.36, pow(u_cover, 0.75));
        float from = u_base / d.z;
        float to = (u_base + thick) / d.z;
        float reach = min(from, 26000.0);
        g_level = clamp(log2(from / 7000.0), 0.0, 3.0);
        // Neighbours begin a quarter of a step apart; kSmoothFragment takes them together.
        float jitter = mod(gl_FragCoord.x, 2.0) < 1.0 ? 0.125 : 0.625;
        if (mod(gl_FragCoord.y, 2.0) >= 1.0) jitter = 1.0 - jitter;
        float step = min(to - from, 3600.0) / float(kSteps);
        float cloud_through = 1.0;
        vec3 cloud_light = vec3(0.0);
        vec2 sun_step = u_sun.xy / max(length(u_sun.xy), 0.02) * 130.0;
        float towards = max(dot(d, u_sun.xyz), 0.0);
        float silver = 0.35 * pow(towards, 12.0);
        for (int i = 0; i < kSteps; ++i) {
            float t = from + (float(i) + jitter) * step;
            vec3 at = d * t;
            float level = (at.z - u_base) / thick;
            float height = (cumulusHeight(at.xy) - threshold) * 3.0;
            float eaten = textureLod(u_shapes, (at.xy + at.z * 0.7) / 2300.0, g_level + 1.0).g;
            float room = height - level - 0.30 * (eaten - 0.35) * smoothstep(0.0, 0.25, level);
            float density = smoothstep(0.0, 0.14, room) * smoothstep(-0.02, 0.05, level);
            if (density > 0.0) {
                float sunward = (cumulusHeight(at.xy + sun_step) - threshold) * 3.0;
                float above = max(sunward - level - 0.9 * max(u_sun.z, 0.08), 0.0);
                float lit = exp(-2.6 * above) * direct;
                float crown = 0.70 + 0.30 * clamp(level * 2.2, 0.0, 1.0);
                vec3 shade = mix(u_ambient.rgb, u_horizon.rgb, 0.35);
                vec3 c = shade * crown + sun_colour * (0.50 + silver) * lit * crown;
                float alpha = 1.0 - exp(-density * step * 0.012);
                cloud_light += cloud_through * alpha * c;
                cloud_through *= 1.0 - alpha;
            }
        }
        float distance_fade = exp(-reach / 15000.0) * smoothstep(0.006, 0.05, d.z);
        // Far clouds take the colour of the sky behind them.
        float alpha = (1.0 - cloud_through) * mix(0.35, 1.0, distance_fade) *
                      smoothstep(0.006, 0.035, d.z);
        vec3 c = cloud_light / max(1.0 - cloud_through, 0.001);
        c = mix(mix(sky, vec3(1.0), 0.10), c, 0.25 + 0.75 * distance_fade);
        light = light * (1.0 - alpha) + c * alpha;
        through *= 1.0 - alpha;
    }
    o_colour = vec4(light, 1.0 - through);
}
)";

// The four starts of the ray among neighbours weigh the same in the middle of each.
const char* const kSmoothFragment = R"(
in vec2 v_uv;
uniform sampler2D u_clouds;
uniform float u_half_px;
out vec4 o_colour;
void main() {
    o_colour = 0.25 * (texture(u_clouds, v_uv + vec2(-u_half_px, -u_half_px)) +
                       texture(u_clouds, v_uv + vec2(u_half_px, -u_half_px)) +
                       texture(u_clouds, v_uv + vec2(-u_half_px, u_half_px)) +
                       texture(u_clouds, v_uv + vec2(u_half_px, u_half_px)));
}
)";

const char* const kRidgeVertex = R"(
layout(location = 0) in vec3 a_direction;
layout(location = 1) in vec3 a_shade;  // x: 0 far, 1 near ridge; y: 0 foot, 1 crest; z: coverage
out vec4 v_colour;
void main() {
    vec3 haze = hazeColour(vec3(a_direction.xy, 0.0));
    vec3 day = mix(vec3(0.30, 0.43, 0.60), vec3(0.20, 0.32, 0.42), a_shade.x);
    float light = mix(0.55, 1.0, clamp(u_sun.z * 4.0 + 0.25, 0.0, 1.0));
    float weight = mix(0.36, 0.44, a_shade.x) * a_shade.y;
    v_colour = vec4(mix(haze, day * light, weight), a_shade.z);
    gl_Position = u_clip_from_rel * vec4(a_direction * 1000.0, 1.0);
}
)";

const char* const kPlainFragment = R"(
in vec4 v_colour;
out vec4 o_colour;
void main() { o_colour = v_colour; }
)";

const char* const kSunVertex = R"(
layout(location = 0) in vec2 a_corner;
out vec2 v_at;
void main() {
    vec3 side = normalize(cross(u_sun.xyz, vec3(0.0, 0.0, 1.0)));
    vec3 up = cross(side, u_sun.xyz);
    v_at = a_corner * 14.0;  // degrees
    vec3 d = u_sun.xyz + (side * a_corner.x + up * a_corner.y) * 0.2493;
    gl_Position = u_clip_from_rel * vec4(d * 1000.0, 1.0);
}
)";

// The disc is 0.53 degrees wide (common knowledge of astronomy), softened by the air.
const char* const kSunFragment = R"(
in vec2 v_at;
uniform sampler2D u_clouds;
out vec4 o_colour;
void main() {
    float r = length(v_at);
    vec2 uv = u_sun.xy / (1.0 + max(u_sun.z, 0.0)) * 0.498 + 0.5;
    float clear = 1.0 - 0.75 * texture(u_clouds, uv).a;
    float disc = 1.0 - smoothstep(0.25, 0.36, r);
    float halo = exp(-r * r * 0.16) * 0.42 + exp(-r * 0.42) * 0.20;
    halo *= 1.0 - smoothstep(9.0, 14.0, r);
    vec3 warm = mix(vec3(1.0, 0.97, 0.90), u_glow.rgb, 0.55 * u_sun.w);
    vec3 c = warm * halo * clear + vec3(1.0, 0.97, 0.88) * disc * clear;
    o_colour = vec4(c * u_sunlight.w, 0.0);
}
)";

glm::vec3 direction(float azimuth_rad, float elevation_rad) {
    return {std::cos(azimuth_rad) * std::cos(elevation_rad),
            std::sin(azimuth_rad) * std::cos(elevation_rad), std::sin(elevation_rad)};
}

constexpr float kDegree = 0.01745329252F;

Mesh makeDome() {
    // Close together near the horizon, where the colour changes fast.
    const std::array<float, 23> rings{-3, 0.5F, 1,  1.5F, 2,  3,  4,  5,  6.5F, 8,  10, 12.5F,
                                      15, 18,   22, 27,   33, 40, 48, 57, 67,   78, 90};
    constexpr std::uint32_t kSides = 72;
    std::vector<glm::vec3> vertices;
    for (const float elevation : rings) {
        for (std::uint32_t i = 0; i <= kSides; ++i) {
            vertices.push_back(
                direction(static_cast<float>(i) / kSides * 360 * kDegree, elevation * kDegree));
        }
    }
    std::vector<std::uint32_t> indices;
    for (std::uint32_t j = 0; j + 1 < rings.size(); ++j) {
        for (std::uint32_t i = 0; i < kSides; ++i) {
            const std::uint32_t a = j * (kSides + 1) + i;
            const std::uint32_t b = a + kSides + 1;
            for (const std::uint32_t k : {a, a + 1, b + 1, a, b + 1, b}) indices.push_back(k);
        }
    }
    Mesh mesh(sizeof(glm::vec3), {{0, 3, 0}});
    mesh.setVertices(std::span<const glm::vec3>(vertices));
    mesh.setIndices(indices);
    return mesh;
}

struct RidgeVertex {
    glm::vec3 direction;
    glm::vec3 shade;
};

Mesh makeRidges() {
    constexpr std::uint32_t kSides = 288;
    Dice dice(77);
    std::array<float, 24> phases{};
    for (float& phase : phases) phase = dice.between(0, 6.2832F);
    std::vector<RidgeVertex> vertices;
    std::vector<std::uint32_t> indices;
    for (int ridge = 0; ridge < 2; ++ridge) {
        const float low = ridge == 0 ? 1.2F : 0.4F;
        const float high = ridge == 0 ? 2.8F : 1.6F;
        const auto first = static_cast<std::uint32_t>(vertices.size());
        for (std::uint32_t i = 0; i <= kSides; ++i) {
            const float azimuth = static_cast<float>(i) / kSides * 360 * kDegree;
            float shape = 0;
            float weight = 0.5F;
            for (int k = 0; k < 6; ++k) {
                // Whole waves round the horizon, so that the end meets the beginning.
                const float waves = std::round((2.6F + static_cast<float>(ridge)) *
                                               std::pow(2.07F, static_cast<float>(k)));
                shape += weight * std::sin(azimuth * waves +
                                           phases[static_cast<std::size_t>(ridge * 8 + k)]);
                weight *= 0.46F;
            }
            const float elevation =
                low + (high - low) * std::clamp(0.5F + 0.55F * shape, 0.0F, 1.0F);
            const float kind = static_cast<float>(ridge);
            vertices.push_back({direction(azimuth, -1.0F * kDegree), {kind, 0, 1}});
            vertices.push_back({direction(azimuth, 0.15F * kDegree), {kind, 0, 1}});
            vertices.push_back({direction(azimuth, (elevation - 0.03F) * kDegree), {kind, 1, 1}});
            vertices.push_back({direction(azimuth, (elevation + 0.04F) * kDegree), {kind, 1, 0}});
        }
        for (std::uint32_t i = 0; i < kSides; ++i) {
            for (std::uint32_t j = 0; j < 3; ++j) {
                const std::uint32_t a = first + i * 4 + j;
                const std::uint32_t b = a + 4;
                for (const std::uint32_t k : {a, b, b + 1, a, b + 1, a + 1}) indices.push_back(k);
            }
        }
    }
    Mesh mesh(sizeof(RidgeVertex),
              {{0, 3, offsetof(RidgeVertex, direction)}, {1, 3, offsetof(RidgeVertex, shade)}});
    mesh.setVertices(std::span<const RidgeVertex>(vertices));
    mesh.setIndices(indices);
    return mesh;
}

}  // namespace

Sky::Sky(std::string& problem)
    : dome_("sky", kDomeVertex, kDomeFragment, problem),
      clouds_("clouds", kQuadVertex, kCloudsFragment, problem),
      shapes_("cloud shapes", kQuadVertex, kShapesFragment, problem),
      smooth_("smooth clouds", kQuadVertex, kSmoothFragment, problem),
      ridge_("ridges", kRidgeVertex, kPlainFragment, problem),
      sun_("sun", kSunVertex, kSunFragment, problem),
      dome_mesh_(makeDome()),
      ridge_mesh_(makeRidges()),
      quad_(sizeof(glm::vec2), {{0, 2, 0}}) {
    const std::array<glm::vec2, 4> corners{glm::vec2(-1, -1), glm::vec2(1, -1), glm::vec2(-1, 1),
                                           glm::vec2(1, 1)};
    quad_.setVertices(std::span<const glm::vec2>(corners));
    const std::array<std::uint8_t, 4> clear{0, 0, 0, 0};
    cloud_map_ = Texture(1, 1, 4, clear.data(), Filter::Linear, Wrap::Clamp);
}

void Sky::setWorld(const scene::World& world, int cloud_side_px) {
    cover_ = static_cast<float>(std::clamp(world.weather.cloud_cover_frac, 0.0, 1.0));
    base_m_ =
        world.weather.cloud_base_m > 0 ? static_cast<float>(world.weather.cloud_base_m) : 1200.0F;
    base_m_ = std::clamp(base_m_, 250.0F, 4000.0F);
    side_px_ = cloud_side_px;
    done_ = 0;
}

void Sky::work() {
    if (pendingWork() == 0) return;
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_BLEND);
    if (done_ == 0) {
        if (shape_map_.width() == 0) {
            shape_map_ =
                Texture(kShapeSide_px, kShapeSide_px, 4, nullptr, Filter::Trilinear, Wrap::Repeat);
            const Target target(shape_map_, false);
            target.bind();
            shapes_.use();
            quad_.drawStrip();
            shape_map_.makeMipmaps();
        }
        next_map_ = Texture(side_px_, side_px_, 4, nullptr, Filter::Linear, Wrap::Clamp);
        next_target_ = Target(next_map_, false);
    }
    if (done_ == kPainted) {
        finish();
        return;
    }
    next_target_.bind();
    glEnable(GL_SCISSOR_TEST);
    const int from = side_px_ * done_ / kPainted;
    const int to = side_px_ * (done_ + 1) / kPainted;
    glScissor(0, from, side_px_, to - from);
    clouds_.use();
    shape_map_.bind(0);
    clouds_.set("u_shapes", 0);
    clouds_.set("u_cover", cover_);
    clouds_.set("u_base", base_m_);
    quad_.drawStrip();
    glDisable(GL_SCISSOR_TEST);
    ++done_;
}

void Sky::finish() {
    Texture map(side_px_, side_px_, 4, nullptr, Filter::Linear, Wrap::Clamp);
    const Target target(map, false);
    target.bind();
    smooth_.use();
    next_map_.bind(0);
    smooth_.set("u_clouds", 0);
    smooth_.set("u_half_px", 0.5F / static_cast<float>(side_px_));
    quad_.drawStrip();
    next_target_ = Target();
    next_map_ = Texture();
    cloud_map_ = std::move(map);
    ++done_;
}

void Sky::draw(const Frame& frame) const {
    glDisable(GL_DEPTH_TEST);
    glDisable(GL_BLEND);
    cloud_map_.bind(0);
    dome_.use();
    dome_.set("u_clouds", 0);
    dome_mesh_.draw();
    glEnable(GL_BLEND);
    if (frame.block.sun.z > -0.01F && frame.light.sun_strength > 0) {
        // As light on a screen: towards the sun's own colour, never past it.
        glBlendFunc(GL_ONE, GL_ONE_MINUS_SRC_COLOR);
        sun_.use();
        sun_.set("u_clouds", 0);
        quad_.drawStrip();
    }
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    ridge_.use();
    ridge_mesh_.draw();
    glDisable(GL_BLEND);
}

}  // namespace plumbline::render

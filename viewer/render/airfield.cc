#include "viewer/render/airfield.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glad/gl.h>
#include <glm/geometric.hpp>

#include "viewer/render/buildings.h"
#include "viewer/render/painting.h"

namespace plumbline::render {
namespace {

constexpr int kMarkWidth_px = 64;
constexpr int kMarkHeight_px = 96;

const char* const kPavementVertex = R"(
layout(location = 0) in vec2 a_at;
layout(location = 1) in vec2 a_uv;
layout(location = 2) in vec3 a_half_kind;
out vec2 v_uv;
out vec2 v_at;
flat out vec3 v_half_kind;
out vec4 v_haze;
out vec3 v_light;
void main() {
    vec3 rel = vec3(a_at, 0.0) - u_eye.xyz;
    float amount = hazeAmount(rel);
    v_haze = vec4(hazeColour(rel) * amount, 1.0);
    float direct = pow(max(u_sun.z, 0.0), 0.18) * mix(0.80, 1.05, u_sun.w) * u_sunlight.w;
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.90, 0.70), u_sun.w * 0.8);
    v_light = (u_ambient.rgb * 0.64 + sun * (0.82 * direct)) * (1.0 - amount);
    v_uv = a_uv;
    v_at = a_at;
    v_half_kind = a_half_kind;
    gl_Position = u_clip_from_rel * vec4(rel, 1.0);
}
)";

// Every mark is filtered by what a pixel covers, so that it thins with distance and never
// sparkles.
const char* const kPavementFragment = R"(
in vec2 v_uv;
in vec2 v_at;
flat in vec3 v_half_kind;
in vec4 v_haze;
in vec3 v_light;
uniform sampler2D u_marks;
out vec4 o_colour;
// Share of a pixel of width f about x that lies within half of 0.
float bar(float x, float half_width, float f) {
    return clamp((half_width + 0.5 * f - abs(x)) / f, 0.0, min(1.0, 2.0 * half_width / f));
}
float between(float x, float low, float high, float f) {
    return bar(x - 0.5 * (low + high), 0.5 * (high - low), f);
}
void main() {
    float fu = max(fwidth(v_uv.x), 0.02);
    float fv = max(fwidth(v_uv.y), 0.02);
    vec2 half_size = v_half_kind.xy;
    float from_end = half_size.x - abs(v_uv.x);
    float side = abs(v_uv.y);
    float fine = clamp(1.2 - 0.25 * (fu + fv), 0.0, 1.0);
    float rough = valueNoise(v_at / 2.1) - 0.5;
    vec3 c = vec3(0.365, 0.373, 0.382) * (1.0 + 0.18 * fine * rough);
    // Slabs and joints.
    float joint = bar(abs(fract(v_uv.x / 7.5) - 0.5) * 7.5 - 3.75, 0.05, fu) * 0.35;
    float paint = 0.0;
    if (v_half_kind.z > 0.5) {
        float worn = exp(-v_uv.y * v_uv.y / (0.10 * half_size.y * half_size.y));
        float rubber = exp(-pow((from_end - 190.0) / 130.0, 2.0)) *
                       exp(-pow((side - 2.6) / 1.6, 2.0));
        c *= 1.0 + 0.10 * worn - 0.38 * rubber;
        float dash = abs(fract(v_uv.x / 50.0) - 0.5) * 50.0;
        float line = bar(side, 0.45, fv) * bar(dash, 15.0, fu) * step(72.0, from_end);
        float edges = bar(side - (half_size.y - 1.2), 0.45, fv);
        float keys = between(from_end, 6.0, 36.0, fu) *
                     bar(abs(fract((side - 0.9) / 3.6) - 0.5) * 3.6 - 0.9, 0.9, fv) *
                     between(side, 1.6, half_size.y - 2.2, fv);
        keys = mix(keys, 0.5 * between(from_end, 6.0, 36.0, fu) * between(side, 1.6, half_size.y - 2.2, fv),
                   clamp(fv * 0.5 - 0.6, 0.0, 1.0));
        float blocks = between(from_end, 300.0, 345.0, fu) * between(side, 4.0, 7.0, fv) *
                       step(500.0, half_size.x);
        // Numbers 9 m long, read by who flies in over this end.
        float end = v_uv.x < 0.0 ? 0.0 : 1.0;
        vec2 mark = vec2((end < 0.5 ? -v_uv.y : v_uv.y) / 7.0 + 0.5, (from_end - 46.0) / 10.5);
        if (mark.x > 0.0 && mark.x < 1.0 && mark.y > 0.0 && mark.y < 1.0) {
            paint = textureLod(u_marks, vec2((mark.x + end) * 0.5, mark.y),
                               log2(max(max(fu * 9.0, fv * 9.0), 1.0))).r;
        }
        paint = max(max(max(paint, line), max(edges, keys)), blocks);
        paint *= 0.80 * (0.92 + 0.40 * rough * fine);
        c = mix(c * (1.0 - joint * 0.5), vec3(0.859, 0.851, 0.800), paint);
    } else {
        c *= vec3(1.06, 1.05, 1.0);
        c = mix(c * (1.0 - joint), vec3(0.80, 0.64, 0.24), 0.65 * bar(side, 0.12, fv) * step(half_size.y, 8.0));
    }
    float cover = clamp((half_size.y - side) / fv + 0.5, 0.0, 1.0) * clamp(from_end / fu + 0.5, 0.0, 1.0);
    o_colour = vec4(c * v_light + v_haze.rgb, cover);
}
)";

const char* const kSolidVertex = R"(
layout(location = 0) in vec3 a_at;
layout(location = 1) in vec3 a_normal;
layout(location = 2) in vec3 a_colour;
out vec3 v_colour;
void main() {
    vec3 rel = a_at - u_eye.xyz;
    float direct = u_sunlight.w * clamp(u_sun.z * 6.0 + 0.35, 0.0, 1.0);
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.90, 0.72), u_sun.w * 0.8);
    float up = 0.75 + 0.25 * a_normal.z;
    vec3 light = u_ambient.rgb * (0.92 * up) + sun * (0.62 * direct * max(dot(a_normal, u_sun.xyz), 0.0));
    v_colour = hazed(a_colour * light, rel);
    gl_Position = u_clip_from_rel * vec4(rel, 1.0);
}
)";

const char* const kSolidFragment = R"(
in vec3 v_colour;
out vec4 o_colour;
void main() { o_colour = vec4(v_colour, 1.0); }
)";

/// Strokes of a painted digit in a box 4 wide and 6 high (x right, y up).
std::vector<std::array<glm::vec2, 2>> strokesOf(char c) {
    using V = glm::vec2;
    const auto path = [](std::initializer_list<V> points) {
        std::vector<std::array<V, 2>> out;
        const V* before = nullptr;
        for (const V& p : points) {
            if (before != nullptr) out.push_back({*before, p});
            before = &p;
        }
        return out;
    };
    switch (c) {
        case '0':
            return path({{0, 1}, {0, 5}, {1, 6}, {3, 6}, {4, 5}, {4, 1}, {3, 0}, {1, 0}, {0, 1}});
        case '1':
            return path({{1, 5}, {2, 6}, {2, 0}});
        case '2':
            return path({{0, 5}, {1, 6}, {3, 6}, {4, 5}, {4, 4}, {0, 0}, {4, 0}});
        case '3':
            return path({{0, 6}, {4, 6}, {2, 3.6F}, {4, 2.4F}, {4, 1}, {3, 0}, {1, 0}, {0, 1}});
        case '4':
            return path({{3, 0}, {3, 6}, {0, 2}, {4, 2}});
        case '5':
            return path({{4, 6}, {0, 6}, {0, 3.4F}, {3, 3.4F}, {4, 2.4F}, {4, 1}, {3, 0}, {0, 0}});
        case '6':
            return path(
                {{3.5F, 6}, {0, 3}, {0, 1}, {1, 0}, {3, 0}, {4, 1}, {4, 2.4F}, {3, 3.2F}, {0, 3}});
        case '7':
            return path({{0, 6}, {4, 6}, {1.4F, 0}});
        case '8':
            return path({{1, 3.2F},
                         {0, 4.2F},
                         {0, 5},
                         {1, 6},
                         {3, 6},
                         {4, 5},
                         {4, 4.2F},
                         {3, 3.2F},
                         {1, 3.2F},
                         {0, 2.2F},
                         {0, 1},
                         {1, 0},
                         {3, 0},
                         {4, 1},
                         {4, 2.2F},
                         {3, 3.2F}});
        case '9':
            return path(
                {{0.5F, 0}, {4, 3}, {4, 5}, {3, 6}, {1, 6}, {0, 5}, {0, 3.6F}, {1, 2.8F}, {4, 3}});
        default:
            return {};
    }
}

float distanceTo(const glm::vec2& p, const std::array<glm::vec2, 2>& stroke) {
    const glm::vec2 d = stroke[1] - stroke[0];
    const float f = std::clamp(glm::dot(p - stroke[0], d) / glm::dot(d, d), 0.0F, 1.0F);
    return glm::length(p - stroke[0] - d * f);
}

/// Two digits of each end side by side; other characters leave a gap.
Texture paintMarks(const std::string& start, const std::string& end) {
    const int width = 2 * kMarkWidth_px;
    std::vector<std::uint8_t> pixels(static_cast<std::size_t>(width * kMarkHeight_px));
    for (int which = 0; which < 2; ++which) {
        const std::string& mark = which == 0 ? start : end;
        for (std::size_t k = 0; k < std::min<std::size_t>(mark.size(), 2); ++k) {
            const auto strokes = strokesOf(mark[k]);
            for (int y = 0; y < kMarkHeight_px; ++y) {
                for (int x = 0; x < kMarkWidth_px / 2; ++x) {
                    const glm::vec2 p(
                        (static_cast<float>(x) + 0.5F) / (kMarkWidth_px / 2.0F) * 5.6F - 0.8F,
                        (static_cast<float>(y) + 0.5F) / kMarkHeight_px * 7.2F - 0.6F);
                    float nearest = 10;
                    for (const auto& stroke : strokes)
                        nearest = std::min(nearest, distanceTo(p, stroke));
                    const auto at =
                        static_cast<std::size_t>(y * width + which * kMarkWidth_px +
                                                 static_cast<int>(k) * kMarkWidth_px / 2 + x);
                    pixels[at] = toByte((0.45F - nearest) / 0.12F + 0.5F);
                }
            }
        }
    }
    return Texture(width, kMarkHeight_px, 1, pixels.data(), Filter::Trilinear, Wrap::Clamp);
}

}  // namespace

AirfieldPainter::AirfieldPainter(std::string& problem)
    : pavement_("pavement", kPavementVertex, kPavementFragment, problem),
      solid_("buildings", kSolidVertex, kSolidFragment, problem),
      pavement_mesh_(sizeof(PavementVertex), {{0, 2, offsetof(PavementVertex, at)},
                                              {1, 2, offsetof(PavementVertex, uv)},
                                              {2, 3, offsetof(PavementVertex, half_kind)}}),
      solid_mesh_(sizeof(SolidVertex), {{0, 3, offsetof(SolidVertex, at)},
                                        {1, 3, offsetof(SolidVertex, normal)},
                                        {2, 3, offsetof(SolidVertex, colour)}}),
      sock_mesh_(sizeof(SolidVertex), {{0, 3, offsetof(SolidVertex, at)},
                                       {1, 3, offsetof(SolidVertex, normal)},
                                       {2, 3, offsetof(SolidVertex, colour)}}) {}

void AirfieldPainter::setLandscape(const Landscape& landscape, const scene::World& world) {
    std::vector<PavementVertex> vertices;
    std::vector<std::uint32_t> indices;
    for (const Pavement& pavement : landscape.pavements) {
        const glm::vec2 across(-pavement.along_S.y, pavement.along_S.x);
        const int pieces = std::max(2, static_cast<int>(pavement.half_length_m / 25));
        const auto first = static_cast<std::uint32_t>(vertices.size());
        constexpr float kMargin_m = 0.8F;  // for the soft edge
        const glm::vec2 reach(pavement.half_length_m + kMargin_m,
                              pavement.half_width_m + kMargin_m);
        for (int i = 0; i <= pieces; ++i) {
            const float u = reach.x * (2 * static_cast<float>(i) / static_cast<float>(pieces) - 1);
            for (const float side : {-1.0F, 1.0F}) {
                const glm::vec2 uv(u, side * reach.y);
                vertices.push_back({pavement.centre_S_m + pavement.along_S * uv.x + across * uv.y,
                                    uv,
                                    glm::vec3(pavement.half_length_m, pavement.half_width_m,
                                              pavement.runway ? 1.0F : 0.0F)});
            }
        }
        for (std::uint32_t i = 0; i < static_cast<std::uint32_t>(pieces); ++i) {
            const std::uint32_t a = first + 2 * i;
            for (const std::uint32_t k : {a, a + 1, a + 3, a, a + 3, a + 2}) indices.push_back(k);
        }
    }
    pavement_mesh_.setVertices(std::span<const PavementVertex>(vertices));
    pavement_mesh_.setIndices(indices);
    marks_ = paintMarks(landscape.mark_at_start, landscape.mark_at_end);

    const std::vector<SolidVertex> solids = buildStanding(landscape, world.site);
    solid_mesh_.setVertices(std::span<const SolidVertex>(solids));

    sock_at_ = landscape.wind_sock_S_m;
    wind_mps_ = 0;
    if (!world.weather.wind.empty()) {
        const data::WindLayer& surface = world.weather.wind.front();
        wind_mps_ = static_cast<float>(surface.speed_mps);
        wind_towards_ = -directionOfBearing(surface.from_rad, world.site.show_line_bearing_rad);
    }
}

void AirfieldPainter::drawPavements(const Frame& frame) const {
    (void)frame;
    if (pavement_mesh_.vertexCount() == 0) return;
    glDisable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    pavement_.use();
    marks_.bind(0);
    pavement_.set("u_marks", 0);
    pavement_mesh_.draw();
    glDisable(GL_BLEND);
}

void AirfieldPainter::hoistSock(const Frame& frame) {
    sock_.clear();
    addPole(sock_, sock_at_, 6.2F, 0.09F, glm::vec3(0.86F, 0.85F, 0.82F));
    // Level from 15 kt on, hanging in a calm (common practice, no source).
    const float strength = std::clamp(wind_mps_ / 7.7F, 0.0F, 1.0F);
    const float time_s = frame.block.eye.w;
    const float gust = 0.05F * std::sin(time_s * 2.1F) + 0.04F * std::sin(time_s * 3.7F + 1);
    glm::vec3 at(sock_at_, 6.0F);
    constexpr int kSegments = 5;
    for (int i = 0; i < kSegments; ++i) {
        const float f = static_cast<float>(i) / kSegments;
        const float sag_rad =
            (1 - strength) * (1.05F + 0.5F * f) + 0.12F * f + gust * (0.3F + f) * (0.4F + strength);
        const float yaw_rad = 0.08F * std::sin(time_s * 1.6F - 2.2F * f) * (0.3F + f);
        const glm::vec2 flat(
            wind_towards_.x * std::cos(yaw_rad) - wind_towards_.y * std::sin(yaw_rad),
            wind_towards_.x * std::sin(yaw_rad) + wind_towards_.y * std::cos(yaw_rad));
        const glm::vec3 along(flat * std::cos(sag_rad), -std::sin(sag_rad));
        const glm::vec3 next = at + along * 0.72F;
        const glm::vec3 colour =
            i % 2 == 0 ? glm::vec3(0.91F, 0.443F, 0.235F) : glm::vec3(0.90F, 0.87F, 0.79F);
        addTube(sock_, at, next, 0.46F - 0.24F * f, 0.46F - 0.24F * (f + 0.2F), colour);
        at = next;
    }
    sock_mesh_.setVertices(std::span<const SolidVertex>(sock_));
}

void AirfieldPainter::drawStanding(const Frame& frame) {
    glEnable(GL_DEPTH_TEST);
    solid_.use();
    if (solid_mesh_.vertexCount() > 0) solid_mesh_.draw();
    hoistSock(frame);
    sock_mesh_.draw();
    glDisable(GL_DEPTH_TEST);
}

}  // namespace plumbline::render

#include "viewer/render/crowd.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glad/gl.h>
#include <glm/geometric.hpp>

#include "viewer/render/painting.h"

namespace plumbline::render {
namespace {

constexpr int kShapes = 8;
constexpr int kWidth_px = 128;
constexpr int kHeight_px = 256;
constexpr float kAspect = 0.5F;  ///< width over height of a figure's cell

const char* const kVertex = R"(
layout(location = 0) in vec3 a_foot;
layout(location = 1) in vec4 a_height_shape;
layout(location = 2) in vec3 a_shirt;
layout(location = 3) in vec2 a_corner;
out vec2 v_uv;
out vec3 v_shirt;
out vec3 v_light;
out vec4 v_haze;
void main() {
    vec2 corner = vec2(a_corner.x, a_corner.y * 0.5 + 0.5);
    float height = a_height_shape.x;
    vec3 rel = a_foot - u_eye.xyz;
    vec3 view = u_haze.z > 0.5 ? u_forward.xyz : normalize(rel + vec3(0.0, 0.0, 0.5 * height));
    vec3 right = normalize(vec3(view.y, -view.x, 0.0) + vec3(1e-5, 0.0, 0.0));
    vec3 up = mix(vec3(0.0, 0.0, 1.0), cross(right, view), 0.5 * clamp(-view.z, 0.0, 1.0));
    rel += right * (corner.x * 0.25 * height) + up * (corner.y * height);
    v_uv = vec2((a_height_shape.y + corner.x * a_height_shape.z * 0.49 + 0.5) / 8.0, corner.y);
    v_shirt = a_shirt;
    float direct = u_sunlight.w * clamp(u_sun.z * 6.0 + 0.35, 0.0, 1.0);
    float facing = clamp(0.60 - 0.45 * dot(u_sun.xy, view.xy), 0.1, 1.0);
    vec3 sun = u_sunlight.rgb * mix(vec3(1.0), vec3(1.0, 0.90, 0.72), u_sun.w * 0.8);
    float amount = hazeAmount(rel);
    v_light = (u_ambient.rgb * 0.70 + sun * (0.62 * direct * facing)) * (1.0 - amount);
    v_haze = vec4(hazeColour(rel) * amount, 1.0);
    gl_Position = u_clip_from_rel * vec4(rel, 1.0);
}
)";

// Atlas: RGB the figure's own colours with the shirt in grey, A: 0 outside, 0.5 body, 1 shirt.
const char* const kFragment = R"(
in vec2 v_uv;
in vec3 v_shirt;
in vec3 v_light;
in vec4 v_haze;
uniform sampler2D u_atlas;
out vec4 o_colour;
void main() {
    vec4 t = texture(u_atlas, v_uv);
    if (t.a < 0.12) discard;
    float shirt = clamp(t.a * 2.0 - 1.0, 0.0, 1.0);
    vec3 c = t.rgb * mix(vec3(1.0), v_shirt * 1.55, shirt);
    o_colour = vec4(c * v_light + v_haze.rgb, clamp(t.a * 2.6 - 0.25, 0.0, 1.0));
}
)";

/// One figure seen from behind, painted from soft capsules; units of its height, feet at 0.
class Figure {
public:
    Figure(std::vector<std::uint8_t>& pixels, int cell) : pixels_(pixels), cell_(cell) {}

    /// A tapered limb from a to b.
    void limb(glm::vec2 a, glm::vec2 b, float ra, float rb, glm::vec3 colour, bool shirt = false) {
        const glm::vec2 reach(std::max(ra, rb) + 0.006F);
        paint(
            glm::min(a, b) - reach, glm::max(a, b) + reach,
            [=](const glm::vec2& p, float& shade) {
                const glm::vec2 d = b - a;
                const float f = std::clamp(glm::dot(p - a, d) / glm::dot(d, d), 0.0F, 1.0F);
                const float r = glm::mix(ra, rb, f);
                const glm::vec2 q = p - (a + d * f);
                shade = q.x / r;
                return glm::length(q) - r;
            },
            colour, shirt);
    }

    void ball(glm::vec2 at, glm::vec2 radii, glm::vec3 colour, bool shirt = false) {
        const glm::vec2 reach = radii + 0.006F;
        paint(
            at - reach, at + reach,
            [=](const glm::vec2& p, float& shade) {
                const glm::vec2 q = (p - at) / radii;
                shade = q.x;
                return (glm::length(q) - 1) * std::min(radii.x, radii.y);
            },
            colour, shirt);
    }

private:
    template <class Shape>
    void paint(glm::vec2 low, glm::vec2 high, const Shape& shape, glm::vec3 colour, bool shirt) {
        const int width = kWidth_px * kShapes;
        const auto column = [](float x) {
            return std::clamp(static_cast<int>((x / kAspect + 0.5F) * kWidth_px), 0, kWidth_px - 1);
        };
        const auto row = [](float y) {
            return std::clamp(static_cast<int>(y * kHeight_px), 0, kHeight_px - 1);
        };
        for (int y = row(low.y); y <= row(high.y); ++y) {
            for (int x = column(low.x); x <= column(high.x); ++x) {
                const glm::vec2 p(((static_cast<float>(x) + 0.5F) / kWidth_px - 0.5F) * kAspect,
                                  (static_cast<float>(y) + 0.5F) / kHeight_px);
                float side = 0;
                const float outside = shape(p, side);
                const float cover = std::clamp(0.5F - outside * kHeight_px, 0.0F, 1.0F);
                if (cover <= 0) continue;
                side = std::clamp(side, -1.0F, 1.0F);
                const float folds = 0.10F * (noise(p * 55.0F, 3) - 0.5F);
                const float round = 0.62F + 0.40F * std::sqrt(1 - side * side * 0.9F) + folds;
                const auto at = static_cast<std::size_t>((y * width + cell_ * kWidth_px + x) * 4);
                for (int k = 0; k < 3; ++k) {
                    const auto i = at + static_cast<std::size_t>(k);
                    const float old = static_cast<float>(pixels_[i]) / 255.0F;
                    pixels_[i] = toByte(glm::mix(old, colour[k] * round, cover));
                }
                const float old = static_cast<float>(pixels_[at + 3]) / 255.0F;
                pixels_[at + 3] = toByte(glm::mix(old, shirt ? 1.0F : 0.5F, cover));
            }
        }
    }

    std::vector<std::uint8_t>& pixels_;
    int cell_;
};

void paintFigure(std::vector<std::uint8_t>& pixels, int shape) {
    Figure figure(pixels, shape);
    Dice dice(static_cast<std::uint32_t>(300 + shape));
    static const std::array<glm::vec3, 5> trousers{
        glm::vec3(0.20F, 0.23F, 0.32F), glm::vec3(0.16F, 0.17F, 0.19F),
        glm::vec3(0.46F, 0.41F, 0.32F), glm::vec3(0.30F, 0.31F, 0.30F),
        glm::vec3(0.34F, 0.29F, 0.25F)};
    static const std::array<glm::vec3, 5> hair{
        glm::vec3(0.25F, 0.19F, 0.15F), glm::vec3(0.34F, 0.24F, 0.15F),
        glm::vec3(0.58F, 0.48F, 0.34F), glm::vec3(0.55F, 0.54F, 0.52F),
        glm::vec3(0.20F, 0.18F, 0.17F)};
    static const std::array<glm::vec3, 3> skins{glm::vec3(0.80F, 0.62F, 0.50F),
                                                glm::vec3(0.66F, 0.47F, 0.36F),
                                                glm::vec3(0.45F, 0.31F, 0.23F)};
    const glm::vec3 leg = trousers[static_cast<std::size_t>(shape % 5)];
    const glm::vec3 skin = skins[static_cast<std::size_t>(shape % 3)];
    const glm::vec3 hat = hair[static_cast<std::size_t>((shape * 3 + 1) % 5)];
    const glm::vec3 shirt(0.62F);
    const float stance = dice.between(0.030F, 0.055F);
    const float lean = dice.between(-0.014F, 0.014F);
    const float broad = dice.between(0.88F, 1.08F);
    const bool skirt = shape == 2 || shape == 6;
    const bool bare_legs = shape == 3 || shape == 5;
    const bool bare_arms = shape % 2 == 1;

    const glm::vec2 hips(lean * 0.4F, 0.49F), chest(lean, 0.74F), neck(lean * 1.2F, 0.855F);
    for (const float side : {-1.0F, 1.0F}) {
        const glm::vec2 foot(side * stance + lean * 0.2F, 0.022F);
        const glm::vec2 knee(side * (stance * 0.9F), 0.27F);
        const glm::vec2 hip = hips + glm::vec2(side * 0.040F * broad, -0.01F);
        figure.limb(foot, foot + glm::vec2(side * 0.012F, -0.004F), 0.021F, 0.019F,
                    glm::vec3(0.14F, 0.13F, 0.13F));
        figure.limb(foot + glm::vec2(0, 0.02F), knee, 0.022F, 0.030F, bare_legs ? skin : leg);
        figure.limb(knee, hip, bare_legs ? 0.036F : 0.031F, 0.046F * broad, leg);
    }
    if (skirt) figure.limb(hips + glm::vec2(0, -0.17F), hips, 0.092F, 0.070F, leg);

    // Arms: hanging, on the hip, crossed in front, or a hand up against the sun.
    for (const float side : {-1.0F, 1.0F}) {
        const glm::vec2 shoulder = neck + glm::vec2(side * 0.092F * broad, -0.055F);
        const bool raised =
            (shape == 1 && side > 0) || (shape == 4 && side < 0) || (shape == 7 && side > 0);
        const bool akimbo = (shape == 0 && side < 0) || shape == 6;
        const bool crossed = shape == 3 || shape == 5;
        glm::vec2 elbow = shoulder + glm::vec2(side * 0.028F, -0.155F);
        glm::vec2 hand = elbow + glm::vec2(side * dice.between(-0.006F, 0.014F), -0.145F);
        if (raised) {
            elbow = shoulder + glm::vec2(side * 0.090F, 0.045F);
            hand = neck + glm::vec2(side * 0.052F, 0.085F);
        } else if (akimbo) {
            elbow = shoulder + glm::vec2(side * 0.085F, -0.130F);
            hand = hips + glm::vec2(side * 0.070F, 0.045F);
        } else if (crossed) {
            elbow = shoulder + glm::vec2(side * 0.034F, -0.150F);
            hand = elbow + glm::vec2(-side * 0.075F, 0.035F);
        }
        figure.limb(elbow, hand, 0.022F, 0.017F, bare_arms ? skin : shirt, !bare_arms);
        figure.ball(hand, glm::vec2(0.018F), skin);
        figure.limb(shoulder, elbow, 0.032F, 0.026F, shirt, true);
    }
    figure.limb(hips + glm::vec2(0, 0.01F), chest, 0.070F * broad, 0.088F * broad, shirt, true);
    figure.limb(neck + glm::vec2(-0.074F * broad, -0.052F),
                neck + glm::vec2(0.074F * broad, -0.052F), 0.038F, 0.038F, shirt, true);
    if (shape == 4) {  // a small rucksack
        figure.limb(chest + glm::vec2(0, -0.11F), chest + glm::vec2(0, 0.02F), 0.058F, 0.05F,
                    glm::vec3(0.24F, 0.25F, 0.24F));
    }
    figure.limb(neck + glm::vec2(0, -0.02F), neck + glm::vec2(0, 0.03F), 0.030F, 0.028F, skin);
    const glm::vec2 head = neck + glm::vec2(lean * 0.6F, 0.078F);
    figure.ball(head + glm::vec2(0, -0.010F), glm::vec2(0.047F, 0.058F), skin);
    for (const float side : {-1.0F, 1.0F}) {
        figure.ball(head + glm::vec2(side * 0.046F, -0.012F), glm::vec2(0.006F, 0.013F),
                    skin * 0.92F);
    }
    figure.ball(head + glm::vec2(0, 0.010F), glm::vec2(0.050F, 0.054F), hat);
    if (skirt) figure.limb(head, head + glm::vec2(0, -0.075F), 0.046F, 0.040F, hat);
    if (shape == 0 || shape == 7) {  // caps and a straw hat
        const glm::vec3 cloth =
            shape == 0 ? glm::vec3(0.72F, 0.66F, 0.52F) : glm::vec3(0.30F, 0.33F, 0.38F);
        if (shape == 0) {
            figure.limb(head + glm::vec2(-0.062F, 0.016F), head + glm::vec2(0.062F, 0.016F), 0.012F,
                        0.012F, cloth * 0.9F);
        }
        figure.ball(head + glm::vec2(0, 0.026F), glm::vec2(0.051F, 0.042F), cloth);
    }
}

Texture makeAtlas() {
    std::vector<std::uint8_t> pixels(
        static_cast<std::size_t>(kWidth_px * kShapes * kHeight_px * 4));
    for (std::size_t i = 0; i < pixels.size(); i += 4) {
        pixels[i] = pixels[i + 1] = pixels[i + 2] = 90;
    }
    for (int shape = 0; shape < kShapes; ++shape) paintFigure(pixels, shape);
    return Texture(kWidth_px * kShapes, kHeight_px, 4, pixels.data(), Filter::Trilinear,
                   Wrap::Clamp);
}

}  // namespace

CrowdPainter::CrowdPainter(std::string& problem)
    : program_("crowd", kVertex, kFragment, problem),
      atlas_(makeAtlas()),
      mesh_(sizeof(Corner), {{0, 3, offsetof(Corner, foot)},
                             {1, 4, offsetof(Corner, height_shape)},
                             {2, 3, offsetof(Corner, shirt)},
                             {3, 2, offsetof(Corner, corner)}}) {}

void CrowdPainter::draw(const Frame& frame) {
    const Vec3& eye = frame.camera().eye_S_m;
    const glm::vec3 forward(frame.block.forward);
    const float half_angle = std::atan(
        std::hypot(static_cast<float>(frame.width_px), static_cast<float>(frame.height_px)) / 2 /
        frame.focal_px);
    const float widest = std::cos(std::min(half_angle + 0.05F, 3.0F));
    std::vector<std::pair<float, std::uint32_t>> order;
    for (std::uint32_t i = 0; i < people_.size(); ++i) {
        const glm::vec3 rel = frame.relative(Vec3(people_[i].foot_S_m) + Vec3(0, 0, 0.9));
        const float distance = glm::length(rel);
        if (!frame.orthographic) {
            // Nobody stands in one's way.
            if (distance < 2.6F && eye.z < 4) continue;
            if (glm::dot(rel, forward) < widest * distance - 2.5F) continue;
            // Shorter than a third of a pixel: the worn grass shows where they are.
            if (1.7F * frame.focal_px / distance < 0.4F) continue;
        }
        order.emplace_back(-distance, i);
    }
    std::sort(order.begin(), order.end());
    corners_.clear();
    indices_.clear();
    for (const auto& [minus_distance, index] : order) {
        const Person& person = people_[index];
        float height_m = person.height_m;
        if (eye.z < 2.4 && -minus_distance < 60) {
            // chosen: those near a standing eye are a little lower than it, as from row three of a
            // sloping meadow; the picture is for looking at the aircraft
            const float lower_m = 0.12F + 0.06F * static_cast<float>(index % 5);
            height_m = std::min(height_m, static_cast<float>(eye.z) - lower_m);
        }
        if (height_m < 0.5F) continue;
        const auto first = static_cast<std::uint32_t>(corners_.size());
        for (int i = 0; i < 4; ++i) {
            corners_.push_back({person.foot_S_m,
                                glm::vec4(height_m, static_cast<float>(person.shape),
                                          person.mirrored ? -1.0F : 1.0F, 0),
                                person.shirt, cornerOfQuad(i)});
        }
        addQuad(indices_, first);
    }
    if (indices_.empty()) return;
    mesh_.setVertices(std::span<const Corner>(corners_));
    mesh_.setIndices(indices_);
    glEnable(GL_DEPTH_TEST);
    glEnable(GL_BLEND);
    glBlendFunc(GL_SRC_ALPHA, GL_ONE_MINUS_SRC_ALPHA);
    program_.use();
    atlas_.bind(0);
    // One level of the atlas a figure: between two nobody sees the step, and it halves the fetches.
    glTexParameteri(GL_TEXTURE_2D, GL_TEXTURE_MIN_FILTER, GL_LINEAR_MIPMAP_NEAREST);
    program_.set("u_atlas", 0);
    mesh_.draw();
    glDisable(GL_BLEND);
    glDisable(GL_DEPTH_TEST);
}

}  // namespace plumbline::render

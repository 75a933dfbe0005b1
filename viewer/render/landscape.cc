#include "viewer/render/landscape.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <glm/geometric.hpp>

#include "viewer/render/painting.h"

namespace plumbline::render {
namespace {

using glm::vec2;
using glm::vec3;
using glm::vec4;

// chosen: sizes of fields in a mild farming country
constexpr float kRowDepth_m = 265;
constexpr float kFieldWidth_m = 420;
constexpr float kNearTrees_m = 1900;    ///< single trees up to here
constexpr float kFarTreeRows_m = 7000;  ///< rows of trees up to here

const vec3 kShade(0.06F, 0.08F, 0.10F);

/// Smooth noise, -1..1.
float wave(vec2 p, std::uint32_t seed) { return 2 * noise(p, seed) - 1; }

vec3 hex(unsigned rgb) {
    return vec3(static_cast<float>((rgb >> 16) & 255U), static_cast<float>((rgb >> 8) & 255U),
                static_cast<float>(rgb & 255U)) /
           255.0F;
}

/// The mown airfield: a soft rectangle in runway axes.
struct Airfield {
    vec2 centre{0};
    vec2 along{1, 0};
    vec2 across{0, 1};  ///< away from the crowd
    float half_length = 950;
    float near_side = -260;  ///< across, crowd side
    float far_side = 330;

    vec2 toSite(float u, float v) const { return centre + along * u + across * v; }
    /// > 0 outside [m].
    float outside(vec2 p) const {
        const vec2 d = p - centre;
        const float u = std::abs(glm::dot(d, along)) - half_length;
        const float v = glm::dot(d, across);
        return std::max({u, v - far_side, near_side - v});
    }
};

class Builder {
public:
    explicit Builder(const scene::World& world) : world_(world), dice_(20260627) {}

    Landscape build() {
        placeAirfield();
        layFields();
        layAirfield();
        placeBuildings();
        plantBelts();
        placeCrowd();
        giveWayToThePicture();
        castShadows();
        return std::move(out_);
    }

private:
    void quad(const std::array<vec2, 4>& corners, vec4 colour, float kind, vec2 rows = vec2(0),
              float pitch_m = 0) {
        const auto first = static_cast<std::uint32_t>(out_.paint.size());
        for (const vec2& corner : corners) {
            out_.paint.push_back({corner, colour, rows, pitch_m, kind, vec2(0)});
        }
        for (const std::uint32_t i : {0U, 1U, 2U, 0U, 2U, 3U}) {
            out_.paint_indices.push_back(first + i);
        }
    }

    /// A strip along a line, soft at both sides (kind 2) or hard (kind 3).
    void strip(vec2 a, vec2 b, float width_m, vec4 colour, float kind) {
        const vec2 d = b - a;
        const float length = glm::length(d);
        if (length < 0.1F) return;
        const vec2 n = vec2(-d.y, d.x) / length;
        const float half = width_m / 2;
        const auto first = static_cast<std::uint32_t>(out_.paint.size());
        out_.paint.push_back({a - n * half, colour, vec2(-1, 0), half, kind, -n});
        out_.paint.push_back({b - n * half, colour, vec2(-1, 0), half, kind, -n});
        out_.paint.push_back({b + n * half, colour, vec2(1, 0), half, kind, n});
        out_.paint.push_back({a + n * half, colour, vec2(1, 0), half, kind, n});
        for (const std::uint32_t i : {0U, 1U, 2U, 0U, 2U, 3U}) {
            out_.paint_indices.push_back(first + i);
        }
    }

    void placeAirfield() {
        const data::Site& site = world_.site;
        const float crowd_y = static_cast<float>(site.crowd_line_y_m);
        field_.near_side = crowd_y - 90;
        if (site.runway) {
            const data::Runway& runway = *site.runway;
            field_.centre = vec2(runway.centre_S_m);
            field_.along = directionOfBearing(runway.bearing_rad, site.show_line_bearing_rad);
            out_.mark_at_start = runway.low_mark;
            out_.mark_at_end = runway.high_mark;
            if (field_.along.x < 0) {  // u grows to crowd right
                field_.along = -field_.along;
                std::swap(out_.mark_at_start, out_.mark_at_end);
            }
            field_.across = vec2(-field_.along.y, field_.along.x);
            field_.half_length = std::max(static_cast<float>(runway.length_m) / 2 + 240, 700.0F);
            field_.near_side = std::min(crowd_y - 90 - field_.centre.y, -160.0F);
        }
    }

    /// Bends the straight layout of the fields into country.
    vec2 warp(vec2 p) const {
        const vec2 far = vec2(wave(p / 2600.0F, 1), wave(p / 2600.0F, 2)) * 420.0F;
        const vec2 near = vec2(wave(p / 700.0F, 3), wave(p / 700.0F, 4)) * 60.0F;
        const vec2 q = p + far + near;
        const float c = std::cos(0.19F), s = std::sin(0.19F);
        return vec2(c * q.x - s * q.y, s * q.x + c * q.y);
    }

    struct FieldKind {
        vec3 colour;
        float pitch_m;
        float weight;
    };

    FieldKind rollField() {
        static const std::array<FieldKind, 9> kinds{{{hex(0x5c6d37), 0, 24},
                                                     {hex(0x68793f), 0, 18},
                                                     {hex(0x4f6430), 3, 14},
                                                     {hex(0x7b8448), 4, 8},
                                                     {hex(0xa8945c), 5, 14},
                                                     {hex(0xb7a468), 4, 7},
                                                     {hex(0x66543d), 4, 8},
                                                     {hex(0x786448), 3, 4},
                                                     {hex(0x36482a), 0, 5}}};
        float total = 0;
        for (const FieldKind& kind : kinds) total += kind.weight;
        float roll = dice_.between(0, total);
        for (const FieldKind& kind : kinds) {
            roll -= kind.weight;
            if (roll > 0) continue;
            FieldKind out = kind;
            out.colour *= dice_.between(0.92F, 1.08F);
            return out;
        }
        return kinds[0];
    }

    void layFields() {
        const float reach = kCountryHalf_m + 1100;
        const int rows = static_cast<int>(2 * reach / kRowDepth_m) + 1;
        std::vector<float> levels(static_cast<std::size_t>(rows + 1));
        for (int j = 0; j <= rows; ++j) {
            levels[static_cast<std::size_t>(j)] =
                -reach + static_cast<float>(j) * kRowDepth_m + dice_.between(-75, 75);
        }
        for (int j = 0; j < rows; ++j) {
            const auto k = static_cast<std::size_t>(j);
            layRow(levels[k], levels[k + 1], reach);
        }
        for (const Hedge& hedge : hedges_) growHedge(hedge);
        // Two lanes and a river of trees would be seen from the air first; lanes suffice.
        lane(-560, 0.06F);
        lane(1480, -0.10F);
        lane(-2300, 0.15F);
    }

    struct Hedge {
        vec2 a, b;
        float roll = 0;
    };

    void layRow(float low, float high, float reach) {
        float left = -reach + dice_.between(-200, 0);
        float left_slant = dice_.between(-40, 40);
        while (left < reach) {
            float width = kFieldWidth_m * dice_.between(0.55F, 1.5F);
            if (dice_.unit() < 0.12F) width *= 1.7F;
            const float right = left + width;
            const float right_slant = dice_.between(-40, 40);
            layField(vec2(left - left_slant, low), vec2(right - right_slant, low),
                     vec2(right + right_slant, high), vec2(left + left_slant, high));
            left = right;
            left_slant = right_slant;
        }
    }

    void layField(vec2 a, vec2 b, vec2 c, vec2 d) {
        const vec2 middle = warp((a + b + c + d) / 4.0F);
        const FieldKind kind = rollField();
        const float bend_roll = dice_.unit();
        const float hedge_roll = dice_.unit();
        const float side_roll = dice_.unit();
        if (std::max(std::abs(middle.x), std::abs(middle.y)) > kCountryHalf_m + 600) return;
        vec2 rows = glm::normalize(bend_roll < 0.6F ? warp(b) - warp(a) : warp(d) - warp(a));
        constexpr int kPieces = 5;
        for (int i = 0; i < kPieces; ++i) {
            const float f0 = static_cast<float>(i) / kPieces;
            const float f1 = static_cast<float>(i + 1) / kPieces;
            const vec2 p0 = warp(glm::mix(a, b, f0)), p1 = warp(glm::mix(a, b, f1));
            const vec2 q0 = warp(glm::mix(d, c, f0)), q1 = warp(glm::mix(d, c, f1));
            quad({p0, p1, q1, q0}, vec4(kind.colour, 1), 0, rows, kind.pitch_m);
            if (hedge_roll < 0.82F) hedges_.push_back({p0, p1, hedge_roll / 0.82F});
            if (side_roll < 0.72F) {
                hedges_.push_back(
                    {warp(glm::mix(a, d, f0)), warp(glm::mix(a, d, f1)), side_roll / 0.72F});
            }
        }
    }

    void growHedge(const Hedge& hedge) {
        const vec2 middle = (hedge.a + hedge.b) / 2.0F;
        if (field_.outside(middle) < 12 || field_.outside(hedge.a) < 4 ||
            field_.outside(hedge.b) < 4) {
            return;
        }
        const float length = glm::length(hedge.b - hedge.a);
        const float reach = glm::length(middle);
        // The roll says what stands on the boundary: ditch, trimmed hedge, hedge with trees, belt.
        const float width = hedge.roll < 0.25F ? 5.0F : hedge.roll < 0.8F ? 8.0F : 15.0F;
        strip(hedge.a, hedge.b, width, vec4(hex(0x2c3a22), 0.9F), 2);
        const float per_m = hedge.roll < 0.25F ? 0.006F : hedge.roll < 0.8F ? 0.026F : 0.06F;
        if (reach < kNearTrees_m) {
            float at = dice_.between(0, 1 / per_m);
            while (at < length) {
                const vec2 foot = glm::mix(hedge.a, hedge.b, at / length) +
                                  vec2(dice_.between(-3, 3), dice_.between(-3, 3));
                plant(foot, dice_.unit() < 0.35F);
                at += dice_.between(0.4F, 1.6F) / per_m;
            }
        } else if (reach < kFarTreeRows_m && hedge.roll > 0.3F) {
            const float height = hedge.roll < 0.8F ? dice_.between(5, 9) : dice_.between(9, 14);
            out_.tree_rows.push_back({hedge.a, hedge.b, height, dice_.unit()});
        }
    }

    void lane(float level, float slope) {
        vec2 before(0);
        for (int i = 0; i <= 90; ++i) {
            const float x = -kCountryHalf_m + static_cast<float>(i) / 90 * 2 * kCountryHalf_m;
            const vec2 p(x, level + slope * x + 90 * wave(vec2(x / 900, level), 9));
            if (i > 0 && field_.outside(p) > 20 && field_.outside(before) > 20) {
                strip(before, p, 9, vec4(hex(0x5a6640), 0.7F), 2);
                strip(before, p, 4.5F, vec4(hex(0x8b887c), 0.95F), 3);
            }
            before = p;
        }
    }

    void layAirfield() {
        // Rings towards the middle, so that the edge is soft and its corners round.
        const std::array<vec2, 4> box{field_.toSite(-field_.half_length, field_.near_side),
                                      field_.toSite(field_.half_length, field_.near_side),
                                      field_.toSite(field_.half_length, field_.far_side),
                                      field_.toSite(-field_.half_length, field_.far_side)};
        quad(box, vec4(hex(0x697037), 1), 1, field_.along, 24);
        for (std::size_t i = 0; i < 4; ++i) {
            if (i == 0) continue;  // the crowd side is open
            strip(box[i], box[(i + 1) % 4], 7, vec4(hex(0x33432a), 0.85F), 2);
        }
        // The lane that the crowd came on.
        strip(box[0], box[1], 5, vec4(hex(0x8b887c), 0.9F), 3);
        // Where the crowd stands and walks the grass is worn.
        const data::Site& site = world_.site;
        const float y = static_cast<float>(site.crowd_line_y_m);
        const float x0 = static_cast<float>(site.crowd_x_min_m);
        const float x1 = static_cast<float>(site.crowd_x_max_m);
        if (x1 > x0) {
            strip(vec2(x0, y - 3), vec2(x1, y - 3), 9, vec4(hex(0x6f7040), 0.8F), 2);
            strip(vec2(x0, y - 22), vec2(x1, y - 22), 16, vec4(hex(0x837d58), 0.55F), 2);
        }
        if (site.runway) layPavements(*site.runway);
    }

    void layPavements(const data::Runway& runway) {
        const float half_length = static_cast<float>(runway.length_m) / 2;
        const float half_width = static_cast<float>(runway.width_m) / 2;
        const auto piece = [&](float u0, float u1, float v0, float v1) {
            out_.pavements.push_back({field_.toSite((u0 + u1) / 2, (v0 + v1) / 2), field_.along,
                                      (u1 - u0) / 2, (v1 - v0) / 2, false});
        };
        // chosen: taxiway, two links and an apron on the side away from the crowd
        piece(-half_length + 30, half_length * 0.25F, 84, 95);
        piece(-half_length + 30, -half_length + 42, half_width - 1, 85);
        piece(half_length * 0.25F - 12, half_length * 0.25F, half_width - 1, 85);
        piece(-430, -120, 95, 150);
        out_.pavements.push_back({field_.centre, field_.along, half_length, half_width, true});
        out_.wind_sock_S_m = field_.toSite(-90, half_width + 32);
    }

    void placeBuildings() {
        if (!world_.site.runway) {
            out_.wind_sock_S_m = field_.toSite(-90, 60);
            return;
        }
        const auto add = [&](Building::Kind kind, float u, float v, float length, float depth,
                             float height, float tint) {
            out_.buildings.push_back(
                {kind, field_.toSite(u, v), field_.along, length, depth, height, tint});
        };
        add(Building::Kind::Hangar, -390, 172, 44, 32, 10.5F, 0.3F);
        add(Building::Kind::Hangar, -318, 174, 44, 34, 11.0F, 0.7F);
        add(Building::Kind::Hangar, -246, 172, 44, 32, 10.5F, 0.5F);
        add(Building::Kind::Tower, -186, 166, 8, 8, 13, 0.5F);
        add(Building::Kind::Hut, -160, 168, 24, 10, 4.2F, 0.4F);
    }

    /// What is invented does not stand on a true picture of the field.
    void giveWayToThePicture() {
        if (!world_.aerial) return;
        const auto covered = [this](vec2 at) {
            return world_.aerial->covers(static_cast<double>(at.x), static_cast<double>(at.y));
        };
        std::erase_if(out_.trees, [&](const Tree& tree) { return covered(vec2(tree.foot_S_m)); });
        std::erase_if(out_.tree_rows, [&](const TreeRow& row) {
            return covered(row.from_S_m) || covered(row.to_S_m);
        });
        std::erase_if(out_.pavements, [&](const Pavement& p) { return covered(p.centre_S_m); });
        std::erase_if(out_.buildings, [&](const Building& b) { return covered(b.centre_S_m); });
    }

    void plant(vec2 foot, bool bush) {
        if (std::abs(field_.outside(foot)) < 4 && !bush) return;
        Tree tree;
        tree.foot_S_m = vec3(foot, 0);
        tree.shape = dice_.below(4);
        tree.height_m = bush ? dice_.between(2.2F, 5) : dice_.between(7, 16);
        tree.width_m =
            tree.height_m * (bush ? dice_.between(1.1F, 1.6F) : dice_.between(0.75F, 1.1F));
        tree.tint = dice_.unit();
        out_.trees.push_back(tree);
    }

    void plantBelts() {
        // The wooded edge beyond the runway that closes the picture from the crowd line, with gaps.
        for (float u = -field_.half_length - 500; u < field_.half_length + 500;
             u += dice_.between(4, 13)) {
            const float density = wave(vec2(u / 170, 3), 21);
            if (density < -0.45F) continue;
            const float v = field_.far_side + 14 + dice_.between(0, 42) * (0.4F + 0.6F * density);
            plant(field_.toSite(u, v), dice_.unit() < 0.3F);
        }
        // Copses.
        for (int i = 0; i < 26; ++i) {
            const vec2 centre(dice_.between(-1700, 1700), dice_.between(-1500, 1800));
            const float radius = dice_.between(18, 60);
            if (field_.outside(centre) < radius + 25) continue;
            blob({centre + vec2(-radius, -radius), centre + vec2(radius, -radius),
                  centre + vec2(radius, radius), centre + vec2(-radius, radius)},
                 vec4(hex(0x2f3d24), 0.85F));
            const int count = static_cast<int>(radius * 0.6F);
            for (int k = 0; k < count; ++k) {
                const float angle = dice_.between(0, 6.2832F);
                const float r = radius * std::sqrt(dice_.unit());
                plant(centre + vec2(std::cos(angle), std::sin(angle)) * r, dice_.unit() < 0.15F);
            }
        }
    }

    void placeCrowd() {
        const data::Site& site = world_.site;
        const float x0 = static_cast<float>(site.crowd_x_min_m);
        const float x1 = static_cast<float>(site.crowd_x_max_m);
        const float y = static_cast<float>(site.crowd_line_y_m);
        // chosen: muted shirts; nothing as strong as the aircraft's own colours
        static const std::array<vec3, 10> shirts{
            hex(0xcfc9bb), hex(0x8e9aa3), hex(0x5d6f80), hex(0x7b5a50), hex(0xa8a08c),
            hex(0x4f5d52), hex(0xb59a7c), hex(0x3c424b), hex(0x98707a), hex(0xdad6cc)};
        constexpr int kMost = 2600;
        for (int row = 0; row < 5 && x1 > x0; ++row) {
            float x = x0 + dice_.between(0, 2);
            while (x < x1 && static_cast<int>(out_.crowd.size()) < kMost) {
                // Families stand together, with gaps between.
                const float crowding = wave(vec2(x / 9, static_cast<float>(row) * 0.7F), 31) +
                                       0.5F * wave(vec2(x / 70, 0), 32);
                if (crowding > -0.25F + 0.16F * static_cast<float>(row)) {
                    Person person;
                    person.foot_S_m = vec3(
                        x, y - 0.6F - 0.95F * static_cast<float>(row) - dice_.between(0, 0.6F), 0);
                    person.height_m = dice_.unit() < 0.14F ? dice_.between(1.0F, 1.4F)
                                                           : dice_.between(1.56F, 1.86F);
                    person.shape = dice_.below(8);
                    person.shirt = shirts[static_cast<std::size_t>(dice_.below(10))] *
                                   dice_.between(0.85F, 1.08F);
                    person.mirrored = dice_.unit() < 0.5F;
                    out_.crowd.push_back(person);
                }
                x += dice_.between(0.55F, 1.3F);
            }
        }
    }

    /// Long soft shadows away from the sun, under trees and beside buildings.
    void castShadows() {
        const double elevation_rad = world_.sun_elevation_rad;
        vec2 away(0);
        float stretch = 0;
        float strength = 0.30F;
        if (elevation_rad > 0.01) {
            const vec2 flat(world_.sun_S);
            const float length = glm::length(flat);
            if (length > 1e-4F) away = -flat / length;
            stretch = std::min(1 / std::tan(static_cast<float>(elevation_rad)), 7.0F);
            strength = 0.42F;
        }
        const vec2 side(-away.y, away.x);
        for (const Tree& tree : out_.trees) {
            const vec2 foot(tree.foot_S_m);
            const float r = tree.width_m * 0.5F;
            const float reach = tree.height_m * stretch;
            const vec2 axis = stretch > 0 ? away : vec2(1, 0);
            const vec2 wide = stretch > 0 ? side : vec2(0, 1);
            const vec2 back = foot - axis * r;
            const vec2 front = foot + axis * (r + reach);
            blob({back - wide * r, front - wide * r, front + wide * r, back + wide * r},
                 vec4(kShade, strength));
        }
        for (const Building& building : out_.buildings) {
            const vec2 across(-building.along_S.y, building.along_S.x);
            const vec2 hx = building.along_S * (building.length_m / 2 + 1);
            const vec2 hy = across * (building.depth_m / 2 + 1);
            const vec2 shift = away * (building.height_m * 0.85F * stretch);
            const vec2 c = building.centre_S_m;
            for (int i = 0; i <= 4; ++i) {
                const vec2 m = c + shift * (static_cast<float>(i) / 4);
                blob({m - hx * 1.15F - hy * 1.15F, m + hx * 1.15F - hy * 1.15F,
                      m + hx * 1.15F + hy * 1.15F, m - hx * 1.15F + hy * 1.15F},
                     vec4(kShade, 0.2F));
            }
        }
    }

    /// A soft round patch stretched over four corners.
    void blob(const std::array<vec2, 4>& corners, vec4 colour) {
        const auto first = static_cast<std::uint32_t>(out_.paint.size());
        static const std::array<vec2, 4> sides{vec2(-1, -1), vec2(1, -1), vec2(1, 1), vec2(-1, 1)};
        for (std::size_t i = 0; i < 4; ++i) {
            out_.paint.push_back({corners[i], colour, sides[i], 0, 4, vec2(0)});
        }
        for (const std::uint32_t i : {0U, 1U, 2U, 0U, 2U, 3U}) {
            out_.paint_indices.push_back(first + i);
        }
    }

    const scene::World& world_;
    Dice dice_;
    Airfield field_;
    std::vector<Hedge> hedges_;
    Landscape out_;
};

}  // namespace

float Dice::unit() {
    // xorshift32 (Marsaglia, Xorshift RNGs, J. Stat. Software 8(14), 2003)
    state_ ^= state_ << 13;
    state_ ^= state_ >> 17;
    state_ ^= state_ << 5;
    return static_cast<float>(state_ >> 8) / 16777216.0F;
}

vec2 directionOfBearing(double bearing_rad, double show_line_bearing_rad) {
    const double angle = show_line_bearing_rad - bearing_rad;
    return vec2(static_cast<float>(std::cos(angle)), static_cast<float>(std::sin(angle)));
}

Landscape makeLandscape(const scene::World& world) { return Builder(world).build(); }

}  // namespace plumbline::render

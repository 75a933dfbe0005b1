#pragma once
// The invented country round the airfield, as plain data in site axes: fields, hedges, trees,
// buildings, the crowd's places. The same site always gives the same country. No GL.

#include <cstdint>
#include <string>
#include <vector>

#include <glm/ext/vector_float2.hpp>
#include <glm/ext/vector_float3.hpp>
#include <glm/ext/vector_float4.hpp>

#include "viewer/scene/draw_list.h"

namespace plumbline::render {

/// Half the side of the country that is laid out; beyond it the ground repeats, mirrored.
inline constexpr float kCountryHalf_m = 9600;

/// Repeatable numbers from a seed.
class Dice {
public:
    explicit Dice(std::uint32_t seed) : state_(seed * 2654435769U + 1U) {}
    float unit();  ///< [0, 1)
    float between(float low, float high) { return low + (high - low) * unit(); }
    int below(int count) { return static_cast<int>(unit() * static_cast<float>(count)); }

private:
    std::uint32_t state_;
};

/// A corner of a piece of ground painted into the site's textures.
struct PaintVertex {
    glm::vec2 at_S_m{0};
    glm::vec4 colour{1};  ///< a: coverage
    glm::vec2 across{0};  ///< strips: x = -1..1 across; blobs: -1..1; fields: the rows' direction
    float pitch_m = 0;    ///< fields: distance of the rows, 0 none; strips: half width
    float kind = 0;       ///< 0 field, 1 mown grass, 2 soft strip, 3 hard strip, 4 blob
    glm::vec2 widen{0};   ///< strips: unit, outwards, for texels wider than the strip
};

struct Tree {
    glm::vec3 foot_S_m{0};
    float height_m = 10;
    float width_m = 9;
    int shape = 0;      ///< 0..3
    float tint = 0.5F;  ///< 0 dark and blue, 1 light and yellow
};

/// A far row of trees, drawn as an upright strip.
struct TreeRow {
    glm::vec2 from_S_m{0};
    glm::vec2 to_S_m{0};
    float height_m = 9;
    float phase = 0;
};

struct Person {
    glm::vec3 foot_S_m{0};
    float height_m = 1.7F;
    int shape = 0;  ///< 0..7
    glm::vec3 shirt{0.5F};
    bool mirrored = false;
};

/// A piece of pavement: a rectangle in its own axes (u along, v across).
struct Pavement {
    glm::vec2 centre_S_m{0};
    glm::vec2 along_S{1, 0};
    float half_length_m = 0;
    float half_width_m = 0;
    bool runway = false;
};

struct Building {
    enum class Kind { Hangar, Tower, Hut } kind = Kind::Hangar;
    glm::vec2 centre_S_m{0};
    glm::vec2 along_S{1, 0};  ///< the door looks to the right of this (towards the runway)
    float length_m = 34;
    float depth_m = 26;
    float height_m = 9;
    float tint = 0.5F;
};

struct Landscape {
    std::vector<PaintVertex> paint;  ///< drawn in order of the indices
    std::vector<std::uint32_t> paint_indices;
    std::vector<Tree> trees;
    std::vector<TreeRow> tree_rows;
    std::vector<Pavement> pavements;
    std::vector<Building> buildings;
    std::vector<Person> crowd;
    glm::vec2 wind_sock_S_m{0};
    std::string mark_at_start;  ///< painted where the runway begins (u < 0), read along +u
    std::string mark_at_end;
};

Landscape makeLandscape(const scene::World& world);

/// Horizontal direction of a true bearing in site axes.
glm::vec2 directionOfBearing(double bearing_rad, double show_line_bearing_rad);

}  // namespace plumbline::render

#include "viewer/render/buildings.h"

#include <array>
#include <cmath>

#include <glm/geometric.hpp>

namespace plumbline::render {
namespace {

using glm::vec2;
using glm::vec3;

void triangle(SolidVertices& out, vec3 a, vec3 b, vec3 c, vec3 normal, vec3 colour) {
    for (const vec3& p : {a, b, c}) out.push_back({p, normal, colour});
}

void quad(SolidVertices& out, vec3 a, vec3 b, vec3 c, vec3 d, vec3 normal, vec3 colour) {
    triangle(out, a, b, c, normal, colour);
    triangle(out, a, c, d, normal, colour);
}

/// A building's own axes: x along the runway, y away from it (the door is at -y), z up.
struct Local {
    vec2 centre;
    vec2 along;
    vec3 at(float x, float y, float z) const {
        const vec2 across(-along.y, along.x);
        return {centre + along * x + across * y, z};
    }
    vec3 direction(float x, float y, float z) const {
        const vec2 across(-along.y, along.x);
        return {along * x + across * y, z};
    }
};

void box(SolidVertices& out, const Local& l, vec3 low, vec3 high, vec3 wall, vec3 roof) {
    quad(out, l.at(low.x, low.y, low.z), l.at(high.x, low.y, low.z), l.at(high.x, low.y, high.z),
         l.at(low.x, low.y, high.z), l.direction(0, -1, 0), wall);
    quad(out, l.at(low.x, high.y, low.z), l.at(high.x, high.y, low.z), l.at(high.x, high.y, high.z),
         l.at(low.x, high.y, high.z), l.direction(0, 1, 0), wall);
    quad(out, l.at(low.x, low.y, low.z), l.at(low.x, high.y, low.z), l.at(low.x, high.y, high.z),
         l.at(low.x, low.y, high.z), l.direction(-1, 0, 0), wall);
    quad(out, l.at(high.x, low.y, low.z), l.at(high.x, high.y, low.z), l.at(high.x, high.y, high.z),
         l.at(high.x, low.y, high.z), l.direction(1, 0, 0), wall);
    quad(out, l.at(low.x, low.y, high.z), l.at(high.x, low.y, high.z), l.at(high.x, high.y, high.z),
         l.at(low.x, high.y, high.z), vec3(0, 0, 1), roof);
}

void hangar(SolidVertices& out, const Building& b) {
    const Local l{b.centre_S_m, b.along_S};
    const float hx = b.length_m / 2, hy = b.depth_m / 2, eaves = b.height_m * 0.55F;
    const vec3 wall = glm::mix(vec3(0.66F, 0.65F, 0.60F), vec3(0.72F, 0.70F, 0.62F), b.tint);
    const vec3 roof = glm::mix(vec3(0.50F, 0.54F, 0.57F), vec3(0.56F, 0.55F, 0.52F), b.tint);
    for (const float side : {-1.0F, 1.0F}) {
        quad(out, l.at(side * hx, -hy, 0), l.at(side * hx, hy, 0), l.at(side * hx, hy, eaves),
             l.at(side * hx, -hy, eaves), l.direction(side, 0, 0), wall);
    }
    constexpr int kArc = 14;
    for (int i = 0; i < kArc; ++i) {
        const auto arc = [&](int k) {
            const float a = (static_cast<float>(k) / kArc * 2 - 1) * 1.5708F;
            return vec2(std::sin(a) * hx, eaves + std::cos(a) * (b.height_m - eaves));
        };
        const vec2 p = arc(i), q = arc(i + 1);
        const vec2 n = glm::normalize(vec2(p.y - q.y, q.x - p.x));
        const float over = 0.6F;
        // Every other sheet a little darker, like ribs.
        const vec3 sheet = roof * (i % 2 == 0 ? 1.0F : 0.95F);
        quad(out, l.at(p.x, -hy - over, p.y), l.at(q.x, -hy - over, q.y), l.at(q.x, hy + over, q.y),
             l.at(p.x, hy + over, p.y), l.direction(n.x, 0, n.y), sheet);
        for (const float end : {-1.0F, 1.0F}) {
            triangle(out, l.at(p.x, end * hy, p.y), l.at(q.x, end * hy, q.y),
                     l.at(0, end * hy, eaves), l.direction(0, end, 0), wall);
        }
    }
    for (const float end : {-1.0F, 1.0F}) {
        quad(out, l.at(-hx, end * hy, 0), l.at(hx, end * hy, 0), l.at(hx, end * hy, eaves),
             l.at(-hx, end * hy, eaves), l.direction(0, end, 0), wall);
    }
    // Sliding doors in leaves, one of them open.
    const float door = hx * 0.84F, front = -hy - 0.2F, top = eaves * 1.12F;
    constexpr int kLeaves = 8;
    for (int i = 0; i < kLeaves; ++i) {
        const float x0 = -door + 2 * door * static_cast<float>(i) / kLeaves;
        const float x1 = -door + 2 * door * static_cast<float>(i + 1) / kLeaves;
        const bool open = i == 3 || i == 4;
        const vec3 leaf = open ? vec3(0.10F, 0.11F, 0.12F)
                               : vec3(0.42F, 0.49F, 0.54F) * (i % 2 == 0 ? 1.0F : 0.90F);
        quad(out, l.at(x0, front, 0), l.at(x1, front, 0), l.at(x1, front, top),
             l.at(x0, front, top), l.direction(0, -1, 0), leaf);
        if (!open) {
            quad(out, l.at(x0, front - 0.1F, top * 0.66F), l.at(x1, front - 0.1F, top * 0.66F),
                 l.at(x1, front - 0.1F, top * 0.84F), l.at(x0, front - 0.1F, top * 0.84F),
                 l.direction(0, -1, 0), vec3(0.24F, 0.30F, 0.35F));
        }
    }
}

void tower(SolidVertices& out, const Building& b) {
    const Local l{b.centre_S_m, b.along_S};
    const vec3 wall(0.80F, 0.78F, 0.72F), dark(0.30F, 0.32F, 0.33F), glass(0.22F, 0.31F, 0.36F);
    const float h = b.height_m;
    box(out, l, {-5.5F, -4, 0}, {9, 6, 4}, wall * 0.96F, dark * 1.5F);
    box(out, l, {-3, -3, 4}, {3, 3, h * 0.64F}, wall, dark);
    box(out, l, {-4, -4, h * 0.64F}, {4, 4, h * 0.70F}, dark * 1.4F, dark);
    box(out, l, {-3.6F, -3.6F, h * 0.70F}, {3.6F, 3.6F, h * 0.93F}, glass, dark);
    box(out, l, {-4.2F, -4.2F, h * 0.93F}, {4.2F, 4.2F, h}, wall * 0.9F, dark * 1.7F);
    addPole(out, b.centre_S_m, h + 5, 0.07F, vec3(0.6F));
}

void hut(SolidVertices& out, const Building& b) {
    const Local l{b.centre_S_m, b.along_S};
    const float hx = b.length_m / 2, hy = b.depth_m / 2, eaves = b.height_m * 0.62F;
    const vec3 wall(0.70F, 0.64F, 0.54F), roof(0.45F, 0.31F, 0.25F);
    box(out, l, {-hx, -hy, 0}, {hx, hy, eaves}, wall, roof);
    for (const float side : {-1.0F, 1.0F}) {
        const vec3 n = l.direction(0, side * 0.5F, 0.866F);
        quad(out, l.at(-hx - 0.5F, side * (hy + 0.5F), eaves),
             l.at(hx + 0.5F, side * (hy + 0.5F), eaves), l.at(hx + 0.5F, 0, b.height_m),
             l.at(-hx - 0.5F, 0, b.height_m), n, roof);
        triangle(out, l.at(side * hx, -hy, eaves), l.at(side * hx, hy, eaves),
                 l.at(side * hx, 0, b.height_m), l.direction(side, 0, 0), wall);
    }
    for (int i = 0; i < 5; ++i) {
        const float x = -hx + b.length_m * (static_cast<float>(i) + 0.3F) / 5;
        quad(out, l.at(x, -hy - 0.1F, 1), l.at(x + 1.8F, -hy - 0.1F, 1),
             l.at(x + 1.8F, -hy - 0.1F, 2.1F), l.at(x, -hy - 0.1F, 2.1F), l.direction(0, -1, 0),
             vec3(0.25F, 0.30F, 0.33F));
    }
}

void obstacle(SolidVertices& out, const data::Obstacle& o) {
    const std::size_t count = o.outline_S_m.size();
    if (count < 3 || o.top_m <= 0) return;
    const float top = static_cast<float>(o.top_m);
    vec2 middle(0);
    for (const Vec3& p : o.outline_S_m) middle += vec2(p) / static_cast<float>(count);
    const vec3 wall(0.60F, 0.57F, 0.52F);
    for (std::size_t i = 0; i < count; ++i) {
        const vec2 a(o.outline_S_m[i]);
        const vec2 b(o.outline_S_m[(i + 1) % count]);
        const vec2 d = b - a;
        const float length = glm::length(d);
        if (length < 1e-3F) continue;
        vec2 n = vec2(d.y, -d.x) / length;
        if (glm::dot(n, (a + b) / 2.0F - middle) < 0) n = -n;
        quad(out, vec3(a, 0), vec3(b, 0), vec3(b, top), vec3(a, top), vec3(n, 0), wall);
        triangle(out, vec3(a, top), vec3(b, top), vec3(middle, top), vec3(0, 0, 1), wall * 0.85F);
    }
}

}  // namespace

void addTube(SolidVertices& out, vec3 from, vec3 to, float radius_from_m, float radius_to_m,
             vec3 colour) {
    const vec3 along = glm::normalize(to - from);
    const vec3 side =
        glm::normalize(glm::cross(along, std::abs(along.z) > 0.9F ? vec3(1, 0, 0) : vec3(0, 0, 1)));
    const vec3 up = glm::cross(side, along);
    constexpr int kSides = 8;
    for (int i = 0; i < kSides; ++i) {
        const float a = static_cast<float>(i) / kSides * 6.2831853F;
        const float b = static_cast<float>(i + 1) / kSides * 6.2831853F;
        const vec3 ra = side * std::cos(a) + up * std::sin(a);
        const vec3 rb = side * std::cos(b) + up * std::sin(b);
        quad(out, from + ra * radius_from_m, from + rb * radius_from_m, to + rb * radius_to_m,
             to + ra * radius_to_m, glm::normalize(ra + rb), colour);
    }
}

void addPole(SolidVertices& out, vec2 foot, float height_m, float radius_m, vec3 colour) {
    addTube(out, vec3(foot, 0), vec3(foot, height_m), radius_m, radius_m * 0.7F, colour);
}

SolidVertices buildStanding(const Landscape& landscape, const data::Site& site) {
    SolidVertices out;
    for (const Building& building : landscape.buildings) {
        switch (building.kind) {
            case Building::Kind::Hangar:
                hangar(out, building);
                break;
            case Building::Kind::Tower:
                tower(out, building);
                break;
            case Building::Kind::Hut:
                hut(out, building);
                break;
        }
    }
    for (const data::Obstacle& o : site.obstacles) obstacle(out, o);
    return out;
}

}  // namespace plumbline::render

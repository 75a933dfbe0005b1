#include "engine/review/arcs.h"

#include <algorithm>
#include <cmath>

#include <glm/ext/matrix_double3x3.hpp>
#include <glm/matrix.hpp>

#include "engine/review/doubts.h"

namespace plumbline::review {
namespace {

constexpr double kLeastArc_rad = 150 * kPi / 180;

using Points = std::vector<std::pair<double, double>>;

// Two axes across a direction.
std::pair<Vec3, Vec3> across(const Vec3& direction) {
    const Vec3 other = std::fabs(direction.z) < 0.9 ? Vec3(0, 0, 1) : Vec3(1, 0, 0);
    const Vec3 u = glm::normalize(glm::cross(other, direction));
    return {u, glm::cross(direction, u)};
}

}  // namespace

std::optional<Circle> circleThrough(std::span<const std::pair<double, double>> xy) {
    if (xy.size() < 3) return std::nullopt;
    double mean_x = 0, mean_y = 0;
    for (const auto& [x, y] : xy) {
        mean_x += x / static_cast<double>(xy.size());
        mean_y += y / static_cast<double>(xy.size());
    }
    // x^2 + y^2 = 2 a x + 2 b y + c about the mean point.
    glm::dmat3 normal(0.0);
    Vec3 right(0);
    for (const auto& [px, py] : xy) {
        const Vec3 row(px - mean_x, py - mean_y, 1);
        normal += glm::outerProduct(row, row);
        right += row * (row.x * row.x + row.y * row.y);
    }
    const double size = normal[0][0] + normal[1][1];
    const double flat = normal[0][0] * normal[1][1] - normal[0][1] * normal[0][1];
    if (!(flat > 1e-9 * size * size)) return std::nullopt;
    const Vec3 solved = glm::inverse(normal) * right;
    Circle c;
    c.x = mean_x + 0.5 * solved.x;
    c.y = mean_y + 0.5 * solved.y;
    c.radius =
        std::sqrt(std::max(0.0, solved.z + 0.25 * (solved.x * solved.x + solved.y * solved.y)));
    c.least = 1e300;
    for (const auto& [x, y] : xy) {
        const double distance = std::hypot(x - c.x, y - c.y);
        c.least = std::min(c.least, distance);
        c.most = std::max(c.most, distance);
    }
    return c;
}

std::optional<ArcMeasure> measureArc(const path::Path& flight, const Piece& flown,
                                     const Vec3& eye) {
    if ((flown.motion != Motion::Pull && flown.motion != Motion::Push) ||
        flown.turned_rad < kLeastArc_rad || !flight.known.place)
        return std::nullopt;
    // chosen: the ends belong to coming and going
    constexpr double kEnds = 0.05, kStep_s = 0.05;
    const double length_s = flown.stop_s - flown.start_s;
    std::vector<Vec3> places;
    for (double t = flown.start_s + kEnds * length_s; t <= flown.stop_s - kEnds * length_s;
         t += kStep_s)
        places.push_back(path::sampleAt(flight, t).position_S_m);
    if (places.size() < 8) return std::nullopt;
    Vec3 normal(0), middle(0);
    for (std::size_t i = 1; i + 1 < places.size(); ++i)
        normal += glm::cross(places[i] - places[i - 1], places[i + 1] - places[i]);
    for (const Vec3& place : places) middle += place / static_cast<double>(places.size());
    if (!(glm::length(normal) > 0) || !(glm::length(middle - eye) > 0)) return std::nullopt;
    const auto [u, v] = across(glm::normalize(normal));
    const Vec3 sight = glm::normalize(middle - eye);
    const auto [right, up] = across(sight);
    Points own, seen;
    for (const Vec3& place : places) {
        own.emplace_back(glm::dot(place - middle, u), glm::dot(place - middle, v));
        const Vec3 from = place - eye;
        const double ahead = glm::dot(from, sight);
        if (ahead > 1) seen.emplace_back(glm::dot(from, right) / ahead, glm::dot(from, up) / ahead);
    }
    const auto circle = circleThrough(own);
    if (!circle) return std::nullopt;
    ArcMeasure m;
    m.start_s = flown.start_s;
    m.stop_s = flown.stop_s;
    m.turned_rad = flown.turned_rad;
    m.radius_m = circle->radius;
    m.least_m = circle->least;
    m.most_m = circle->most;
    m.unround = circle->unround();
    const bool from_the_side = std::fabs(glm::dot(glm::normalize(normal), sight)) < 0.5;
    const auto in_sight = circleThrough(seen);
    if (in_sight && !from_the_side) m.seen_unround = in_sight->unround();
    // Where it begins and ends moves the circle, and places that are off each to its own side.
    const double place_m = placeSigma_m(flight, m.start_s, m.stop_s);
    if (place_m > 0 && m.radius_m > 0) {
        const auto without_ends = [](const Points& points) {
            return circleThrough(std::span(points).subspan(1, points.size() - 2));
        };
        const auto shorter = without_ends(own), seen_shorter = without_ends(seen);
        const double shape_m = shapeSigma_m(place_m);
        m.radius_sigma_m =
            std::hypot(shape_m, shorter ? std::fabs(shorter->radius - m.radius_m) : 0);
        m.unround_sigma = std::hypot(shape_m / m.radius_m,
                                     shorter ? std::fabs(shorter->unround() - m.unround) : 0);
        // Its distance, and so its size in the picture, changes with its place as a whole.
        if (m.seen_unround)
            m.seen_sigma =
                std::hypot(apartSigma_m(place_m) / m.radius_m,
                           seen_shorter ? std::fabs(seen_shorter->unround() - *m.seen_unround) : 0);
    }
    return m;
}

double pivotHalfSpans(const path::Path& flight, const Piece& pivot, double span_m) {
    const Vec3 way = path::sampleAt(flight, pivot.stop_s).position_S_m -
                     path::sampleAt(flight, pivot.start_s).position_S_m;
    return span_m > 0 ? std::hypot(way.x, way.y) / (0.5 * span_m) : 0;
}

double pivotSigma(const path::Path& flight, const Piece& pivot, double span_m) {
    const double shape_m = shapeSigma_m(placeSigma_m(flight, pivot.stop_s));
    if (!(shape_m > 0) || !(span_m > 0)) return 0;
    double ends_m = 0;
    for (const double time_s : {pivot.start_s, pivot.stop_s}) {
        const Vec3 v = path::sampleAt(flight, time_s).velocity_S_mps;
        ends_m = std::hypot(ends_m, kEdge_s * std::hypot(v.x, v.y));
    }
    return std::hypot(shape_m, ends_m) / (0.5 * span_m);
}

}  // namespace plumbline::review

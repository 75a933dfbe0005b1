#pragma once
// A flight in closed form: a vertical circle to crowd right, rolling all the while.

#include <cmath>
#include <memory>
#include <string>

#include "engine/out/flight.h"

namespace plumbline::test {

inline constexpr double kRadius_m = 100, kSpeed_mps = 50, kRoll_radps = 3, kY_m = 40;
inline constexpr double kTurn_radps = kSpeed_mps / kRadius_m;

inline Vec3 placeAt(double time_s) {
    const double a = kTurn_radps * time_s;
    return {kRadius_m * std::sin(a), kY_m, 200 - kRadius_m * std::cos(a)};
}
inline Vec3 noseAt(double time_s) {
    return {std::cos(kTurn_radps * time_s), 0, std::sin(kTurn_radps * time_s)};
}
/// Before the roll the right wing points to the crowd and the canopy to the circle's centre.
inline Vec3 rightWingAt(double time_s) {
    const double a = kTurn_radps * time_s, r = kRoll_radps * time_s;
    const Vec3 right(0, -1, 0), down(std::sin(a), 0, -std::cos(a));
    return std::cos(r) * right + std::sin(r) * down;
}

inline std::shared_ptr<path::Path> madePath(double duration_s = 20, double rate_hz = 100) {
    auto path = std::make_shared<path::Path>();
    path->name = "made";
    path->show_line_bearing_rad = 70 * kPi / 180;
    path->figures = {{"First", 0, duration_s / 2}, {"Second", duration_s / 2, duration_s}};
    path->elements = {{0, "pull", 1, 0, duration_s / 2},
                      {1, "pull", 2, duration_s / 2, duration_s}};
    const auto count = static_cast<int>(duration_s * rate_hz);
    for (int i = 0; i <= count; ++i) {
        path::Sample s;
        s.time_s = i / rate_hz;
        s.position_S_m = placeAt(s.time_s);
        s.velocity_S_mps = kSpeed_mps * noseAt(s.time_s);
        const Vec3 x = noseAt(s.time_s), y = rightWingAt(s.time_s);
        s.q_SB = quatFromAxes(x, y, glm::cross(x, y));
        const double r = kRoll_radps * s.time_s;
        s.rate_B_radps = {kRoll_radps, kTurn_radps * std::cos(r), -kTurn_radps * std::sin(r)};
        s.airspeed_mps = kSpeed_mps;
        s.element = i < count / 2 ? 0 : 1;
        path->samples.push_back(s);
    }
    return path;
}

inline out::Flight madeFlight(std::shared_ptr<path::Path> path = madePath()) {
    out::Flight flight;
    flight.title = "Made";
    data::Site site;
    site.name = "Field";
    site.show_centre = {52.05 * kPi / 180, 9.05 * kPi / 180, 120};
    site.show_line_bearing_rad = path->show_line_bearing_rad;
    site.crowd_line_y_m = -150;
    site.crowd_x_min_m = -300;
    site.crowd_x_max_m = 300;
    site.runway = data::Runway{Vec3(0), 70 * kPi / 180, 900, 30, "07", "25"};
    flight.site = site;
    flight.origin = site.show_centre;
    flight.start_utc_s = 1782577800;  // 2026-06-27T16:30:00Z
    flight.model.span_m = 7.6;
    flight.path = std::move(path);
    return flight;
}

}  // namespace plumbline::test

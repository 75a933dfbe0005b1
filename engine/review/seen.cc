#include "engine/review/seen.h"

#include <algorithm>
#include <cmath>

namespace plumbline::review {

Vec3 judgesEye(const data::Site& site) {
    for (const data::Viewpoint& place : site.viewpoints)
        if (place.name == "judge") return place.eye_S_m;
    return crowdsEye(site);
}

Vec3 crowdsEye(const data::Site& site) { return {0, site.crowd_line_y_m, 1.7}; }

namespace {

/// Where the axis points that is off its true direction by so much.
Vec3 axisOff(const LineMeasure& line, double along, double across) {
    // Of a vertical the lean's two parts are angles of the nose in upright planes, crowd right and
    // crowd positive.
    if (line.vertical())
        return glm::normalize(
            Vec3(std::tan(along), -std::tan(across), std::copysign(1.0, line.climb_rad)));
    const double climb = line.climb_rad + along;
    const double heading = line.heading_rad - across / std::cos(line.climb_rad);
    return {std::cos(climb) * std::cos(heading), std::cos(climb) * std::sin(heading),
            std::sin(climb)};
}

}  // namespace

std::optional<Seen> seenFrom(const Vec3& eye, const path::Path& flight, const LineMeasure& line) {
    constexpr double kLevel_rad = 15 * kPi / 180;
    constexpr double kEndOn_cos = 0.94;  // chosen: 20 deg
    if (std::fabs(line.climb_rad) < kLevel_rad) return std::nullopt;
    const path::Sample s = path::sampleAt(flight, 0.5 * (line.start_s + line.stop_s));
    const Vec3 sight = s.position_S_m - eye;
    if (!(glm::length(sight) > 0) ||
        std::fabs(glm::dot(glm::normalize(sight), axisOff(line, 0, 0))) > kEndOn_cos)
        return std::nullopt;
    constexpr double kLength_m = 10;  // chosen: as long as an aircraft is
    const auto seen = [&](double along, double across, const Vec3& aside_m) {
        const Vec3 axis = axisOff(line, along, across);
        const Vec3 middle = s.position_S_m + aside_m;
        return seenFromVertical_rad(eye, middle - 0.5 * kLength_m * axis,
                                    middle + 0.5 * kLength_m * axis);
    };
    Seen out;
    out.from_vertical_rad = seen(line.along_rad, line.across_rad, Vec3(0));
    out.true_from_vertical_rad = line.vertical() ? 0 : seen(0, 0, Vec3(0));
    if (!(line.sigma_rad > 0)) return out;
    // How far each doubt moves it, to either side the more; together as the root of their squares.
    const auto moved = [&](double along, double across, const Vec3& aside_m) {
        double most = 0;
        for (const double sign : {1.0, -1.0})
            most = std::max(most, std::fabs(seen(line.along_rad + sign * along,
                                                 line.across_rad + sign * across, sign * aside_m) -
                                            out.from_vertical_rad));
        return most;
    };
    const double sigma_m = static_cast<double>(s.position_sigma_m);
    double square = 0;
    for (const double one : {moved(line.sigma_rad, 0, Vec3(0)), moved(0, line.sigma_rad, Vec3(0)),
                             moved(0, 0, Vec3(sigma_m, 0, 0)), moved(0, 0, Vec3(0, sigma_m, 0)),
                             moved(0, 0, Vec3(0, 0, sigma_m))})
        square += one * one;
    out.sigma_rad = std::sqrt(square);
    return out;
}

}  // namespace plumbline::review

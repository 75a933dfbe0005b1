#pragma once
// Paths with known closed forms, sampled at 100 Hz, to look at.

#include <cmath>
#include <functional>

#include "engine/path/path.h"

namespace plumbline::scene {

/// Attitude with the nose along `nose_S` and the canopy towards `canopy_S`.
inline Quat attitudeOf(const Vec3& nose_S, const Vec3& canopy_S) {
    const Vec3 nose = glm::normalize(nose_S);
    const Vec3 belly = -glm::normalize(canopy_S - glm::dot(canopy_S, nose) * nose);
    return quatFromAxes(nose, glm::cross(belly, nose), belly);
}

/// A path from a law of state; rates by central difference of the attitude.
inline path::Path pathOf(double duration_s,
                         const std::function<void(double, path::Sample&)>& state) {
    constexpr double kRate_hz = 100;
    path::Path made;
    const auto last = static_cast<int>(std::lround(duration_s * kRate_hz));
    for (int i = 0; i <= last; ++i) {
        path::Sample sample;
        sample.time_s = i / kRate_hz;
        state(sample.time_s, sample);
        path::Sample before, after;
        constexpr double kEps_s = 1e-4;
        state(sample.time_s - kEps_s, before);
        state(sample.time_s + kEps_s, after);
        sample.rate_B_radps =
            vectorFromRotation(glm::conjugate(before.q_SB) * after.q_SB) / (2 * kEps_s);
        if (i > 0 && glm::dot(made.samples.back().q_SB, sample.q_SB) < 0)
            sample.q_SB = -sample.q_SB;
        sample.airspeed_mps = glm::length(sample.velocity_S_mps);
        made.samples.push_back(sample);
    }
    return made;
}

/// Level, upright, to crowd right over the show line.
inline path::Path levelPass(double height_m, double speed_mps, double start_x_m = -600,
                            double duration_s = 20) {
    return pathOf(duration_s, [=](double t, path::Sample& s) {
        s.position_S_m = {start_x_m + speed_mps * t, 0, height_m};
        s.velocity_S_mps = {speed_mps, 0, 0};
        s.q_SB = attitudeOf({1, 0, 0}, {0, 0, 1});
    });
}

/// A round loop over show centre, entered to crowd right, level before and after.
inline path::Path roundLoop(double radius_m = 90, double speed_mps = 60) {
    const double lead_s = 5, round_s = 2 * kPi * radius_m / speed_mps;
    return pathOf(2 * lead_s + round_s, [=](double t, path::Sample& s) {
        const double angle = std::min(std::max(t - lead_s, 0.0), round_s) * speed_mps / radius_m;
        const double straight_s =
            std::min(t, lead_s) - lead_s + std::max(t - lead_s - round_s, 0.0);
        s.position_S_m = {speed_mps * straight_s + radius_m * std::sin(angle), 0,
                          60 + radius_m * (1 - std::cos(angle))};
        s.velocity_S_mps = speed_mps * Vec3(std::cos(angle), 0, std::sin(angle));
        s.q_SB = attitudeOf(s.velocity_S_mps, {-std::sin(angle), 0, std::cos(angle)});
    });
}

/// Straight up from level by a quarter loop, coasting to a stop, sliding back tail first, with half
/// a roll a second on the way up.
inline path::Path slidePath() {
    const double speed = 60, radius = 80, turn_s = 0.5 * kPi * radius / speed, lead_s = 4;
    const double top_s = speed / kGravity_mps2;
    return pathOf(lead_s + turn_s + top_s + 3, [=](double t, path::Sample& s) {
        if (t < lead_s + turn_s) {
            const double angle = std::max(t - lead_s, 0.0) * speed / radius;
            s.position_S_m = {speed * (std::min(t, lead_s) - lead_s) + radius * std::sin(angle), 0,
                              50 + radius * (1 - std::cos(angle))};
            s.velocity_S_mps = speed * Vec3(std::cos(angle), 0, std::sin(angle));
            s.q_SB = attitudeOf(s.velocity_S_mps, {-std::sin(angle), 0, std::cos(angle)});
            return;
        }
        const double u = t - lead_s - turn_s;
        const double roll = kPi * std::min(u, 4.0);
        s.position_S_m = {radius, 0, 50 + radius + speed * u - 0.5 * kGravity_mps2 * u * u};
        s.velocity_S_mps = {0, 0, speed - kGravity_mps2 * u};
        s.q_SB = attitudeOf({0, 0, 1}, {-1, 0, 0}) * rotationX(roll);
    });
}

/// Up to a stop and straight down again by a pivot, leaving the way it came.
inline path::Path hammerhead() {
    const double speed = 60, radius = 80, turn_s = 0.5 * kPi * radius / speed, lead_s = 4;
    const double line_s = 2 * speed / kGravity_mps2, pivot_s = 2;
    return pathOf(2 * lead_s + 2 * turn_s + line_s, [=](double t, path::Sample& s) {
        const double up_s = lead_s + turn_s, down_s = up_s + line_s;
        if (t < up_s || t > down_s) {
            const bool leaving = t > down_s;
            const double u = leaving ? 2 * lead_s + 2 * turn_s + line_s - t : t;  // time mirrored
            const double angle = std::max(u - lead_s, 0.0) * speed / radius;
            const double sense = leaving ? -1 : 1;
            s.position_S_m = {speed * (std::min(u, lead_s) - lead_s) + radius * std::sin(angle), 0,
                              50 + radius * (1 - std::cos(angle))};
            s.velocity_S_mps = sense * speed * Vec3(std::cos(angle), 0, std::sin(angle));
            s.q_SB = attitudeOf(s.velocity_S_mps, {-std::sin(angle), 0, std::cos(angle)});
            return;
        }
        const double u = t - up_s;
        s.position_S_m = {radius, 0, 50 + radius + speed * u - 0.5 * kGravity_mps2 * u * u};
        s.velocity_S_mps = {0, 0, speed - kGravity_mps2 * u};
        const double part = std::min(std::max((u - 0.5 * (line_s - pivot_s)) / pivot_s, 0.0), 1.0);
        s.q_SB = attitudeOf({0, 0, 1}, {-1, 0, 0}) * rotationZ(-kPi * part);
    });
}

}  // namespace plumbline::scene

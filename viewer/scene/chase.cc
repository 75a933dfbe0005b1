#include "viewer/scene/chase.h"

#include <algorithm>
#include <cmath>

#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

// chosen: looked at through loops, hammerheads and slides
constexpr double kRate_radps = 2.2;       ///< of the critically damped followers
constexpr double kReach_rad = 0.8;        ///< largest error that drives: bounds the turning rate
constexpr double kCourseSpeed_mps = 14;   ///< horizontal speed at which half the course counts
constexpr double kClimbSpeed_mps = 12;    ///< keeps the climb angle calm at the top of a slide
constexpr double kTurnedRound_rad = 2.4;  ///< from here the way round is chosen
constexpr double kStep_s = 0.1;
constexpr int kMemorySteps = 250;

struct Follower {
    double value = 0, rate = 0;

    void step(double error, double gain) {
        const double driven = std::clamp(error, -kReach_rad, kReach_rad);
        rate += kStep_s * (kRate_radps * kRate_radps * gain * driven - 2 * kRate_radps * rate);
        value += kStep_s * rate;
    }
};

double climbOf(const Vec3& velocity_S_mps) {
    return std::atan2(velocity_S_mps.z,
                      std::hypot(velocity_S_mps.x, velocity_S_mps.y, kClimbSpeed_mps));
}

/// Error of the heading the shorter way, or past +y (the crowd behind the eye) when turned round.
double courseError(double heading_rad, const Vec3& velocity_S_mps) {
    const double course_rad = std::atan2(velocity_S_mps.y, velocity_S_mps.x);
    const double error_rad = std::remainder(course_rad - heading_rad, 2 * kPi);
    if (std::abs(error_rad) < kTurnedRound_rad) return error_rad;
    const double sense = std::cos(heading_rad) >= 0 ? 1.0 : -1.0;
    return sense * std::abs(error_rad);
}

}  // namespace

ChaseHeading chaseHeading(const path::Path& path, double time_s) {
    const double at_s = std::clamp(time_s, 0.0, path.duration_s());
    const auto last = static_cast<std::int64_t>(std::floor(at_s / kStep_s));
    const std::int64_t first = std::max<std::int64_t>(0, last - kMemorySteps);

    PathWalker walker(path);
    Place place = walker.at(static_cast<double>(first) * kStep_s);
    Follower heading, climb;
    heading.value = std::atan2(place.velocity_S_mps.y, place.velocity_S_mps.x);
    climb.value = climbOf(place.velocity_S_mps);
    Follower heading_before = heading, climb_before = climb;
    for (std::int64_t k = first; k <= last; ++k) {
        heading_before = heading;
        climb_before = climb;
        place = walker.at(static_cast<double>(k) * kStep_s);
        const Vec3& v = place.velocity_S_mps;
        const double flat2 = v.x * v.x + v.y * v.y;
        heading.step(courseError(heading.value, v),
                     flat2 / (flat2 + kCourseSpeed_mps * kCourseSpeed_mps));
        climb.step(climbOf(v) - climb.value, 1);
    }
    // Between the last two steps: cubic through both values and rates, so that frames join
    // smoothly.
    const double u = at_s / kStep_s - static_cast<double>(last);
    const double u2 = u * u, u3 = u2 * u;
    const auto between = [&](const Follower& a, const Follower& b) {
        return a.value + (3 * u2 - 2 * u3) * (b.value - a.value) +
               kStep_s * ((u3 - 2 * u2 + u) * a.rate + (u3 - u2) * b.rate);
    };
    return {between(heading_before, heading), between(climb_before, climb)};
}

}  // namespace plumbline::scene

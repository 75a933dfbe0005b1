#include "viewer/scene/hand_follow.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

// chosen: what a hand does with a moving thing
constexpr double kLag_s = 0.25;
constexpr double kLead_rad = 0.4 * kPi / 180;
constexpr double kLeadRate_radps = 0.1;  ///< angular rate at which most of the lead is there
constexpr double kLagLimit = 0.25;       ///< of the half field

constexpr int kSteps = 50;
constexpr double kStep_s = 0.04;

/// Weights of the last 2 s: impulse response w^2 t exp(-w t) of 1 / (1 + s/w)^2, whose lag to a
/// ramp is 2/w; the sum is one.
std::array<double, kSteps> lagWeights() {
    constexpr double kRate_radps = 2 / kLag_s;
    std::array<double, kSteps> weights{};
    double sum = 0;
    for (int k = 0; k < kSteps; ++k) {
        const double age = kRate_radps * (k + 0.5) * kStep_s;
        weights[static_cast<std::size_t>(k)] = age * std::exp(-age);
        sum += weights[static_cast<std::size_t>(k)];
    }
    for (double& weight : weights) weight /= sum;
    return weights;
}

Vec3 directionFrom(const Vec3& eye_S_m, const Vec3& position_S_m) {
    const Vec3 offset_m = position_S_m - eye_S_m;
    const double distance_m = glm::length(offset_m);
    return distance_m > 1e-6 ? offset_m / distance_m : Vec3(0, 1, 0);
}

Vec3 laggedDirection(const path::Path& path, const Vec3& eye_S_m, double time_s) {
    static const std::array<double, kSteps> kWeights = lagWeights();
    PathWalker walker(path);
    Vec3 sum(0);
    for (int k = kSteps - 1; k >= 0; --k) {
        const Place place = walker.at(time_s - (k + 0.5) * kStep_s);
        sum += kWeights[static_cast<std::size_t>(k)] * directionFrom(eye_S_m, place.position_S_m);
    }
    return sum;
}

/// Draws a direction towards the aircraft's so that it is never further off than the limit.
Vec3 heldNear(const Vec3& direction_S, const Vec3& aircraft_S, double limit_rad) {
    const double off_rad = std::atan2(glm::length(glm::cross(aircraft_S, direction_S)),
                                      glm::dot(aircraft_S, direction_S));
    if (off_rad < 1e-9) return aircraft_S;
    const Vec3 side = direction_S - glm::dot(direction_S, aircraft_S) * aircraft_S;
    const double length = glm::length(side);
    if (length < 1e-12) return aircraft_S;
    const double held_rad = limit_rad * std::tanh(off_rad / limit_rad);
    return std::cos(held_rad) * aircraft_S + std::sin(held_rad) / length * side;
}

}  // namespace

double heldElevation(double elevation_rad, double half_field_rad) {
    // chosen: a low aircraft stands a little under the middle, over the crowd's heads; with a
    // climbing one the middle rises slower, until the horizon would leave; then it catches up. In
    // half fields: at 0, at kLeaves, at kCaught.
    constexpr double kLow = 0.42, kLowSlope = 0.2;
    constexpr double kLeaves = 1.3, kHigh = 0.86, kHighSlope = 0.5;
    constexpr double kCaught = 2.6;
    const auto cubic = [](double u, double h, double y0, double slope0, double y1, double slope1) {
        const double u2 = u * u, u3 = u2 * u;
        return y0 + (3 * u2 - 2 * u3) * (y1 - y0) +
               h * ((u3 - 2 * u2 + u) * slope0 + (u3 - u2) * slope1);
    };
    const double x = elevation_rad / half_field_rad;
    double held = x;
    if (x < 0) {
        held = kLow + kLowSlope * std::max(x, -1.0);
    } else if (x < kLeaves) {
        held = cubic(x / kLeaves, kLeaves, kLow, kLowSlope, kHigh, kHighSlope);
    } else if (x < kCaught) {
        const double h = kCaught - kLeaves;
        held = cubic((x - kLeaves) / h, h, kHigh, kHighSlope, kCaught, 1);
    }
    return std::min(held * half_field_rad, 89 * kPi / 180);
}

Vec3 handFollow(const path::Path& path, const Vec3& eye_S_m, double time_s, double half_field_rad) {
    if (path.samples.empty()) return Vec3(0, 1, 0);
    const Place now = placeAt(path, time_s);
    const Vec3 aircraft_S = directionFrom(eye_S_m, now.position_S_m);
    const Vec3 lagged_S = laggedDirection(path, eye_S_m, time_s);
    Vec3 look_S = glm::length(lagged_S) > 1e-3
                      ? heldNear(glm::normalize(lagged_S), aircraft_S, kLagLimit * half_field_rad)
                      : aircraft_S;

    const double distance_m = std::max(glm::length(now.position_S_m - eye_S_m), 1.0);
    const Vec3 rate_S =
        (now.velocity_S_mps - glm::dot(now.velocity_S_mps, aircraft_S) * aircraft_S) / distance_m;
    const double lead =
        kLead_rad / std::sqrt(glm::dot(rate_S, rate_S) + kLeadRate_radps * kLeadRate_radps);
    look_S = glm::normalize(look_S + lead * rate_S);

    const double flat = std::hypot(look_S.x, look_S.y);
    const double elevation_rad = heldElevation(std::atan2(look_S.z, flat), half_field_rad);
    // Straight overhead every azimuth is as good.
    const Vec3 azimuth_S = flat > 1e-9 ? Vec3(look_S.x / flat, look_S.y / flat, 0) : Vec3(0, 1, 0);
    return std::cos(elevation_rad) * azimuth_S + Vec3(0, 0, std::sin(elevation_rad));
}

}  // namespace plumbline::scene

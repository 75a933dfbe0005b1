#include "engine/record/bank_from_path.h"

#include <algorithm>
#include <cmath>

namespace plumbline::record {

namespace {

// chosen: what is slower hangs below its wing, rolls on wheels or floats
constexpr double kSlowest_mps = 15;
// chosen: with slower fixes a turn is over between two of them
constexpr double kSlowestStep_s = 1.2;
// chosen: below it the lift's direction is a matter of small side forces
constexpr double kLeastLift = 0.5 * kGravity_mps2;
constexpr double kAboveScatter = 3;
// chosen: flights that stay below both are no aerobatics
constexpr double kOrdinaryLoad = 2.6 * kGravity_mps2;
constexpr double kOrdinarySteep = 0.5;  // sine of the path's angle
constexpr double kUnusual_s = 1;
// chosen: the nose stands off the path by the angle of attack and by drift in an unknown wind
constexpr double kIncidence_rad = 4 * kPi / 180;
constexpr double kWind_mps = 4;

struct Lift {
    Vec3 direction_S{0};
    double size_mps2 = 0;
    bool clear = false;
};

Lift liftOf(const path::Sample& sample, const Vec3& acceleration_S_mps2, double sigma_mps2) {
    Lift lift;
    const double speed = glm::length(sample.velocity_S_mps);
    if (speed < kSlowest_mps) return lift;
    const Vec3 along = sample.velocity_S_mps / speed;
    const Vec3 force = acceleration_S_mps2 + Vec3(0, 0, kGravity_mps2);
    const Vec3 across = force - glm::dot(force, along) * along;
    lift.size_mps2 = glm::length(across);
    lift.clear = lift.size_mps2 > std::max(kLeastLift, kAboveScatter * sigma_mps2);
    if (lift.clear) lift.direction_S = across / lift.size_mps2;
    return lift;
}

}  // namespace

Banked bankFromPath(std::vector<path::Sample>& samples, const Accelerations& accelerations) {
    const double step_s = medianStep(samples);
    if (samples.size() < 3 || step_s > kSlowestStep_s) return {};
    const std::vector<Vec3>& a = accelerations.value_S_mps2;
    std::vector<Lift> lifts;
    std::vector<double> sigma_mps2;
    Banked banked;
    std::size_t unusual = 0;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        // What changes from fix to fix is not followed in between, and told late or early.
        const std::size_t before = i > 0 ? i - 1 : i, after = std::min(i + 1, samples.size() - 1);
        sigma_mps2.push_back(
            std::hypot(accelerations.sigma_mps2[i], 0.5 * glm::length(a[after] - a[before])));
        lifts.push_back(liftOf(samples[i], a[i], sigma_mps2[i]));
        const Vec3& v = samples[i].velocity_S_mps;
        banked.flown += glm::length(v) >= kSlowest_mps;
        unusual += lifts[i].clear && (lifts[i].size_mps2 - sigma_mps2[i] > kOrdinaryLoad ||
                                      std::abs(v.z) > kOrdinarySteep * glm::length(v));
    }
    // One wild fix makes no aerobatics.
    banked.aerobatic = static_cast<double>(unusual) * step_s > kUnusual_s;
    if (banked.aerobatic) return banked;
    for (std::size_t i = 0; i < samples.size(); ++i) {
        path::Sample& sample = samples[i];
        sample.attitude_sigma_rad = static_cast<float>(kPi);
        if (!lifts[i].clear) continue;
        const double speed = glm::length(sample.velocity_S_mps);
        const Vec3 forward = sample.velocity_S_mps / speed;
        const Vec3 down = -lifts[i].direction_S;
        sample.q_SB = quatFromAxes(forward, glm::cross(down, forward), down);
        const double bank = std::atan2(sigma_mps2[i], lifts[i].size_mps2);
        const double drift = std::atan2(kWind_mps, speed);
        sample.attitude_sigma_rad = static_cast<float>(
            std::sqrt(bank * bank + drift * drift + kIncidence_rad * kIncidence_rad));
        ++banked.samples;
    }
    return banked;
}

}  // namespace plumbline::record

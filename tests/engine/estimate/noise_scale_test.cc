// Bounds must follow the sensors: what is noisier is less sure, and the errors stay inside.

#include "engine/estimate/noise_scale.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/estimate/smoother.h"
#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "tests/figures/scores.h"
#include "tests/figures/sensor_simulator.h"

namespace plumbline::estimate {
namespace {

/// Four minutes of the demo, ten samples to each inertial one.
const path::Path& flown() {
    static const path::Path path = [] {
        const auto work = load::loadDemo();
        path::Path all =
            fly::solve(work->aircraft, work->site, work->weather, work->routine).samplePath(2000);
        all.samples.resize(std::min<std::size_t>(all.samples.size(), 480001));
        return all;
    }();
    return path;
}

struct Outcome {
    double inside = 0;     ///< share of tilts inside two sigma
    double sigma_rad = 0;  ///< rms
    double of_sigma = 0;   ///< rms of error over sigma
};

/// Of three draws together: one has few independent errors.
Outcome outcome(const figures::SensorErrors& errors) {
    figures::Mean sigma, share;
    double inside = 0;
    for (const std::uint64_t draw : {1, 2, 3}) {
        const Solution solution = smooth(figures::simulateSensors(flown(), errors, draw));
        for (std::size_t i = 0; i < solution.states.size(); ++i) {
            const path::Sample truth = path::sampleAt(flown(), solution.time_s[i]);
            const State& state = solution.states[i];
            const double tilt_rad = figures::attitudeError(state.q_SI, truth.q_SB).inclination_rad;
            const double sigma_rad = static_cast<double>(state.tilt_sigma_rad);
            inside += tilt_rad <= 2 * sigma_rad ? 1 : 0;
            sigma.add(sigma_rad);
            share.add(tilt_rad / sigma_rad);
        }
    }
    return {inside / static_cast<double>(sigma.count), sigma.rms(), share.rms()};
}

TEST(NoiseScale, BoundsAreThoseOfTheSensorsAtHand) {
    figures::SensorErrors worse;
    worse.rate_noise_radps *= 10;
    worse.force_noise_mps2 *= 20;
    const Outcome usual = outcome({}), noisy = outcome(worse);
    for (const Outcome& o : {usual, noisy}) {
        EXPECT_GT(o.inside, 0.9);
        // in two directions 1.15 is exact
        EXPECT_GT(o.of_sigma, 0.6);
        EXPECT_LT(o.of_sigma, 1.5);
    }
    EXPECT_GT(noisy.sigma_rad, 3 * usual.sigma_rad);
}

TEST(NoiseScale, LittleDataChangesLittle) {
    NoiseScale scale;
    scale.settle(1);
    EXPECT_EQ(scale.rate(), 1);
    EXPECT_EQ(scale.force(), 1);
}

}  // namespace
}  // namespace plumbline::estimate

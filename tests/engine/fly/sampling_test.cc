// What a solution is sampled to does not hang on who does the work, and rates for the eye are near
// the exact ones.
#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "tests/engine/fly/fly_support.h"
#include "tests/engine/fly/routine_support.h"

namespace plumbline::fly::test {
namespace {

constexpr char kFigures[] =
    "line level 300 m\npull to up at 5 g\nline up 250 m with 1/2 roll left\npush to level at 1 g\n"
    "line level 100 m\nturn left 90 deg bank 60 deg\nline level 200 m with 1 roll right";

path::Path sampled(const Solution& solution, double rate_hz, Sampling::Rates rates) {
    Sampling sampling;
    sampling.rate_hz = rate_hz;
    sampling.rates = rates;
    return solution.samplePath(sampling);
}

TEST(Sampling, IsTheSameOnAnyNumberOfThreads) {
    const Solution solution = solveText(plausibleAircraft(), kFigures);
    for (const Sampling::Rates rates : {Sampling::Rates::Exact, Sampling::Rates::ForEye}) {
        Sampling alone, shared;
        alone.rates = shared.rates = rates;
        shared.executor = system::parallel(3);
        const path::Path a = solution.samplePath(alone), b = solution.samplePath(shared);
        ASSERT_GT(a.samples.size(), 2048U);
        ASSERT_EQ(a.samples.size(), b.samples.size());
        for (std::size_t i = 0; i < a.samples.size(); ++i)
            ASSERT_EQ(numbersOf(a.samples[i]), numbersOf(b.samples[i])) << i;
    }
}

// The roll's steady rate, its greatest, is the one asked, whichever way it is had.
TEST(Sampling, RatesAreThoseOfASteadyRoll) {
    data::Aircraft aircraft = plausibleAircraft();
    aircraft.aero.cy_max = 0;  // no side force: the nose stays on the line
    aircraft.aero.side_force_slope_prad = 0;
    const Solution solution =
        solveText(aircraft, "pull to up at 5 g\nline up 300 m with 1/4 roll left at 40 deg/s");
    for (const Sampling::Rates rates : {Sampling::Rates::Exact, Sampling::Rates::ForEye}) {
        double least = 0;
        for (const path::Sample& s : sampled(solution, 100, rates).samples)
            least = std::min(least, s.rate_B_radps.x);
        EXPECT_NEAR(least, -40 * kDegree, 1e-4);
    }
}

// The error of a rate from neighbours falls with the square of their distance; only where the law
// changes its mind within a step (fades that end) does one of few samples keep a little.
TEST(Sampling, RatesForTheEyeAreOfSecondOrder) {
    const Solution solution = solveText(plausibleAircraft(), kFigures);
    const auto rms = [&](double rate_hz) {
        const path::Path exact = sampled(solution, rate_hz, Sampling::Rates::Exact);
        const path::Path eye = sampled(solution, rate_hz, Sampling::Rates::ForEye);
        double sum = 0;
        for (std::size_t i = 0; i < exact.samples.size(); ++i) {
            const Vec3 miss = eye.samples[i].rate_B_radps - exact.samples[i].rate_B_radps;
            sum += glm::dot(miss, miss);
        }
        return std::sqrt(sum / static_cast<double>(exact.samples.size()));
    };
    const double coarse = rms(50), fine = rms(200);
    EXPECT_LT(fine, 2e-3);
    EXPECT_GT(coarse / fine, 6);  // sixteen but for the ends of fades; four were first order
}

}  // namespace
}  // namespace plumbline::fly::test

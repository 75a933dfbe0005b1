// No spikes: the body's accelerations all through the demo and through sixty short figures stay
// what a pilot makes. Falls go by the air, not by the stick.

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/fly/solve.h"
#include "engine/load/load.h"

namespace plumbline {
namespace {

void expectNoSpikes(const load::Workspace& w) {
    const path::Path p = fly::solve(w.aircraft, w.site, w.weather, w.routine).samplePath(100);
    // chosen: half a turn a second of pitch in a seventh of a second; a foot's kick.
    constexpr double kPitch_radps2 = 25, kYaw_radps2 = 10;
    // A finite difference over two samples sees a ramp's steepest slope with some percent of error.
    const double roll = 1.03 * w.aircraft.limits.roll_accel_radps2;
    for (std::size_t i = 1; i + 1 < p.samples.size(); ++i) {
        const path::Sample &a = p.samples[i - 1], &b = p.samples[i + 1];
        const std::string& label = p.elements[static_cast<std::size_t>(b.element)].label;
        // Samples stand close at joints: no quotient of small differences.
        if (b.time_s - a.time_s < 0.012 || label.find("fall") == 0) continue;
        const Vec3 accel = (b.rate_B_radps - a.rate_B_radps) / (b.time_s - a.time_s);
        EXPECT_LT(std::fabs(accel.x), roll) << label << " at " << b.time_s;
        EXPECT_LT(std::fabs(accel.y), kPitch_radps2) << label << " at " << b.time_s;
        EXPECT_LT(std::fabs(accel.z), kYaw_radps2) << label << " at " << b.time_s;
    }
}

TEST(BodyRates, DemoHasNoSpikes) {
    const auto demo = load::loadDemo();
    ASSERT_TRUE(demo);
    expectNoSpikes(*demo);
}

TEST(BodyRates, SixtyFiguresHaveNoSpikes) {
    const auto sixty = load::loadWorkspace(PLUMBLINE_TEST_DATA "/routines/sixty.routine.toml");
    ASSERT_TRUE(sixty) << describe(sixty.error());
    expectNoSpikes(*sixty);
}

}  // namespace
}  // namespace plumbline

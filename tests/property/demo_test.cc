// The demo as a whole: what must hold of any plan, and that its numbers are those of the trade.

#include <algorithm>
#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "engine/load/load.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline {
namespace {

const load::Workspace& demo() {
    static const load::Workspace workspace = *load::loadDemo();
    return workspace;
}

fly::Solution solveDemo(double relative_tolerance) {
    fly::SolveOptions options;
    options.relative_tolerance = relative_tolerance;
    return fly::solve(demo().aircraft, demo().site, demo().weather, demo().routine, options);
}

TEST(Demo, HasAtLeastTwentyFiveFiguresInAboutTwelveMinutes) {
    const path::Path p = solveDemo(1e-8).samplePath(10);
    EXPECT_GE(p.figures.size(), 25U);
    EXPECT_NEAR(p.duration_s(), 12 * 60, 45);
    std::set<std::string> names;
    for (const path::Figure& f : p.figures) names.insert(f.name);
    EXPECT_EQ(names.size(), p.figures.size());
}

TEST(Demo, PassesItsOwnChecks) {
    const fly::Solution s = solveDemo(1e-8);
    const auto findings = check::checkRoutine(demo().aircraft, demo().site, demo().weather,
                                              demo().routine, s.samplePath(50), s.notes());
    for (const check::Finding& f : findings)
        EXPECT_EQ(f.grade, check::Grade::Note)
            << f.figure << ": " << f.kind << " " << f.what << " " << f.value;
}

// d(v^2/2 + g h)/dt = F v / m along every figure, in the demo's wind.
TEST(Demo, PowerTheoremHoldsAlongEveryFigure) {
    EXPECT_LT(fly::test::worstPowerMiss(solveDemo(1e-12), 0.0004), 1e-6);
}

TEST(Demo, IsContinuousAtEveryJoint) {
    const fly::Solution s = solveDemo(1e-8);
    const path::Path p = s.samplePath(10);
    constexpr double e = 1e-6;
    for (const path::Element& element : p.elements) {
        if (element.start_s < e || element.stop_s <= element.start_s) continue;
        const auto two = s.sampleTimes({element.start_s - e, element.start_s + e});
        const Vec3 step = two[1].position_S_m - two[0].position_S_m - 2 * e * two[0].velocity_S_mps;
        EXPECT_LT(glm::length(step), 1e-8) << element.label << " at " << element.start_s;
        EXPECT_LT(glm::length(two[1].velocity_S_mps - two[0].velocity_S_mps), 5e-4)
            << element.label << " at " << element.start_s;
        const Vec3 turn = vectorFromRotation(glm::conjugate(two[0].q_SB) * two[1].q_SB);
        EXPECT_LT(glm::length(turn), 1e-4) << element.label << " at " << element.start_s;
    }
}

// Bands of the trade (common practice, no source): vertical figures entered at 140-200 kt, peaks
// within +10/-8 g, an upline of 300-600 m, a slide that ends at 30-60 m/s tail first, 15-28 l in
// the air at 250 kW.
TEST(Demo, NumbersArePlausibleForTheTrade) {
    const path::Path p = solveDemo(1e-8).samplePath(50);
    double most = 0, least = 0;
    for (const path::Sample& s : p.samples) {
        most = std::max(most, loadFactors(s.specific_force_B_mps2).normal_g);
        least = std::min(least, loadFactors(s.specific_force_B_mps2).normal_g);
        EXPECT_TRUE(std::isfinite(glm::length(s.position_S_m)) && std::isfinite(s.airspeed_mps));
    }
    EXPECT_GT(most, 6);
    EXPECT_LT(most, 10);
    EXPECT_LT(least, -4);
    EXPECT_GT(least, -8);
    const double litres = (p.samples.front().fuel_kg - p.samples.back().fuel_kg) / 0.72;
    EXPECT_GT(litres, 13);  // three breaks at part power, idle downlines
    EXPECT_LT(litres, 28);
    for (std::size_t i = 1; i < p.elements.size(); ++i) {
        const path::Element& e = p.elements[i];
        if (e.label == "pull to up") {
            const double entry = path::sampleAt(p, e.start_s).airspeed_mps / fly::test::kKnot;
            EXPECT_GT(entry, 140) << e.source_line;
            EXPECT_LT(entry, 200) << e.source_line;
        }
        if (e.label == "slide") {
            const double end = path::sampleAt(p, e.stop_s).airspeed_mps;
            EXPECT_GT(end, 30);
            EXPECT_LT(end, 60);
        }
    }
}

// Rates stay within what a pilot and the aircraft do: no spikes where one law hands over to the
// next.
TEST(Demo, BodyRatesHaveNoSpikes) {
    const path::Path p = solveDemo(1e-8).samplePath(100);
    double roll = 0, pitch = 0, yaw = 0, pitch_accel = 0;
    for (std::size_t i = 1; i < p.samples.size(); ++i) {
        const path::Sample &a = p.samples[i - 1], &b = p.samples[i];
        roll = std::max(roll, std::fabs(b.rate_B_radps.x));
        pitch = std::max(pitch, std::fabs(b.rate_B_radps.y));
        yaw = std::max(yaw, std::fabs(b.rate_B_radps.z));
        if (b.time_s - a.time_s > 5e-3)
            pitch_accel = std::max(pitch_accel, std::fabs(b.rate_B_radps.y - a.rate_B_radps.y) /
                                                    (b.time_s - a.time_s));
    }
    EXPECT_LE(roll, demo().aircraft.limits.roll_rate_radps * 1.001);
    EXPECT_LT(pitch, 5.5);  // the free swing out of a slide; flown arcs stay under 2
    EXPECT_LT(yaw, 2.8);    // the pivot: 180 deg in 2.2 s, 1.875 times the mean at its fastest
    EXPECT_LT(pitch_accel,
              110);  // a hundredth of a second at the buffet, where lift no longer answers
}

}  // namespace
}  // namespace plumbline

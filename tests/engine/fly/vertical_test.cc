// Pivot, slide and fall: what they say, where lengths count from.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "tests/engine/fly/slow_support.h"

namespace plumbline::fly {
namespace {

using test::kDegree;
using test::kKnot;
using test::plausibleAircraft;
using test::RoutineSetup;
using test::solveText;

RoutineSetup high() {
    RoutineSetup setup;
    setup.height_m = 700;
    setup.speed_mps = 80;
    return setup;
}

std::string hammerhead(const std::string& pivot, const std::string& down = "line down 200 m") {
    return "pull to up at 6 g\nline up until 25 kt\n" + pivot + "\n" + down;
}

double numberAt(const std::string& text, std::size_t from) {
    return parseDouble(text.substr(from, text.find(' ', from) - from)).value_or(-1);
}

TEST(Pivot, SaysHowFarTheDownlineStandsFromTheUpline) {
    const Solution s = solveText(plausibleAircraft(), hammerhead("pivot left power 25 %"), high());
    const SolveNote* n = test::noteOf(s, "pivot");
    ASSERT_NE(n, nullptr);
    const path::Path p = s.samplePath(100);
    const path::Sample top = path::sampleAt(p, p.elements[2].start_s),
                       turned = path::sampleAt(p, p.elements[2].stop_s), low = p.samples.back();
    const auto aside = [&](const path::Sample& at) {
        return std::hypot(at.position_S_m.x - top.position_S_m.x,
                          at.position_S_m.y - top.position_S_m.y);
    };
    // Half a span is 3.8 m; one decimal is told.
    EXPECT_NEAR(numberAt(n->value, 0), aside(turned) / 3.8, 0.051);
    EXPECT_NEAR(numberAt(n->value, n->value.find("downline") + 9), aside(low), 0.8);
}

TEST(Pivot, TheDownlineCountsFromTheEndOfTheYaw) {
    const Solution s = solveText(plausibleAircraft(), hammerhead("pivot left in 2.4 s"), high());
    const path::Path p = s.samplePath(100);
    EXPECT_NEAR(p.elements[2].stop_s - p.elements[2].start_s, 2.4, 1e-9);
    EXPECT_LT(rotate(path::sampleAt(p, p.elements[2].stop_s).q_SB, Vec3(1, 0, 0)).z, -1 + 1e-9);
    EXPECT_NEAR(
        path::sampleAt(p, p.elements[2].stop_s).position_S_m.z - p.samples.back().position_S_m.z,
        200, 1e-5);
}

TEST(Pivot, TheNosePastTheDownlineDrawsThePathToIt) {
    const auto downline_m = [](const char* pivot) {
        const Solution s = solveText(plausibleAircraft(), hammerhead(pivot), high());
        const std::string& value = test::noteOf(s, "pivot")->value;
        return numberAt(value, value.find("downline") + 9);
    };
    EXPECT_LT(downline_m("pivot left over 10 deg"), downline_m("pivot left") - 1);
    const Solution s = solveText(plausibleAircraft(), hammerhead("pivot right over 8 deg"), high());
    const path::Path p = s.samplePath(400);
    double past = 0;
    for (const path::Sample& sample : p.samples) {
        if (sample.element != 2) continue;
        const Vec3 nose = rotate(sample.q_SB, Vec3(1, 0, 0));
        // It yaws to the right of a canopy that faces crowd left, away from the crowd; past the
        // downline the nose points the other way.
        if (nose.z < -0.9) past = std::max(past, std::atan2(nose.y, -nose.z));
    }
    EXPECT_NEAR(past, 8 * kDegree, 0.3 * kDegree);
    test::expectSmooth(s, "over the downline");
    EXPECT_LT(
        test::worstMirrorMiss(plausibleAircraft(), hammerhead("pivot right over 8 deg"), high()),
        1e-8);
}

TEST(Pivot, ConsecutiveOnesChain) {
    const Solution s =
        solveText(plausibleAircraft(), hammerhead("3 pivots left power 25 %"), high());
    EXPECT_EQ(test::refusals(s), "");
    test::expectSmooth(s, "three pivots");
    const path::Path p = s.samplePath(50);
    EXPECT_NEAR(p.elements[2].stop_s - p.elements[2].start_s, 6.6, 1e-9);
}

TEST(Fall, SaysWhatItTakesToSettle) {
    const Solution s = solveText(plausibleAircraft(), R"(
        pull to up at 5 g
        line up until 60 kt
        power idle
        line up until 20 kt
        slide 200 m
        fall wheels-down
        line down 50 m)",
                                 high());
    const SolveNote* n = test::noteOf(s, "fall");
    ASSERT_NE(n, nullptr);
    // A rough model's: 4.0 s and 176 m from 45 m/s.
    EXPECT_NEAR(numberAt(n->value, 0), 4, 1);
    EXPECT_NEAR(numberAt(n->value, n->value.find("s, ") + 3), 176, 40);
    test::expectSmooth(s, "slide and fall");
}

}  // namespace
}  // namespace plumbline::fly

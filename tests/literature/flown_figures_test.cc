// Figures as published from flight, against the model flying them; and bands of the trade.

#include <algorithm>
#include <cmath>
#include <functional>
#include <string>

#include <gtest/gtest.h>

#include "engine/fly/elements.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly {
namespace {

using test::kDegree;
using test::kKnot;
using test::plausibleAircraft;
using test::RoutineSetup;
using test::solveText;

// NACA Report 715 (Gilruth and Turner 1941): the roll rate of a given aileron is very nearly linear
// in airspeed, p(2V)/p(V) = 2 within 3 %. Here the helix angle p b / 2V of the file is what full
// aileron gives, up to the file's cap. Rolled straight down at the terminal speed, where speed,
// incidence and sideslip stay as they are.
TEST(FlownFigures, RollRateGrowsWithAirspeedUpToTheCap) {
    const auto steady_rate = [](double speed_mps) {
        data::Aircraft a = test::bareLineAircraft();
        a.limits.roll_rate_radps = 150 * kDegree;
        a.aero.cd0 = test::dragForTerminal(a, 620, speed_mps, 1.225);
        const World world = test::evenWorld(a);
        Flight flight(world, {});
        test::standOn(flight, test::pitched(-90 * kDegree), speed_mps, 900);
        text::Line line;
        line.extent.distance_m = 600;
        line.rolls.parts.push_back({2 * kPi, 0, 0, 0});
        flyLines(flight, {{&line, 0, 1}});
        double most = 0;
        for (const Segment& segment : flight.segments) {
            const Dynamics dynamics(world, segment.law);
            for (double t = segment.start_s; t < segment.stop_s; t += 0.01)
                most = std::max(most, std::fabs(flight.bodyRate(dynamics, segment, t).x));
        }
        return most;
    };
    const double slow = steady_rate(30), middle = steady_rate(45), fast = steady_rate(60);
    EXPECT_NEAR(fast / slow, 2, 0.03 * 2);
    EXPECT_NEAR(middle / slow, 1.5, 0.03 * 1.5);
    EXPECT_NEAR(fast, 0.13 * 2 * 60 / 7.6, 1e-3 * fast);
    EXPECT_NEAR(steady_rate(100), 150 * kDegree, 1e-3);
}

// A military trainer's notes (read second hand): split-S entered at 100 to 120 KIAS loses about
// 2,000 ft at about 4 g at most. Without losses a constant load at 110 kt gives 1,607 ft (3 g) and
// 2,381 ft (2.5 g), h = (V1^2 - V0^2)/2g, V1 = V0 (n+1)/(n-1).
TEST(FlownFigures, SplitSLosesTheHeightOfTheClosedForm) {
    const double rows[][2] = {{3, 1607}, {2.5, 2381}};
    for (const auto& row : rows) {
        const World world = test::evenWorld(test::bareAircraft());
        Flight flight(world, {});
        test::standOn(flight, test::pitched(kPi), 110 * kKnot, 2000);
        Law law = flight.lawFrom(Form::Shaped, Shape::LoadArc);
        law.load0_g = law.load1_g = row[0];
        flight.run(
            law, [](double, const StateVector& y) { return kPi - y[kTurned]; }, 30);
        EXPECT_NEAR((2000 - flight.joint.position_S_m.z) / 0.3048, row[1], 0.5);
    }
}

TEST(FlownFigures, SplitSOfADraggyAircraftStaysInThePublishedBand) {
    RoutineSetup setup;
    setup.height_m = 1500;
    setup.speed_mps = 110 * kKnot;
    const Solution s = solveText(plausibleAircraft(),
                                 "power 30 %\n"
                                 "line level 60 m with 1/2 roll left\n"
                                 "pull 180 deg at 3 g\n"
                                 "line level 20 m",
                                 setup);
    const path::Path p = s.samplePath(50);
    const auto pull =
        std::find_if(p.elements.begin(), p.elements.end(),
                     [](const path::Element& e) { return e.label == "pull 180 deg"; });
    ASSERT_NE(pull, p.elements.end());
    const double start = path::sampleAt(p, pull->start_s).position_S_m.z;
    double most = 0;
    for (const path::Sample& sample : p.samples)
        most = std::max(most, loadFactors(sample.specific_force_B_mps2).normal_g);
    const double loss_ft = (start - p.samples.back().position_S_m.z) / 0.3048;
    EXPECT_GT(loss_ft, 952);  // between the lossless 4 g (952 ft) and the trainer's 2,000 ft
    EXPECT_LT(loss_ft, 2000);
    EXPECT_GT(most, 2.9);
    EXPECT_LT(most, 4);
}

// The same notes: a sustained turn at sea level of 20.6 deg/s at about 140 KIAS is 2.8 g (exactly
// n 2.824, bank 69.26 deg, radius 200.3 m); within 2 %.
TEST(FlownFigures, SustainedTurnHasThePublishedRate) {
    RoutineSetup setup;
    setup.height_m = 1;
    setup.speed_mps = 140 * kKnot;
    data::Aircraft a = test::bareLineAircraft();
    const Solution s = solveText(a, "turn left 360 deg at 2.824 g\nline level 5 m", setup);
    const double middle = 0.5 * s.duration_s(), reach = 0.05;
    const auto at = s.sampleTimes({middle - reach, middle, middle + reach});
    const Vec3 &v0 = at[0].velocity_S_mps, &v1 = at[2].velocity_S_mps;
    const double rate =
        std::atan2(v0.x * v1.y - v0.y * v1.x, v0.x * v1.x + v0.y * v1.y) / (2 * reach);
    EXPECT_NEAR(rate / kDegree, 20.6, 0.02 * 20.6);
    EXPECT_NEAR(glm::length(v0) / rate, 200.3, 0.02 * 200.3);
    const Vec3 wing = rotate(at[1].q_SB, Vec3(0, 1, 0));
    EXPECT_NEAR(std::asin(std::fabs(wing.z)) / kDegree, 69.26, 0.1);
    // And a powerful aircraft sustains it: at full power it is no slower after two turns.
    const Solution powered = solveText(plausibleAircraft(), "turn left 720 deg at 2.824 g", setup);
    EXPECT_GE(powered.sampleTimes({powered.duration_s()}).front().airspeed_mps,
              setup.speed_mps * 0.99);
}

// Pilot's notes of a jet and a school's notes of a light trainer: entry speeds rise from roll to
// loop to roll off the top to vertical roll. The least speed at which the figure, flown with the
// same 4 g, leaves the speed that the figure's last part needs.
TEST(FlownFigures, EntrySpeedsComeInTheOrderOfEveryHandbook) {
    const data::Aircraft a = plausibleAircraft();
    const auto flown = [&a](double speed, const char* text, double least_mps) {
        RoutineSetup setup;
        setup.height_m = 500;
        setup.speed_mps = speed;
        const Solution s = solveText(a, text, setup);
        for (const SolveNote& note : s.notes())
            if (note.kind != SolveNote::Kind::Information) return false;
        const path::Path p = s.samplePath(20);
        return std::all_of(p.samples.begin(), p.samples.end(), [least_mps](const path::Sample& x) {
            return x.airspeed_mps > least_mps;
        });
    };
    const auto least_entry = [&flown](const char* text, double least_mps) {
        double low = 20, high = 110;
        EXPECT_TRUE(flown(high, text, least_mps)) << text;
        for (int i = 0; i < 12; ++i) {
            const double middle = 0.5 * (low + high);
            (flown(middle, text, least_mps) ? high : low) = middle;
        }
        return high;
    };
    // A level line needs the wing at 1 g inverted: cl_min at some 30 m/s.
    const double level_mps = 32;
    const double roll = least_entry("line level 350 m with 1 roll left", level_mps);
    const double loop = least_entry("pull 360 deg at 4 g\nline level 20 m", 25);
    const double off_the_top =
        least_entry("pull 180 deg at 4 g\nline level 150 m with 1/2 roll left at start", level_mps);
    const double vertical_roll =
        least_entry("pull to up at 4 g\nline up 330 m with 1 roll left", 25);
    EXPECT_LT(roll, loop);
    EXPECT_LT(loop, off_the_top);
    EXPECT_LT(off_the_top, vertical_roll);
    // Common practice, no source: a powerful aerobatic aircraft enters its verticals at 140-200 kt.
    EXPECT_GT(vertical_roll, 110 * kKnot);
    EXPECT_LT(vertical_roll, 200 * kKnot);
}

}  // namespace
}  // namespace plumbline::fly

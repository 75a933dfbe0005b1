// Tables of the FAA's handbooks, as flown: loads, stalls, radius and rate of level turns
// (FAA-H-8083-25, PHAK, chapter 5; FAA-H-8083-3, AFH, steep turns).

#include <cmath>

#include <gtest/gtest.h>

#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly {
namespace {

using test::bareLineAircraft;
using test::kDegree;
using test::kKnot;

struct FlownTurn {
    double load_g, radius_m, rate_radps;
};

/// The steady part of a level turn as written by a pilot, without thrust, drag and stall.
FlownTurn flyTurnAt(double speed_kt, double bank_deg) {
    data::Aircraft a = bareLineAircraft();
    a.aero.cl_max = 60;
    test::RoutineSetup setup;
    setup.speed_mps = speed_kt * kKnot;
    const std::string text =
        "turn left 150 deg bank " + std::to_string(static_cast<int>(bank_deg)) + " deg";
    const Solution s = test::solveText(a, text, setup);
    EXPECT_TRUE(s.notes().empty()) << s.notes().front().what;
    const double middle = 0.5 * s.duration_s(), reach = 0.02;
    const auto two = s.sampleTimes({middle - reach, middle, middle + reach});
    const Vec3 &v0 = two[0].velocity_S_mps, &v1 = two[2].velocity_S_mps;
    const double rate =
        std::atan2(v0.x * v1.y - v0.y * v1.x, v0.x * v1.x + v0.y * v1.y) / (2 * reach);
    return {glm::length(two[1].specific_force_B_mps2) / kGravity_mps2, glm::length(v0) / rate,
            rate};
}

// PHAK's figure of load factor against bank; printed to two or three digits, exact 1/cos. AFH:
// about 3 g at 70 deg.
TEST(Handbook, LoadOfLevelTurnsByBank) {
    const double rows[][2] = {
        {10, 1.01542661189}, {15, 1.03527618041}, {20, 1.06417777248}, {30, 1.15470053838},
        {40, 1.30540728933}, {45, 1.41421356237}, {50, 1.55572382686}, {60, 2},
        {70, 2.92380440016}, {75, 3.86370330516}, {80, 5.75877048314}, {85, 11.4737132457}};
    for (const auto& row : rows)
        EXPECT_NEAR(flyTurnAt(150, row[0]).load_g, row[1], 2e-5 * row[1]) << row[0];
    EXPECT_NEAR(flyTurnAt(150, 70).load_g, 3, 0.1);
    EXPECT_NEAR(flyTurnAt(150, 80).load_g, 5.76, 0.005);  // from memory of the printed figure
}

// Exact radius and rate, and PHAK's rules of thumb R = kt^2 / (11.26 tan b) ft, 1091 tan b / kt
// deg/s, which are 0.30 % and 0.11 % off the exact constants 11.29428 and 1092.20668. Its worked
// example: 120 kt and 30 deg, 2,215 ft and 5.25 deg/s.
TEST(Handbook, RadiusAndRateOfLevelTurns) {
    const double rows[][4] = {{120, 30, 673.099716, 5.25488182},
                              {240, 30, 2692.398862, 2.62744091},
                              {120, 45, 388.614302, 9.10172229},
                              {180, 60, 504.824787, 10.50976363},
                              {150, 75, 162.701388, 27.17447202}};
    for (const auto& row : rows) {
        const FlownTurn turn = flyTurnAt(row[0], row[1]);
        EXPECT_NEAR(turn.radius_m, row[2], 2e-5 * row[2]) << row[0] << " kt " << row[1];
        EXPECT_NEAR(turn.rate_radps / kDegree, row[3], 2e-5 * row[3]) << row[0] << " kt " << row[1];
        const double slope = std::tan(row[1] * kDegree);
        EXPECT_NEAR(turn.radius_m / 0.3048 / (row[0] * row[0] / (11.26 * slope)), 1, 0.0032);
        EXPECT_NEAR(turn.rate_radps / kDegree / (1091 * slope / row[0]), 1, 0.0012);
    }
    EXPECT_NEAR(flyTurnAt(120, 30).radius_m / 0.3048, 2215, 0.0032 * 2215);
    EXPECT_NEAR(flyTurnAt(120, 30).rate_radps / kDegree, 5.25, 0.005);
}

// PHAK, load factors and stalling speeds: an aircraft that stalls at 50 kt stalls at 100 kt at 4 g
// and at 150 kt at 9 g; one of 60 kt at 102 kt with 2.89 g. What the meter reads when the pilot
// pulls for more than there is, at the first moment of a steady load.
TEST(Handbook, LoadThatTheWingGivesBySpeed) {
    data::Aircraft a = bareLineAircraft();
    const auto greatest_load = [&a](double speed_mps) {
        const World world = test::evenWorld(a);
        Flight flight(world, {});
        test::standOn(flight, test::pitched(0), speed_mps, 300);
        Law law = flight.lawFrom(Form::Shaped, Shape::LoadArc);
        law.load0_g = law.load1_g = 40;
        flight.run(
            law, [](double, const StateVector&) { return 1.0; }, 1e-4);
        return flight.joint.normal_g;
    };
    // The stalling speed at 1 g is where the wing gives 1 g.
    double stall = 20;
    for (int i = 0; i < 40; ++i) stall /= std::sqrt(greatest_load(stall));
    EXPECT_NEAR(greatest_load(2 * stall), 4, 0.01);
    EXPECT_NEAR(greatest_load(3 * stall), 9, 0.02);
    EXPECT_NEAR(greatest_load(1.7 * stall), 2.89, 0.005);
}

}  // namespace
}  // namespace plumbline::fly

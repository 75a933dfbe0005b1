// Closed forms of flight mechanics against the integrated equations.
//
// Forms: coast and fall with quadratic drag, Parker, Am. J. Phys. 45 (1977) 606; loop and
// constant-load arcs, Miele, Flight Mechanics vol. 1 (the forms from memory, their values computed
// here from the forms with 40 digits elsewhere and given to the digits shown); turns, FAA-H-8083-25
// (PHAK) ch. 5.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/fly/elements.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly {
namespace {

using test::bareAircraft;
using test::bareLineAircraft;
using test::dragForTerminal;
using test::evenWorld;
using test::kDegree;
using test::kKnot;
using test::pitched;
using test::standOn;

constexpr double kMass = 620;

text::Line lineUntil(text::Condition::Kind kind, double value) {
    text::Line line;
    line.extent.kind = text::Extent::Kind::Until;
    line.extent.until = {kind, value, "test"};
    return line;
}

void flyOne(Flight& flight, const text::Line& line) { flyLines(flight, {{&line, 0, 1}}); }

// V0 kt, height m, time s to zero speed: h = V^2/2g, t = V/g.
TEST(FlightMechanics, VerticalCoastWithoutDrag) {
    const double rows[][3] = {{100, 134.935521518, 5.2458734068},
                              {180, 437.191089720, 9.4425721322},
                              {220, 653.087924149, 11.5409214949}};
    for (const auto& row : rows) {
        const World world = evenWorld(bareLineAircraft());
        Flight flight(world, {});
        standOn(flight, pitched(90 * kDegree), row[0] * kKnot, 100);
        flyOne(flight, lineUntil(text::Condition::Kind::Speed, 0));
        EXPECT_NEAR(flight.joint.position_S_m.z - 100, row[1], 1e-5);
        EXPECT_NEAR(flight.joint.time_s, row[2], 1e-6);
    }
}

TEST(FlightMechanics, VerticalCoastWithQuadraticDrag) {
    data::Aircraft a = bareLineAircraft();
    a.aero.cd0 = dragForTerminal(a, kMass, 120, 1.225);
    const World world = evenWorld(a);
    // Up from 90 m/s, terminal speed 120 m/s: to rest after 327.6620598191 m and 7.8742621645 s; at
    // 200 m 52.2948043845 m/s.
    Flight flight(world, {});
    standOn(flight, pitched(90 * kDegree), 90, 100);
    flyOne(flight, lineUntil(text::Condition::Kind::Height, 300));
    EXPECT_NEAR(glm::length(flight.joint.air_velocity_S_mps), 52.2948043845, 1e-6);
    flyOne(flight, lineUntil(text::Condition::Kind::Speed, 0));
    EXPECT_NEAR(flight.joint.position_S_m.z - 100, 327.6620598191, 1e-4);
    EXPECT_NEAR(flight.joint.time_s, 7.8742621645, 1e-5);
}

TEST(FlightMechanics, VerticalFallWithQuadraticDrag) {
    data::Aircraft a = bareLineAircraft();
    a.aero.cd0 = dragForTerminal(a, kMass, 120, 1.225);
    const World world = evenWorld(a);
    // From 30 m/s: after 100 m 51.1763793864, after 300 m 73.6767487429 m/s.
    for (const auto& [drop, speed] :
         {std::pair{100.0, 51.1763793864}, std::pair{300.0, 73.6767487429}}) {
        Flight flight(world, {});
        standOn(flight, pitched(-90 * kDegree), 30, 600);
        flyOne(flight, lineUntil(text::Condition::Kind::Height, 600 - drop));
        EXPECT_NEAR(glm::length(flight.joint.air_velocity_S_mps), speed, 1e-6);
    }
}

// Tail first with its own drag coefficient: the same closed form, backwards, from rest at the top
// of a slide.
TEST(FlightMechanics, TailFirstFallFromRest) {
    data::Aircraft a = bareLineAircraft();
    a.aero.cd_tail_first = dragForTerminal(a, kMass, 120, 1.225);
    const World world = evenWorld(a);
    Flight flight(world, {});
    standOn(flight, pitched(90 * kDegree), 0.001, 600);
    text::Slide slide;
    slide.value = 200;
    flySlide(flight, slide);
    EXPECT_NEAR(glm::length(flight.joint.air_velocity_S_mps), 58.5983122454, 1e-4);
    EXPECT_NEAR(flight.joint.time_s, 6.5325176029,
                2e-3);  // the first millimetre a second is coasted off in 0.1 ms
}

// A circle from the first to the last metre: loop of 100 m from 90 m/s; speed and load at the four
// quarters.
void expectLoop(const data::Aircraft& aircraft, const double (&speed)[5], const double (&load)[5],
                double period_s) {
    const World world = evenWorld(aircraft);
    for (int quarter = 1; quarter <= 4; ++quarter) {
        Flight flight(world, {});
        standOn(flight, pitched(0), 90, 200);
        Law law = flight.lawFrom(Form::Shaped, Shape::RadiusArc);
        law.curvature_pm = 0.01;
        law.ramp_m = 1e-9;
        law.distance0_m = -1;  // the circle stands from the first metre: no step across its start
        law.plateau_m = 1e4;
        const double end = 100 * kPi / 2 * quarter;
        const Flight::Result r = flight.run(
            law, [&](double, const StateVector& y) { return end - y[kDistance]; }, 30);
        EXPECT_NEAR(r.state[kSpeed], speed[quarter], 2e-6) << quarter;
        EXPECT_NEAR(flight.joint.normal_g, load[quarter], 2e-5) << quarter;
        if (quarter == 4) {
            EXPECT_NEAR(r.time_s, period_s, 1e-6);
        }
    }
}

TEST(FlightMechanics, RoundLoopConservesEnergy) {
    expectLoop(bareAircraft(), {90, 78.3496649642, 64.6323447837, 78.3496649642, 90},
               {9.2597013251, 6.2597013251, 3.2597013251, 6.2597013251, 9.2597013251},
               8.182133088882);
}

TEST(FlightMechanics, RoundLoopWithDrag) {
    data::Aircraft a = bareAircraft();
    a.aero.cd0 = dragForTerminal(a, kMass, 120, 1.225);
    expectLoop(a, {90, 68.723149010, 45.818681590, 59.262026033, 67.449201488},
               {9.259701325, 4.815988344, 1.140742846, 3.581230828, 5.639091618}, 10.3726314469);
}

// Constant load without thrust or drag: V0, n, start and end direction; V1, height, distance, time.
TEST(FlightMechanics, ConstantLoadArcs) {
    const double rows[][8] = {
        {80, 6, 0, 90, 66.6666666667, 99.7055852690, 116.2417975322, 2.2486994650},
        {80, 6, 0, 180, 57.1428571429, 159.8249084831, 63.6533959260, 3.7131147623},
        {80, 4, 0, 90, 60.0, 142.7602698169, 181.4257621151, 3.4805419029},
        {60, 5, -90, 0, 75.0, -103.2462665640, 124.4857767522, 2.5603765749},
        {60, 5, -45, 0, 64.3933982822, -27.8642422402, 70.0399250495, 1.2290230176},
        {80, -3, 0, -90, 106.6666666667, -253.7960352301, 197.1270068520, 3.9658651781}};
    for (const auto& row : rows) {
        const World world = evenWorld(bareAircraft());
        Flight flight(world, {});
        standOn(flight, pitched(row[2] * kDegree), row[0], 600);
        Law law = flight.lawFrom(Form::Shaped, Shape::LoadArc);
        law.load0_g = law.load1_g = row[1];
        const double turn = std::fabs(row[3] - row[2]) * kDegree;
        const Flight::Result r = flight.run(
            law, [&](double, const StateVector& y) { return turn - std::fabs(y[kTurned]); }, 30);
        EXPECT_NEAR(r.state[kSpeed], row[4], 2e-5);
        EXPECT_NEAR(r.state[kZ] - 600, row[5], 2e-4);
        EXPECT_NEAR(r.state[kX], row[6], 2e-4);
        EXPECT_NEAR(r.time_s, row[7], 2e-6);
    }
}

// Level turns, PHAK ch. 5: 120 kt and 30 deg of bank. Exact forms V^2/(g tan b), g tan b / V; the
// handbook's rule of thumb (2,215 ft, 5.25 deg/s) is 0.3 % large in radius.
TEST(FlightMechanics, LevelTurnRadiusRateAndLoad) {
    const double rows[][5] = {{120, 30, 673.099716, 5.25488182, 1.15470053838},
                              {180, 60, 504.824787, 10.50976363, 2.0},
                              {150, 75, 162.701388, 27.17447202, 3.86370330516}};
    for (const auto& row : rows) {
        const World world = evenWorld(bareLineAircraft());
        Flight flight(world, {});
        standOn(flight, pitched(0), row[0] * kKnot, 300);
        Law law = flight.lawFrom(Form::Shaped, Shape::LevelTurn);
        law.bank_rad = -row[1] * kDegree;
        law.bank_ramp_s = 1;
        law.bank_down_s = 1e9;
        flight.run(
            law, [](double, const StateVector&) { return 1.0; }, 3);
        const Vec3 v0 = flight.joint.air_velocity_S_mps;
        flight.run(
            law, [](double, const StateVector&) { return 1.0; }, 1);
        const Vec3 v1 = flight.joint.air_velocity_S_mps;
        const double rate = std::atan2(v0.x * v1.y - v0.y * v1.x, v0.x * v1.x + v0.y * v1.y);
        EXPECT_NEAR(rate / kDegree, row[3], 1e-5 * row[3]);
        EXPECT_NEAR(glm::length(v1) / rate, row[2], 1e-5 * row[2]);
        // Without drag and thrust all of the specific force is lift.
        EXPECT_NEAR(glm::length(flight.joint.specific_force_B_mps2) / kGravity_mps2, row[4], 1e-5);
        EXPECT_NEAR(v1.z, 0, 1e-5);
    }
    const double rule_ft = 2215, rule_degps = 5.25;
    EXPECT_NEAR(673.099716 / 0.3048, rule_ft, 0.0035 * rule_ft);
    EXPECT_NEAR(5.25488182, rule_degps, 0.0015 * rule_degps);
}

}  // namespace
}  // namespace plumbline::fly

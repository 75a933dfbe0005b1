// Closed forms of flight mechanics against the integrated equations.
//
// Forms: coast and fall with quadratic drag, Parker, Am. J. Phys. 45 (1977) 606; loop and
// constant-load arcs, Miele, Flight Mechanics vol. 1 (the forms from memory, their values computed
// here from the forms with 40 digits elsewhere and given to the digits shown); turns, FAA-H-8083-25
// (PHAK) ch. 5.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/earth/atmosphere.h"
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

/// A propeller so small and an engine so strong that the thrust does not fall with speed: T = (2
/// rho A P^2)^(1/3) at an induced speed of 1e9 m/s.
void giveConstantThrust(data::Aircraft& a, double thrust_n, double density_kgpm3) {
    constexpr double kInduced_mps = 1e9;
    const double area = thrust_n / (2 * density_kgpm3 * kInduced_mps * kInduced_mps);
    a.power.propeller_diameter_m = std::sqrt(4 * area / kPi);
    a.power.max_power_w = thrust_n * kInduced_mps;
    a.power.static_merit_frac = a.power.cruise_efficiency_frac = 1;
}

TEST(FlightMechanics, VerticalCoastWithDragAndConstantThrust) {
    data::Aircraft a = bareLineAircraft();
    a.aero.cd0 = dragForTerminal(a, kMass, 120, 1.225);
    giveConstantThrust(a, 0.5 * kMass * kGravity_mps2, 1.225);
    const World world = evenWorld(a);
    Flight flight(world, {});
    standOn(flight, pitched(90 * kDegree), 90, 100);
    flyOne(flight, lineUntil(text::Condition::Kind::Speed, 0));
    EXPECT_NEAR(flight.joint.position_S_m.z - 100, 553.415995994, 1e-4);
    EXPECT_NEAR(flight.joint.time_s, 14.100708513, 1e-5);
}

// Nose first. From rest t = (vt/g) acosh(exp(g h/vt^2)); the flights that stand for rest begin 1
// m/s later, at a height lower by (vt^2/2g) ln(1/(1 - v^2/vt^2)).
TEST(FlightMechanics, VerticalFallTakesItsTime) {
    constexpr double kTerminal_mps = 120, kLate_mps = 1;
    data::Aircraft a = bareLineAircraft();
    a.aero.cd0 = dragForTerminal(a, kMass, kTerminal_mps, 1.225);
    const World world = evenWorld(a);
    const double rows[][4] = {{50, 30.7898977339, 3.2114524831, 42.2938138480},
                              {100, 42.8208274197, 4.5674358269, 51.1763793864},
                              {200, 58.5983122454, 6.5325176029, 64.1806206002},
                              {300, 69.4992627707, 8.0908191850, 73.6767487429},
                              {500, 84.3334659240, 10.6797354930, 86.9920981043}};
    const double share = kLate_mps / kTerminal_mps;
    const double fallen_m =
        -kTerminal_mps * kTerminal_mps / (2 * kGravity_mps2) * std::log1p(-share * share);
    const double late_s = kTerminal_mps / kGravity_mps2 * std::atanh(share);
    for (const auto& row : rows) {
        for (const bool from_rest : {true, false}) {
            Flight flight(world, {});
            standOn(flight, pitched(-90 * kDegree), from_rest ? kLate_mps : 30,
                    700 - (from_rest ? fallen_m : 0));
            flyOne(flight, lineUntil(text::Condition::Kind::Height, 700 - row[0]));
            EXPECT_NEAR(glm::length(flight.joint.air_velocity_S_mps), row[from_rest ? 1 : 3], 1e-6);
            if (from_rest) {
                EXPECT_NEAR(flight.joint.time_s + late_s, row[2], 1e-6);
            }
        }
    }
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

TEST(FlightMechanics, RoundLoopWithDragAndConstantThrust) {
    data::Aircraft a = bareAircraft();
    a.aero.cd0 = dragForTerminal(a, kMass, 120, 1.225);
    giveConstantThrust(a, 0.5 * kMass * kGravity_mps2, 1.225);
    expectLoop(a, {90, 78.164314478, 67.866195457, 83.201415868, 93.218983722},
               {9.259701325, 6.230119417, 3.696629823, 7.058960606, 9.861108458}, 7.9246566661);
}

// Constant load without thrust or drag: V0, n, start and end direction; V1, height, distance, time.
TEST(FlightMechanics, ConstantLoadArcs) {
    const double rows[][8] = {
        {80, 6, 0, 45, 75.5730341542, 35.1147695047, 87.5715732660, 1.2328928280},
        {80, 5, 0, 90, 64.0, 117.4713077351, 141.6371504380, 2.7310683465},
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

// Pull-outs from a vertical dive at a constant load: V exit = V0 n/(n-1), loss = (V0^2/2g)
// (2n-1)/(n-1)^2 (the forms from memory).
TEST(FlightMechanics, PullOutLosesWhatTheClosedFormSays) {
    const double rows[][4] = {{40, 4, 53.333333333, 63.449008808},
                              {50, 5, 62.5, 71.698796225},
                              {60, 6, 72.0, 80.761524068},
                              {70, 4, 93.333333333, 194.312589473},
                              {80, 6, 96.0, 143.576042787}};
    for (const auto& row : rows) {
        const World world = evenWorld(bareAircraft());
        Flight flight(world, {});
        standOn(flight, pitched(-90 * kDegree), row[0], 600);
        Law law = flight.lawFrom(Form::Shaped, Shape::LoadArc);
        law.load0_g = law.load1_g = row[1];
        flight.run(
            law, [](double, const StateVector& y) { return kPi / 2 - y[kTurned]; }, 30);
        EXPECT_NEAR(glm::length(flight.joint.air_velocity_S_mps), row[2], 2e-5);
        EXPECT_NEAR(600 - flight.joint.position_S_m.z, row[3], 2e-4);
    }
}

// Constant load with quadratic drag that does not grow with lift. With u = 1/V^2 and c = cos(gamma)
// the balance d(gamma)/dt = g (n - c)/V, dV/dt = -g (sin(gamma) + V^2/vt^2) becomes linear:
//   u / (n - c)^2 = u0 / (n - c0)^2 + (2/vt^2) integral of (n - c)^-3 d(gamma),
// and height, distance and time are quadratures of V^2 sin, V^2 cos and V over g (n - c). Both by
// Simpson's rule with 2,000 panels.
TEST(FlightMechanics, ConstantLoadArcWithDragByQuadrature) {
    constexpr double kTerminal_mps = 120, kLoad = 5, kEntry_mps = 85;
    data::Aircraft a = bareAircraft();
    a.aero.cd0 = dragForTerminal(a, kMass, kTerminal_mps, 1.225);
    const World world = evenWorld(a);
    for (const double end : {90 * kDegree, 180 * kDegree}) {
        constexpr int kPanels = 2000;
        const double h = end / kPanels;
        double inner = 0, height = 0, distance = 0, time = 0, speed = kEntry_mps;
        const auto cube = [](double g) { return std::pow(kLoad - std::cos(g), -3); };
        for (int i = 0; i <= kPanels; ++i) {
            const double g = i * h, left = kLoad - std::cos(g);
            if (i > 0) inner += h / 6 * (cube(g - h) + 4 * cube(g - h / 2) + cube(g));
            const double u = left * left *
                             (1 / (kEntry_mps * kEntry_mps * (kLoad - 1) * (kLoad - 1)) +
                              2 * inner / (kTerminal_mps * kTerminal_mps));
            speed = 1 / std::sqrt(u);
            const double weight = h / 3 * (i == 0 || i == kPanels ? 1 : i % 2 == 1 ? 4 : 2);
            height += weight * speed * speed * std::sin(g) / (kGravity_mps2 * left);
            distance += weight * speed * speed * std::cos(g) / (kGravity_mps2 * left);
            time += weight * speed / (kGravity_mps2 * left);
        }
        Flight flight(world, {});
        standOn(flight, pitched(0), kEntry_mps, 100);
        Law law = flight.lawFrom(Form::Shaped, Shape::LoadArc);
        law.load0_g = law.load1_g = kLoad;
        const Flight::Result r = flight.run(
            law, [end](double, const StateVector& y) { return end - y[kTurned]; }, 30);
        EXPECT_NEAR(r.state[kSpeed], speed, 2e-5);
        EXPECT_NEAR(r.state[kZ] - 100, height, 2e-4);
        EXPECT_NEAR(r.state[kX], distance, 2e-4);
        EXPECT_NEAR(r.time_s, time, 2e-6);
    }
}

// Least radius at 80 m/s and 6 g: V^2/(g (n-1)) at the bottom, V^2/(g n) on the vertical, V^2/(g
// (n+1)) inverted at the top. Over a hundredth of a second, from the turn of the path.
TEST(FlightMechanics, RadiusAtAConstantLoadByAttitude) {
    const double rows[][2] = {{0, 130.523675261}, {90, 108.769729384}, {180, 93.231196615}};
    for (const auto& row : rows) {
        const World world = evenWorld(bareAircraft());
        // Half the angle before and after, so that the mean is that of the middle.
        constexpr double kHalf = 0.01 * kDegree;
        Flight flight(world, {});
        standOn(flight, pitched(row[0] * kDegree - kHalf), 80, 300);
        Law law = flight.lawFrom(Form::Shaped, Shape::LoadArc);
        law.load0_g = law.load1_g = 6;
        const Flight::Result r = flight.run(
            law, [](double, const StateVector& y) { return 2 * kHalf - y[kTurned]; }, 1);
        const double mean_speed = 0.5 * (80 + r.state[kSpeed]);
        const double radius = mean_speed * r.time_s / (2 * kHalf);
        EXPECT_NEAR(radius * (80 / mean_speed) * (80 / mean_speed), row[1], 1e-4 * row[1])
            << row[0];
    }
}

// Incidence and sideslip that hold a level line without thrust and drag: m g = q S a |alpha -
// alpha0| inverted, m g = q S c sin(beta) / sqrt(1 + (c sin(beta)/cy_max)^2) in knife-edge: the
// definitions of the coefficients in aero.h, turned round.
TEST(FlightMechanics, InvertedIncidenceAndKnifeEdgeSideslipBalanceTheWeight) {
    data::Aircraft a = bareLineAircraft();
    a.aero.zero_lift_aoa_rad = -1.5 * kDegree;
    const double mass = a.mass.empty_kg + a.mass.pilot_kg + 0.72 * 60;
    for (const double speed : {50.0, 65.0, 85.0}) {
        test::RoutineSetup setup;
        setup.speed_mps = speed;
        // Long enough for the path to settle: some 20 m a factor of e (lift), 90 m (fuselage).
        const auto end = [&](const char* text) {
            const Solution s = test::solveText(a, text, setup);
            return s.sampleTimes({s.duration_s()}).front();
        };
        const path::Sample inverted = end("line level 900 m with 1/2 roll left at start");
        const path::Sample knife = end("line level 2500 m with 1/4 roll left at start");
        const auto coefficient = [&](const path::Sample& s) {
            const double rho = earth::standardAir(s.position_S_m.z).density_kgpm3;
            return mass * kGravity_mps2 /
                   (0.5 * rho * s.airspeed_mps * s.airspeed_mps * a.geometry.wing_area_m2);
        };
        EXPECT_NEAR(inverted.aoa_rad,
                    a.aero.zero_lift_aoa_rad - coefficient(inverted) / a.aero.lift_slope_prad, 1e-6)
            << speed;
        EXPECT_NEAR(knife.aoa_rad, a.aero.zero_lift_aoa_rad, 1e-6);
        const double y = coefficient(knife);
        if (y > 0.9 * a.aero.cy_max) continue;  // less fuselage than weight: it sinks
        const double sine =
            y / std::sqrt(1 - std::pow(y / a.aero.cy_max, 2)) / a.aero.side_force_slope_prad;
        if (sine > 0.8 * std::sin(a.aero.sideslip_max_rad)) continue;  // near full rudder
        EXPECT_NEAR(std::fabs(std::sin(knife.sideslip_rad)), sine, 1e-6) << speed;
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

// A helix without drag and thrust at an even climb c and bank b: L cos b = m g cos c, so that
// V = V0 - g sin c t, the heading turns (tan b / -sin c) ln(V / V0), and the height goes with the
// mean speed. (Form: integrated here by hand from the point-mass equations, Miele, ch. 4.)
TEST(FlightMechanics, HelixByClosedForm) {
    const double rows[][3] = {{160, 45, 20}, {130, 30, -15}, {150, 60, -8}};
    for (const auto& row : rows) {
        const World world = evenWorld(bareLineAircraft());
        Flight flight(world, {});
        standOn(flight, pitched(0), row[0] * kKnot, 500);
        Law law = flight.lawFrom(Form::Shaped, Shape::LevelTurn);
        law.bank_rad = -row[1] * kDegree;
        law.bank_ramp_s = 1;
        law.bank_down_s = law.climb_down_s = 1e9;
        law.turn_climb_rad = row[2] * kDegree;
        law.climb_ramp_s = 1;
        const auto on = [](double, const StateVector&) { return 1.0; };
        flight.run(law, on, 7);
        const Vec3 v0 = flight.joint.air_velocity_S_mps;
        const double h0 = flight.joint.position_S_m.z, speed0 = glm::length(v0);
        const double climb = std::asin(v0.z / speed0), time = 2;
        EXPECT_NEAR(climb / kDegree, row[2], 1e-3);
        flight.run(law, on, time);
        const Vec3 v1 = flight.joint.air_velocity_S_mps;
        const double speed1 = speed0 - kGravity_mps2 * std::sin(climb) * time;
        EXPECT_NEAR(glm::length(v1), speed1, 1e-5 * speed1);
        const double turned =
            std::tan(row[1] * kDegree) / -std::sin(climb) * std::log(speed1 / speed0);
        EXPECT_NEAR(std::atan2(v0.x * v1.y - v0.y * v1.x, v0.x * v1.x + v0.y * v1.y), turned,
                    1e-5 * turned);
        EXPECT_NEAR(flight.joint.position_S_m.z - h0,
                    0.5 * (speed0 + speed1) * std::sin(climb) * time, 2e-3);
    }
}

}  // namespace
}  // namespace plumbline::fly

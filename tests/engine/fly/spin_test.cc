// Spins, torque rolls and tumbles: closed forms, what they say, symmetry, smoothness.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/fly/elements.h"
#include "engine/fly/snap.h"
#include "tests/engine/fly/slow_support.h"

namespace plumbline::fly {
namespace {

using test::kDegree;
using test::kKnot;
using test::plausibleAircraft;
using test::RoutineSetup;
using test::solveText;

RoutineSetup at(double speed_kt, double height_m = 900) {
    RoutineSetup setup;
    setup.speed_mps = speed_kt * kKnot;
    setup.height_m = height_m;
    return setup;
}

// A steady helix: turning at W about the vertical and sinking at V along a path g off the vertical,
// D = m g cos(g), L = m sin(g) sqrt(g0^2 + (W V)^2); the roll about the path is W cos(g).
TEST(Spin, SettlesToTheClosedFormOfASteadyHelix) {
    data::Aircraft aircraft = plausibleAircraft();
    aircraft.power = {};
    const World world = test::evenWorld(aircraft);
    Flight flight(world, {1e-10, 0});
    test::standOn(flight, test::pitched(-80 * kDegree), 35, 9000);
    RollProgram roll;
    const double rate = 3.6;
    roll.add(-30 * 2 * kPi, rate, 4, 0);
    IncidenceProgram incidence{0, 1, 1e6, 1, 0, 45 * kDegree, 0};
    flight.run(
        autorotationLaw(flight, roll, incidence, 0.5),
        [](double, const StateVector&) { return 1.0; }, 45);
    const Vec3 v = flight.joint.air_velocity_S_mps;
    const double speed = glm::length(v), off = std::atan2(std::hypot(v.x, v.y), -v.z);
    const Coefficients c = world.aero.at(45 * kDegree, 0);
    const double qs = 0.5 * 1.225 * speed * speed * world.wing_area_m2, m = 620;
    const double about_vertical = rate / std::cos(off);
    EXPECT_NEAR(qs * c.drag, m * kGravity_mps2 * std::cos(off), 1e-4 * m * kGravity_mps2);
    EXPECT_NEAR(qs * c.lift, m * std::sin(off) * std::hypot(kGravity_mps2, about_vertical * speed),
                1e-3 * qs * c.lift);
}

TEST(Spin, EndsInADownlineTurnedAsFarAsItSays) {
    struct Case {
        const char* text;
        Vec3 canopy;  // at the end, site axes; crowd-right flight
    };
    for (const Case& c : {
             Case{"spin left 1 turn", {1, 0, 0}},
             Case{"spin left 2 1/4 turns", {0, 1, 0}},    // left: away from the crowd
             Case{"spin right 2 1/4 turns", {0, -1, 0}},  // seen from above clockwise
             Case{"spin right 3 1/2 turns", {-1, 0, 0}},
             Case{"spin left 6 turns", {1, 0, 0}},
         }) {
        const Solution s =
            solveText(plausibleAircraft(),
                      std::string("power idle\n") + c.text + "\nline down 150 m", at(75));
        EXPECT_EQ(test::refusals(s), "") << c.text;
        const path::Sample end = s.samplePath(20).samples.back();
        EXPECT_LT(rotate(end.q_SB, Vec3(1, 0, 0)).z, -0.9999) << c.text;
        EXPECT_GT(glm::dot(rotate(end.q_SB, Vec3(0, 0, -1)), c.canopy), 0.9999) << c.text;
        EXPECT_LT(end.velocity_S_mps.z, -0.97 * glm::length(end.velocity_S_mps)) << c.text;
    }
}

// Inverted, the side is the rudder's: seen from above it turns the other way.
TEST(Spin, InvertedTurnsToTheRuddersSide) {
    const Solution s = solveText(plausibleAircraft(),
                                 "line level 200 m with 1/2 roll left\npower idle\n"
                                 "spin left 2 turns inverted\nline down 100 m",
                                 at(85));
    EXPECT_EQ(test::refusals(s), "");
    const path::Path p = s.samplePath(100);
    path::Sample middle = p.samples.front();
    for (const path::Sample& sample : p.samples)
        if (std::fabs(sample.aoa_rad) > std::fabs(middle.aoa_rad)) middle = sample;
    EXPECT_NEAR(middle.aoa_rad, plausibleAircraft().autorotation.inverted_spin_incidence_rad, 1e-3);
    EXPECT_LT(middle.rate_B_radps.z, -1);  // yaws left
    EXPECT_GT(middle.rate_B_radps.x, 1);   // and rolls right
    EXPECT_LT(loadFactors(middle.specific_force_B_mps2).normal_g, 0);
}

TEST(Spin, StartsFromTheStallInLevelFlight) {
    const Solution s = solveText(plausibleAircraft(), "power idle\nspin left 2 turns", at(75));
    const path::Path p = s.samplePath(100);
    // Level until the wing gives no more: the stall at 1 g.
    double speed = 0;
    for (const path::Sample& sample : p.samples)
        if (std::fabs(sample.rate_B_radps.z) > 0.05) {
            speed = sample.airspeed_mps;
            EXPECT_NEAR(sample.position_S_m.z, 900, 3);
            break;
        }
    const double density = 1.1222;  // ISA at 900 m
    EXPECT_NEAR(speed, std::sqrt(2 * 628 * kGravity_mps2 / (density * 10 * 1.3)), 1);
    const auto slowsDown = [](double speed_kt) {
        const Solution from =
            solveText(plausibleAircraft(), "power idle\nspin left 2 turns", at(speed_kt));
        return std::any_of(from.notes().begin(), from.notes().end(), [](const SolveNote& n) {
            return n.what.find("a long way to slow down") != std::string::npos;
        });
    };
    EXPECT_TRUE(slowsDown(110));
    EXPECT_FALSE(slowsDown(70));
    EXPECT_TRUE(test::saidNotFlyable(
        solveText(plausibleAircraft(), "pull to up at 4 g\nspin left 2 turns", at(130)),
        "a spin starts from upright level flight"));
    EXPECT_TRUE(test::saidNotFlyable(
        solveText(plausibleAircraft(), "spin left 2 turns inverted", at(75)), "from inverted"));
}

TEST(Spin, EachTurnMoreCostsAsMuchOnceItIsSteady) {
    const auto lowest = [](const char* text) {
        const Solution s =
            solveText(plausibleAircraft(), std::string("power idle\n") + text, at(75, 1800));
        return s.samplePath(50).samples.back().position_S_m.z;
    };
    const double six = lowest("spin left 6 turns"), eight = lowest("spin left 8 turns"),
                 ten = lowest("spin left 10 turns");
    EXPECT_NEAR(six - eight, eight - ten, 2);
    EXPECT_NEAR((eight - ten) / 2, 59, 12);  // of the order that a rough model gives: 59 m a turn
}

// Hanging still, thrust and weight equal: I p' = Q - D p.
TEST(TorqueRoll, SpinsUpAsTorqueInertiaAndDampingSay) {
    data::Aircraft aircraft = plausibleAircraft();
    aircraft.power.bsfc_full_kgpj = aircraft.power.bsfc_cruise_kgpj = 0;
    aircraft.power.idle_fuel_kgps = 0;
    const World world = test::evenWorld(aircraft);
    const double thrust = world.power.thrust_n(1.0, 1.225, 0);
    Flight flight(world, {1e-10, 0});
    test::standOn(flight, test::pitched(kPi / 2), 1e-9, 900, thrust / kGravity_mps2);
    Law law = flight.lawFrom(Form::Held, Shape::Torque);
    const double seconds = 4;
    const Flight::Result r = flight.run(
        law, [](double, const StateVector&) { return 1.0; }, seconds);
    const double torque = 0.75 * 250e3 / (2700 * 2 * kPi / 60);
    const double disc = kPi / 4 * 2 * 2, jet = 2 * std::sqrt(thrust / (2 * 1.225 * disc));
    // The part of the wing in the slipstream: as broad as the propeller.
    const double damping = 0.25 * 1.225 * 0.35 * jet * (10 * 2 / 7.6) * 2 * 2;
    const double steady = -torque / damping, time = 520 / damping;
    EXPECT_NEAR(r.state[kPitchRate], steady * (1 - std::exp(-seconds / time)), 1e-6);
    EXPECT_NEAR(r.state[kPitch], steady * (seconds - time * (1 - std::exp(-seconds / time))), 1e-6);
    EXPECT_NEAR(glm::length(flight.joint.air_velocity_S_mps), 0, 1e-6);

    // Without damping the angular momentum is torque times time.
    aircraft.rotation.roll_damping = 0;
    const World bare = test::evenWorld(aircraft);
    Flight free(bare, {1e-10, 0});
    test::standOn(free, test::pitched(kPi / 2), 10, 900);
    const Flight::Result f = free.run(
        free.lawFrom(Form::Held, Shape::Torque), [](double, const StateVector&) { return 1.0; },
        seconds);
    EXPECT_NEAR(520 * f.state[kPitchRate], -torque * seconds, 1e-6 * torque);
}

const char* const kTorqueRoll =
    "pull to up at 5 g\nline up until 12 kt\ntorque-roll left 2 rolls\npower idle\n"
    "fall wheels-down\nline down 100 m";

TEST(TorqueRoll, EndsWithTheCanopyWhereItWasAndBacksMeanwhile) {
    const Solution s = solveText(plausibleAircraft(), kTorqueRoll, at(130, 500));
    EXPECT_EQ(test::refusals(s), "");
    const path::Path p = s.samplePath(50);
    const path::Element* roll = nullptr;
    for (const path::Element& e : p.elements)
        if (e.label == "torque roll left") roll = &e;
    ASSERT_NE(roll, nullptr);
    const path::Sample end = path::sampleAt(p, roll->stop_s);
    EXPECT_NEAR(rotate(end.q_SB, Vec3(1, 0, 0)).z, 1, 1e-6);
    EXPECT_LT(rotate(end.q_SB, Vec3(0, 0, -1)).x, -0.999);  // as pulled up from flight to the right
    EXPECT_LT(end.velocity_S_mps.z, -1);
    double angle = 0;
    for (std::size_t i = 1; i < p.samples.size(); ++i)
        if (p.samples[i].time_s > roll->start_s && p.samples[i].time_s <= roll->stop_s)
            angle += p.samples[i].rate_B_radps.x * (p.samples[i].time_s - p.samples[i - 1].time_s);
    EXPECT_NEAR(angle, -4 * kPi, 0.1);
}

TEST(TorqueRoll, GoesAgainstThePropellerOnly) {
    const Solution s =
        solveText(plausibleAircraft(),
                  "pull to up at 5 g\nline up until 12 kt\ntorque-roll right 1 roll", at(130, 500));
    EXPECT_TRUE(test::saidNotFlyable(s, "the other way"));
    EXPECT_TRUE(test::saidNotFlyable(
        solveText(plausibleAircraft(), "torque-roll left 1 roll", at(75)), "vertical upline"));
}

TEST(Tumble, TurnsAsOftenAsItSaysAndComesBackToALine) {
    struct Case {
        const char *text, *then;
        Vec3 nose, canopy;
    };
    for (const Case& c : {
             Case{"tumble forward 3 turns", "", {0, 0, 1}, {-1, 0, 0}},
             Case{"tumble backward 2 1/2 turns", "", {0, 0, -1}, {1, 0, 0}},
             Case{"tumble left 1 1/2 turns", "", {0, 0, -1}, {-1, 0, 0}},
             Case{"tumble right 2 turns in 6 s", "", {0, 0, 1}, {-1, 0, 0}},
         }) {
        const Solution s = solveText(
            plausibleAircraft(), std::string("pull to up at 5 g\nline up until 65 kt\n") + c.text,
            at(130, 500));
        EXPECT_EQ(test::refusals(s), "") << c.text;
        const path::Sample end = s.samplePath(20).samples.back();
        EXPECT_GT(glm::dot(rotate(end.q_SB, Vec3(1, 0, 0)), c.nose), 0.99999) << c.text;
        EXPECT_GT(glm::dot(rotate(end.q_SB, Vec3(0, 0, -1)), c.canopy), 0.99999) << c.text;
    }
}

// Common practice, no source: three turns take about four seconds, not two.
TEST(Tumble, ThreeTurnsTakeAboutFourSecondsNotTwo) {
    const auto tumble = [](const char* words) {
        return solveText(plausibleAircraft(),
                         std::string("pull to up at 5 g\nline up until 65 kt\n") + words,
                         at(130, 500));
    };
    const path::Path p = tumble("tumble forward 3 turns").samplePath(50);
    const path::Element& e = p.elements.back();
    EXPECT_GT(e.stop_s - e.start_s, 3.3);
    EXPECT_LT(e.stop_s - e.start_s, 5);
    EXPECT_TRUE(
        test::saidNotFlyable(tumble("tumble forward 3 turns in 2 s"), "propeller and tail"));
    EXPECT_EQ(test::refusals(tumble("tumble forward 3 turns in 5 s")), "");
    EXPECT_TRUE(test::saidNotFlyable(
        solveText(plausibleAircraft(), "line level 50 m\ntumble forward 1 turn", at(130)),
        "too fast to tumble"));
}

TEST(Tumble, TheMomentNeededGrowsWithTheRate) {
    // Less power, less slipstream over the controls: slower.
    const auto seconds = [](const char* power) {
        const path::Path p = solveText(plausibleAircraft(),
                                       std::string("pull to up at 5 g\nline up until 65 kt\n") +
                                           power + "\ntumble forward 2 turns",
                                       at(130, 500))
                                 .samplePath(50);
        return p.elements.back().stop_s - p.elements.back().start_s;
    };
    EXPECT_GT(seconds("power 40 %"), 1.1 * seconds("power full"));
}

const char* const kSlowFigures[] = {
    "power idle\nspin left 2 1/2 turns\nline down 120 m\npower full\npull to level at 4 g",
    "line level 250 m with 1/2 roll left\npower idle\nspin right 2 turns inverted\nline down 150 m",
    kTorqueRoll,
    "pull to up at 5 g\nline up until 65 kt\ntumble forward 2 1/2 turns\nline down 80 m",
    "pull to up at 5 g\nline up until 65 kt\ntumble left 1 1/2 turns\nline down 80 m",
    "power 20 %\nline level until 78 kt or 20 s\npower full\ntumble backward 1 turn\nline level "
    "150 m",
    "power 20 %\nline level until 78 kt or 20 s\npower full\ntumble right 1 turn\nline level 150 m",
};

RoutineSetup entryOf(const std::string& text) {
    return at(text[0] == 'p' && text[1] == 'u' ? 130 : 85, 1200);
}

TEST(SlowFigures, AreSmoothAtEveryJoint) {
    for (const char* text : kSlowFigures)
        test::expectSmooth(solveText(plausibleAircraft(), text, entryOf(text)), text);
}

// A tumble goes through the stall twice a turn: there the step control magnifies the last bits, to
// far below the error of the solution.
TEST(SlowFigures, MirroredTextFliesTheMirrorImage) {
    for (const std::string text : kSlowFigures) {
        const double most = text.find("tumble") == std::string::npos ? 1e-9 : 1e-6;
        EXPECT_LT(test::worstMirrorMiss(plausibleAircraft(), text, entryOf(text)), most) << text;
    }
}

TEST(SlowFigures, PowerTheoremHoldsInWind) {
    for (const char* text : kSlowFigures) {
        RoutineSetup setup = entryOf(text);
        setup.options.relative_tolerance = 1e-12;
        setup.weather.wind = {{0, 200 * kDegree, 5}, {700, 230 * kDegree, 9}};
        EXPECT_LT(test::worstPowerMiss(solveText(plausibleAircraft(), text, setup), 0.001), 2e-6)
            << text;
    }
}

TEST(SlowFigures, AnAircraftThatKnowsNothingOfThemSaysSo) {
    data::Aircraft plain = plausibleAircraft();
    plain.autorotation = {};
    plain.rotation = {};
    EXPECT_TRUE(
        test::saidNotFlyable(solveText(plain, "spin left 2 turns", at(75)), "[autorotation]"));
    for (const char* text : {"tumble forward 1 turn", "torque-roll left 1 roll"})
        EXPECT_TRUE(test::saidNotFlyable(
            solveText(plain, std::string("pull to up at 5 g\nline up until 50 kt\n") + text,
                      at(130)),
            "[rotation]"));
}

}  // namespace
}  // namespace plumbline::fly

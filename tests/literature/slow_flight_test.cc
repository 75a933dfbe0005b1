// Flight in and beyond the stall against what is published, and closed forms.
//
// Published: SAND80-2114 (Sheldahl and Klimas 1981), section data through 180 deg; CNATRA P-330 and
// P-354, spins of US Navy trainers; the piloted spin of NASA's GTM_DesignSim example; a light
// trainer's handbook, section 4. Bands without a source are marked common practice.

#include <cmath>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "engine/fly/elements.h"
#include "engine/fly/snap.h"
#include "tests/engine/fly/slow_support.h"

namespace plumbline::fly {
namespace {

using test::evenWorld;
using test::kDegree;
using test::kKnot;
using test::pitched;
using test::plausibleAircraft;
using test::RoutineSetup;
using test::solveText;
using test::standOn;

constexpr double kFoot_m = 0.3048;

const auto kNever = [](double, const StateVector&) { return 1.0; };

// A section, broadside 1.9, no camber, hardly any drag at rest. One number stands for the whole of
// it: the table's own shape leaves 0.17 at most.
TEST(PostStall, LiftAndDragFollowTheSectionDataThrough180Degrees) {
    data::Aircraft aircraft = plausibleAircraft();
    aircraft.aero.cn_plate = 1.9;
    aircraft.aero.cd0 = aircraft.aero.cd_tail_first = 0.05;
    const AeroModel aero(aircraft);
    std::ifstream in(std::string(PLUMBLINE_TEST_DATA) + "/vectors/naca0015_stalled.csv");
    std::string line;
    std::getline(in, line);
    int rows = 0;
    while (std::getline(in, line)) {
        std::stringstream cells(line);
        std::string aoa, cl, cd;
        std::getline(cells, aoa, ',');
        std::getline(cells, cl, ',');
        std::getline(cells, cd, ',');
        const double angle = parseDouble(aoa).value_or(0);
        // Nearer to straight from behind the section carries lift again, which a plate does not.
        if (std::fabs(angle) > 150) continue;
        const Coefficients c = aero.at(angle * kDegree, 0);
        EXPECT_NEAR(c.lift, parseDouble(cl).value_or(0), 0.17) << angle;
        EXPECT_NEAR(c.drag, parseDouble(cd).value_or(0), 0.17) << angle;
        ++rows;
    }
    EXPECT_GT(rows, 40);
}

TEST(PostStall, CoefficientsAreDefinedAndContinuousAllRound) {
    const AeroModel aero(plausibleAircraft());
    const double step = 0.05 * kDegree;
    for (double beta = -90 * kDegree; beta <= 90 * kDegree; beta += 7.5 * kDegree) {
        for (double alpha = -180 * kDegree; alpha < 180 * kDegree; alpha += step) {
            const Coefficients a = aero.at(alpha, beta), b = aero.at(alpha + step, beta);
            for (const auto& [x, y] :
                 {std::pair{a.lift, b.lift}, {a.drag, b.drag}, {a.side, b.side}}) {
                ASSERT_TRUE(std::isfinite(x));
                ASSERT_LT(std::fabs(y - x), 0.02) << alpha << " " << beta;
            }
            ASSERT_GT(a.drag, 0);
        }
        const Coefficients a = aero.at(kPi, beta), b = aero.at(-kPi, beta);
        EXPECT_NEAR(a.lift, b.lift, 1e-9);
        EXPECT_NEAR(a.drag, b.drag, 1e-9);
    }
    // Straight from the side the incidence means nothing.
    EXPECT_NEAR(aero.at(0, 90 * kDegree).drag, aero.at(kPi, 90 * kDegree).drag, 1e-12);
    EXPECT_NEAR(aero.at(0.8, 90 * kDegree).lift, 0, 1e-12);
}

// m g = rho/2 V^2 S CD, nose first and tail first.
TEST(TerminalSpeed, IsReachedNoseFirstAndTailFirst) {
    data::Aircraft aircraft = plausibleAircraft();
    aircraft.power = {};
    aircraft.aero.cd0 = 0.4;
    aircraft.aero.cd_tail_first = 0.9;
    const World world = evenWorld(aircraft);
    for (const auto& [climb, drag] : {std::pair{-90.0, 0.4}, std::pair{90.0, 0.9}}) {
        Flight flight(world, {});
        standOn(flight, pitched(climb * kDegree), climb < 0 ? 10 : 1, 20000);
        flight.run(flight.lawFrom(Form::Held, Shape::Hold), kNever, 60);
        EXPECT_NEAR(flight.joint.air_velocity_S_mps.z,
                    -std::sqrt(2 * 620 * kGravity_mps2 / (1.225 * 10 * drag)), 1e-4);
    }
}

// The fall near its end, at terminal speed: I q' = -k theta - c q, with k = (rho/2) V^2 (S_t a_t l
// + S a m) and c = (rho/2) V S_t a_t l^2, and the path follows by lift and drag.
TEST(Fall, SwingsAsAPendulumOfTheClosedForm) {
    data::Aircraft aircraft = plausibleAircraft();
    aircraft.power = {};
    const double mass = 1e7, speed = 60;  // so heavy that the path stays straight
    aircraft.aero.cd0 = test::dragForTerminal(aircraft, mass, speed, 1.225);
    aircraft.aero.cd_tail_first = aircraft.aero.cd0;
    aircraft.inertia.static_margin_m = 0;
    const World world = evenWorld(aircraft);
    Flight flight(world, {1e-10, 0});
    standOn(flight, pitched(-90 * kDegree), speed, 9000, mass);
    Law law = flight.lawFrom(Form::Held, Shape::Free);
    const double start = 0.5 * kDegree;
    flight.joint.pitch_rad = start;
    const double pressure = 0.5 * 1.225 * speed * speed;
    const data::AircraftInertia& i = aircraft.inertia;
    const double tail = i.tail_area_m2 * i.tail_lift_slope_prad * i.tail_arm_m;
    const double stiff = pressure * tail / i.pitch_inertia_kgm2;
    const double damping = pressure / speed * tail * i.tail_arm_m / (2 * i.pitch_inertia_kgm2);
    const double rate = std::sqrt(stiff - damping * damping);
    for (const double t : {0.2, 0.4, 0.7, 1.1}) {
        Flight swing(world, {1e-10, 0});
        standOn(swing, pitched(-90 * kDegree), speed, 9000, mass);
        swing.joint.pitch_rad = start;
        const Flight::Result r = swing.run(law, kNever, t);
        const double wanted = start * std::exp(-damping * t) *
                              (std::cos(rate * t) + damping / rate * std::sin(rate * t));
        EXPECT_NEAR(r.state[kPitch], wanted, 0.01 * start) << t;
    }
}

// p -6.61, r -2.58 rad/s at 21.34 deg: the rate lies along the path.
TEST(Spin, TurnsAboutThePathAsThePilotedModelDid) {
    const double p = -6.61, q = 0.827, r = -2.58, aoa = 21.34 * kDegree;
    EXPECT_NEAR(std::atan2(r, p) + kPi, aoa, 0.1 * kDegree);
    data::Aircraft aircraft = plausibleAircraft();
    aircraft.power = {};
    const World world = evenWorld(aircraft);
    Flight flight(world, {});
    standOn(flight, pitched(-85 * kDegree), 36, 9000);
    RollProgram roll;
    roll.add(-60 * kPi, std::sqrt(p * p + q * q + r * r), 6, 0);
    flight.run(autorotationLaw(flight, roll, {0, 1, 1e6, 1, 0, aoa, 0}, 0.5), kNever, 12);
    EXPECT_NEAR(flight.joint.rate_B_radps.x, p, 0.05 * 7.1);
    EXPECT_NEAR(flight.joint.rate_B_radps.z, r, 0.05 * 7.1);
}

// A spin's numbers between the fourth and the eighth turn, and its whole loss.
struct SpinNumbers {
    double sink_mps, per_turn_m, rate_radps, loss_m;
};
SpinNumbers spinOf(const data::Aircraft& aircraft, double turns, const char* recovery) {
    RoutineSetup setup;
    setup.height_m = 2400;
    setup.speed_mps = 45;
    const Solution s = solveText(
        aircraft, "power idle\nspin left " + formatDouble(turns) + " turns\n" + recovery, setup);
    const path::Path p = s.samplePath(50);
    SpinNumbers n{0, 0, 0, 0};
    double angle = 0, from = 0, to = 0, lowest = 1e9, seconds = 0;
    for (std::size_t i = 1; i < p.samples.size(); ++i) {
        const path::Sample& a = p.samples[i];
        const double dt = a.time_s - p.samples[i - 1].time_s;
        const double about_path = glm::dot(a.rate_B_radps, unrotate(a.q_SB, a.velocity_S_mps)) /
                                  std::max(glm::length(a.velocity_S_mps), 1.0);
        if (std::fabs(a.aoa_rad) > 25 * kDegree) angle += std::fabs(about_path) * dt;
        if (angle > 4 * 2 * kPi && from == 0) from = a.position_S_m.z;
        if (angle > 4 * 2 * kPi && angle < 6 * 2 * kPi) {
            to = a.position_S_m.z;
            seconds += dt;
        }
        lowest = std::min(lowest, a.position_S_m.z);
    }
    if (seconds > 0) n = {(from - to) / seconds, (from - to) / 2, 4 * kPi / seconds, 0};
    n.loss_m = 2400 - lowest;
    return n;
}

// CNATRA P-330, P-354: 120 to 150 deg/s, 9,000 to 12,000 ft/min, 360 to 600 ft a turn. A trainer's
// size and an incidence between 40 and 50 deg are chosen; how fast it sinks follows.
TEST(Spin, OfATrainerSinksAsPublished) {
    data::Aircraft trainer = plausibleAircraft();
    trainer.mass = {1750, 90, 300, 780};
    trainer.geometry.wing_area_m2 = 16.7;
    trainer.geometry.span_m = 10.2;
    trainer.autorotation.spin_rate_radps = 135 * kDegree;
    trainer.autorotation.spin_onset_s = 2.5;
    const SpinNumbers n = spinOf(trainer, 8, "line down 100 m");
    EXPECT_GT(n.rate_radps, 120 * kDegree);
    EXPECT_LT(n.rate_radps, 150 * kDegree);
    EXPECT_GT(n.sink_mps, 9000 * kFoot_m / 60);
    EXPECT_LT(n.sink_mps, 12000 * kFoot_m / 60);
    EXPECT_GT(n.per_turn_m, 360 * kFoot_m);
    EXPECT_LT(n.per_turn_m, 600 * kFoot_m);
}

// A light trainer's handbook: one turn and the recovery at least 1,000 ft, six turns somewhat more
// than twice that. Recovered by its practice: out of the dive at under 2.5 g.
TEST(Spin, OfSixTurnsLosesSomewhatMoreThanTwiceThatOfOne) {
    data::Aircraft light = plausibleAircraft();
    light.mass = {560, 150, 80, 720};
    light.geometry.wing_area_m2 = 14.9;
    light.geometry.span_m = 10.2;
    light.aero.cl_max = 1.5;
    light.power.max_power_w = 82e3;
    light.autorotation.spin_rate_radps = 190 * kDegree;
    light.autorotation.spin_onset_s = 2.5;
    const char* recovery = "line down 40 m\npull to level at 2.2 g";
    const double one = spinOf(light, 1, recovery).loss_m, six = spinOf(light, 6, recovery).loss_m;
    EXPECT_GT(six / one, 2);
    EXPECT_LT(six / one, 2.5);
    EXPECT_GT(one, 1000 * kFoot_m);
    EXPECT_LT(one, 1500 * kFoot_m);
}

// R = 2 m / (rho S CLmax), whatever the speed: what the wing alone turns round, gravity and thrust
// left out. The whole loop differs by what these two do, which about cancels.
TEST(TightestLoop, IsAsSmallAsTheWingGivesWhateverTheSpeed) {
    for (const double knots : {90.0, 105.0, 120.0}) {
        RoutineSetup setup;
        setup.speed_mps = knots * kKnot;
        const Solution s =
            solveText(plausibleAircraft(), "pull 360 deg tightest\nline level 20 m", setup);
        EXPECT_EQ(test::refusals(s), "") << knots;
        double low = 1e9, high = -1e9;
        for (const path::Sample& sample : s.samplePath(50).samples) {
            low = std::min(low, sample.position_S_m.z);
            high = std::max(high, sample.position_S_m.z);
        }
        const double density = 1.18;  // ISA at 380 m
        const double diameter = 4 * 627 / (density * 10 * 1.3);
        EXPECT_NEAR(high - low, diameter, 0.08 * diameter) << knots;
    }
}

// Common practice, no source: a slide of 180 to 240 m ends near or above 40 m/s tail first; a good
// hammerhead turns within one wingspan.
TEST(CommonPractice, SlidesAndHammerheads) {
    RoutineSetup setup;
    setup.height_m = 600;
    for (const double length : {180.0, 210.0, 240.0}) {
        const path::Path p =
            solveText(plausibleAircraft(),
                      "pull to up at 5 g\nline up until 60 kt\npower idle\nline up "
                      "until 20 kt\nslide " +
                          formatDouble(length) + " m",
                      setup)
                .samplePath(20);
        EXPECT_GT(p.samples.back().airspeed_mps, 38) << length;
        EXPECT_LT(p.samples.back().airspeed_mps, 60) << length;
    }
    for (const char* power : {"power idle", "power 25 %", "power 50 %"}) {
        const Solution s = solveText(
            plausibleAircraft(),
            std::string("pull to up at 5 g\nline up until 25 kt\npivot left ") + power, setup);
        ASSERT_NE(test::noteOf(s, "pivot"), nullptr);
        EXPECT_LT(parseDouble(test::noteOf(s, "pivot")->value.substr(0, 3)).value_or(9), 2)
            << power;
    }
}

// Every slide that is flown settles nose down, both ways.
TEST(CommonPractice, SlidesOf50To300MetresEndSettledBothWays) {
    RoutineSetup setup;
    setup.height_m = 900;
    for (int length = 50; length <= 300; length += 50)
        for (const char* way : {"wheels-down", "wheels-up"}) {
            const Solution s =
                solveText(plausibleAircraft(),
                          "pull to up at 5 g\nline up until 60 kt\npower idle\nline "
                          "up until 20 kt\nslide " +
                              std::to_string(length) + " m\nfall " + way + "\nline down 60 m",
                          setup);
            EXPECT_EQ(test::refusals(s), "") << length << way;
            const path::Path p = s.samplePath(20);
            EXPECT_LT(rotate(p.samples.back().q_SB, Vec3(1, 0, 0)).z, -0.9999) << length << way;
            // Out of a pull from flight to crowd right: wheels down leaves the canopy behind it.
            const double canopy = rotate(p.samples.back().q_SB, Vec3(0, 0, -1)).x;
            EXPECT_GT(std::fabs(canopy), 0.9999) << length << way;
        }
}

}  // namespace
}  // namespace plumbline::fly

// Snaps, spins, torque rolls, tumbles, pivots, slides and falls of random aircraft with random
// numbers: finite, without a step anywhere, the same twice, mirrored.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "tests/engine/fly/routine_support.h"
#include "tests/engine/fly/slow_support.h"
#include "tests/property/random_routine.h"

namespace plumbline {
namespace {

using fly::test::kDegree;
using fly::test::kKnot;
using test::Random;

constexpr std::uint64_t kTrials = 60;

struct Trial {
    data::Aircraft aircraft = fly::test::plausibleAircraft();
    std::string text;
    fly::test::RoutineSetup setup;
    /// How exactly its mirror image must be flown. What goes through the stall magnifies the last
    /// bits, a tumble each half turn: to far below the error of the solution.
    double mirror_m = 1e-9;
};

Trial trialOf(std::uint64_t seed) {
    Random random(seed);
    Trial t;
    const auto whole = [&](double low, double high) {
        return formatDouble(std::round(random.between(low, high)));
    };
    const auto side = [&] { return random.chance(0.5) ? "left" : "right"; };
    const auto vary = [&](double& value) { value *= random.between(0.7, 1.4); };
    data::AircraftAutorotation& a = t.aircraft.autorotation;
    for (double* value : {&a.snap_incidence_rad, &a.negative_snap_incidence_rad, &a.snap_helix,
                          &a.snap_rate_radps, &a.spin_incidence_rad, &a.inverted_spin_incidence_rad,
                          &a.spin_rate_radps, &a.spin_onset_s})
        vary(*value);
    data::AircraftRotation& r = t.aircraft.rotation;
    for (double* value : {&r.roll_inertia_kgm2, &r.roll_damping, &r.net_torque_frac,
                          &r.propeller_inertia_kgm2, &r.fin_area_m2, &r.control_moment_nm})
        vary(*value);
    for (double* value :
         {&t.aircraft.inertia.pitch_inertia_kgm2, &t.aircraft.inertia.tail_area_m2,
          &t.aircraft.aero.cd_tail_first, &t.aircraft.aero.cn_plate, &t.aircraft.power.max_power_w})
        vary(*value);
    t.aircraft.aero.zero_lift_aoa_rad = random.chance(0.3) ? random.between(-2, 1) * kDegree : 0;
    t.setup.height_m = 1500;
    t.setup.speed_mps = 75;
    static const char* const kTurns[] = {"1 turn", "1 1/4 turns", "2 1/2 turns", "4 turns"};
    static const char* const kCounts[] = {"1/4 ", "1/2 ", "1 ", "1 1/2 ", "2 "};
    const std::string up = "pull to up at 4 g\nline up until ";
    switch (seed % 6) {
        case 0:
            t.setup.speed_mps = 58;
            t.text = std::string("line level 450 m with ") + kCounts[random.below(5)] +
                     (random.chance(0.5) ? "snap " : "negative snap ") + side() +
                     "\nline level 150 m";
            break;
        case 1:
            t.setup.speed_mps = 38;
            t.mirror_m = 1e-8;
            t.text = std::string("power idle\nspin ") + side() + " " + kTurns[random.below(4)] +
                     "\nline down 100 m\npower full\npull to level at 3 g";
            break;
        case 2:
            t.text = up + whole(6, 20) + " kt\ntorque-roll " +
                     (t.aircraft.power.clockwise_from_cockpit ? "left " : "right ") +
                     kCounts[random.below(4)] + "rolls";
            break;
        case 3:
            t.text = up + whole(50, 75) + " kt\ntumble " +
                     (random.chance(0.5) ? (random.chance(0.5) ? "forward" : "backward") : side()) +
                     " 1 1/2 turns\nline down 100 m";
            t.mirror_m = 1e-7;
            break;
        case 4:
            t.text = up + whole(18, 30) + " kt\npivot " + side() + " power " + whole(0, 100) +
                     " %" + (random.chance(0.5) ? " over " + whole(2, 10) + " deg" : "") +
                     "\nline down 150 m\npull to level at 4 g";
            break;
        default:
            t.mirror_m = 1e-8;
            t.text = up + "60 kt\npower idle\nline up until 20 kt\nslide " + whole(50, 300) +
                     " m\nfall " + (random.chance(0.5) ? "wheels-down" : "wheels-up") + " tilt " +
                     whole(3, 10) + " deg\nline down 60 m\npower full\npull to level at 4 g";
            break;
    }
    return t;
}

std::string nameOf(std::uint64_t seed, const Trial& t) {
    return "seed " + std::to_string(seed) + "\n" + t.text;
}

TEST(SlowFlight, IsFiniteWithoutAStepAnywhereAndTheSameTwice) {
    for (std::uint64_t seed = 0; seed < kTrials; ++seed) {
        const Trial t = trialOf(seed);
        const fly::Solution s = fly::test::solveText(t.aircraft, t.text, t.setup);
        const path::Path p = s.samplePath(20);
        for (const path::Sample& sample : p.samples)
            for (const double number : fly::test::numbersOf(sample))
                ASSERT_TRUE(std::isfinite(number)) << nameOf(seed, t);
        // Snaps may be sharper than a pilot's rolls are; a step would still be a hundred times
        // that.
        fly::test::expectSmooth(s, nameOf(seed, t), 250, 250, 1e-2);
        if (::testing::Test::HasFatalFailure()) return;
        fly::test::expectSamePath(s, fly::test::solveText(t.aircraft, t.text, t.setup));
    }
}

TEST(SlowFlight, MirroredFliesTheMirrorImage) {
    for (std::uint64_t seed = 0; seed < kTrials; ++seed) {
        const Trial t = trialOf(seed);
        EXPECT_LT(fly::test::worstMirrorMiss(t.aircraft, t.text, t.setup), t.mirror_m)
            << nameOf(seed, t);
    }
}

TEST(SlowFlight, IsMostlyFlownAsWritten) {
    int flown = 0;
    for (std::uint64_t seed = 0; seed < kTrials; ++seed) {
        const Trial t = trialOf(seed);
        flown += fly::test::refusals(fly::test::solveText(t.aircraft, t.text, t.setup)).empty();
    }
    EXPECT_GT(flown, static_cast<int>(kTrials) * 2 / 3);
}

}  // namespace
}  // namespace plumbline

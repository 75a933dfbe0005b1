// Snaps: rolls flown in the stall.

#include <cmath>

#include <gtest/gtest.h>

#include "tests/engine/fly/slow_support.h"

namespace plumbline::fly {
namespace {

using test::kDegree;
using test::kKnot;
using test::plausibleAircraft;
using test::RoutineSetup;
using test::solveText;

RoutineSetup at(double speed_kt) {
    RoutineSetup setup;
    setup.speed_mps = speed_kt * kKnot;
    return setup;
}

Vec3 axisOf(const path::Sample& s, const Vec3& axis_B) { return rotate(s.q_SB, axis_B); }

TEST(Snap, TurnsAsFarAsItSaysOnAnyLine) {
    struct Case {
        const char *before, *line;
        Vec3 canopy;  // at the end, site axes
    };
    const double r = std::sqrt(0.5);
    for (const Case& c : {
             Case{"", "line level 600 m with 1 snap left", {0, 0, 1}},
             Case{"", "line level 600 m with 1/2 snap right", {0, 0, -1}},
             Case{"", "line level 600 m with 1 1/2 negative snaps left", {0, 0, -1}},
             Case{"", "line level 700 m with 2 snaps left", {0, 0, 1}},
             Case{"pull to 45 deg up at 4 g\n",
                  "line 45 deg up 220 m with 1/2 snap left",
                  {r, 0, -r}},
             Case{"pull to up at 6 g\n", "line up 230 m with 1/2 negative snap right", {1, 0, 0}},
             Case{"pull to up at 6 g\n", "line up 230 m with 1 snap left", {-1, 0, 0}},
         }) {
        const Solution s = solveText(plausibleAircraft(), c.before + std::string(c.line), at(120));
        EXPECT_EQ(test::refusals(s), "") << c.line;
        const path::Sample end = s.samplePath(20).samples.back();
        EXPECT_GT(glm::dot(axisOf(end, Vec3(0, 0, -1)), c.canopy), std::cos(6 * kDegree)) << c.line;
    }
}

TEST(Snap, RollsAndSnapsFollowOneAnother) {
    const Solution s = solveText(plausibleAircraft(),
                                 "line level 900 m with 1/2 roll left then 1/2 snap right then "
                                 "1 roll left then 1/2 negative snap left",
                                 at(120));
    EXPECT_EQ(test::refusals(s), "");
    const path::Sample end = s.samplePath(20).samples.back();
    EXPECT_LT(axisOf(end, Vec3(0, 0, -1)).z, -0.99);
    test::expectSmooth(s, "rolls and snaps");
}

// The aircraft turns about its path: rate and velocity lie along one line in body axes, the angle
// between them and the nose is the incidence of the file.
TEST(Snap, TurnsAboutThePathAtTheIncidenceOfTheFile) {
    const data::Aircraft aircraft = plausibleAircraft();
    const path::Path p =
        solveText(aircraft, "line level 600 m with 2 snaps left", at(120)).samplePath(400);
    double fastest = 0;
    path::Sample middle;
    for (const path::Sample& s : p.samples)
        if (glm::length(s.rate_B_radps) > fastest) {
            fastest = glm::length(s.rate_B_radps);
            middle = s;
        }
    EXPECT_NEAR(middle.aoa_rad, aircraft.autorotation.snap_incidence_rad, 1e-6);
    const double about_path =
        glm::dot(middle.rate_B_radps, unrotate(middle.q_SB, middle.velocity_S_mps)) /
        glm::length(middle.velocity_S_mps);
    // Rate times span over twice the speed, of the speed at the slower end of it: a few knots less.
    const double here =
        aircraft.autorotation.snap_helix * 2 * middle.airspeed_mps / aircraft.geometry.span_m;
    EXPECT_NEAR(about_path, -here, 0.06 * here);
}

TEST(Snap, CostsSpeedAndNotesWhatItLeaves) {
    const Solution with =
        solveText(plausibleAircraft(), "line level 600 m with 2 snaps left", at(120));
    const Solution without =
        solveText(plausibleAircraft(), "line level 600 m with 2 rolls left", at(120));
    EXPECT_LT(with.samplePath(10).samples.back().airspeed_mps,
              without.samplePath(10).samples.back().airspeed_mps - 3);
    ASSERT_NE(test::noteOf(with, "snap"), nullptr);
    EXPECT_NE(test::noteOf(with, "snap")->value.find("off its line"), std::string::npos);
}

// No lift but the prescribed incidence's, no drag, no gravity's work on a level path: a wing that
// gives the same force all round the turn ends where it went in, but for the way in and out.
TEST(Snap, StandsInTheMiddleOfItsLine) {
    for (const char* text :
         {"line level 700 m with 1 snap left", "line level 800 m with 2 negative snaps right"}) {
        const path::Path p = solveText(plausibleAircraft(), text, at(120)).samplePath(400);
        double begin = 1e9, end = 0;
        for (const path::Sample& s : p.samples) {
            if (std::fabs(s.rate_B_radps.x) < 2) continue;
            begin = std::min(begin, s.position_S_m.x);
            end = s.position_S_m.x;
        }
        const double before = begin - p.samples.front().position_S_m.x;
        const double after = p.samples.back().position_S_m.x - end;
        EXPECT_NEAR(before, after, 6) << text;
    }
}

TEST(Snap, PlacesAreThoseOfRolls) {
    const path::Path p =
        solveText(plausibleAircraft(), "line level 700 m with 1 snap left after 200 m", at(120))
            .samplePath(400);
    for (const path::Sample& s : p.samples)
        if (std::fabs(s.rate_B_radps.x) > 0.05) {
            EXPECT_NEAR(s.position_S_m.x - p.samples.front().position_S_m.x, 200, 5);
            return;
        }
    FAIL() << "it does not snap";
}

TEST(Snap, IsSmoothAtEveryJoint) {
    for (const char* text :
         {"line level 600 m with 1 snap left", "line level 600 m with 1 1/2 negative snaps left",
          "pull to up at 6 g\nline up 230 m with 3/4 snap right\nline up until 40 kt",
          "line level 600 m with 1/4 roll left then 1 snap right",
          "pull to 45 deg up at 4 g\nline 45 deg up 220 m with 1 snap left\npush to level at 1 "
          "g"}) {
        test::expectSmooth(solveText(plausibleAircraft(), text, at(130)), text);
    }
}

TEST(Snap, MirroredTextFliesTheMirrorImage) {
    for (const char* text :
         {"line level 600 m with 1 snap left", "line level 600 m with 1 1/2 negative snaps left",
          "pull to up at 4 g\nline up 230 m with 3/4 snap right\nline up until 40 kt"})
        EXPECT_LT(test::worstMirrorMiss(plausibleAircraft(), text, at(130)), 1e-9) << text;
}

TEST(Snap, PowerTheoremHolds) {
    RoutineSetup setup = at(125);
    setup.options.relative_tolerance = 1e-12;
    setup.weather.wind = {{0, 200 * kDegree, 5}, {400, 230 * kDegree, 8}};
    EXPECT_LT(
        test::worstPowerMiss(
            solveText(plausibleAircraft(), "line level 600 m with 1 1/2 snaps left", setup), 0.001),
        1e-6);
}

TEST(Snap, TooFastOrNotKnownIsFlownAsARoll) {
    const Solution fast =
        solveText(plausibleAircraft(), "line level 600 m with 1 snap left", at(150));
    EXPECT_TRUE(test::saidNotFlyable(fast, "too fast to snap"));
    EXPECT_LT(std::fabs(fast.samplePath(10).samples.back().sideslip_rad), 0.01);
    data::Aircraft plain = plausibleAircraft();
    plain.autorotation = {};
    const Solution unknown = solveText(plain, "line level 600 m with 1 snap left", at(120));
    EXPECT_TRUE(test::saidNotFlyable(unknown, "[autorotation]"));
    EXPECT_GT(axisOf(unknown.samplePath(10).samples.back(), Vec3(0, 0, -1)).z, 0.99);
    const Solution slow = solveText(
        plausibleAircraft(),
        "pull to up at 6 g\nline up until 60 kt\nline up until 25 kt with 1/2 snap left at end",
        at(130));
    EXPECT_TRUE(test::saidNotFlyable(slow, "too slow"));
}

// Out of a slide's fall straight into a snap.
TEST(Snap, FollowsTheRecoveryOfASlide) {
    RoutineSetup setup = at(155);
    setup.height_m = 500;
    const Solution s = solveText(plausibleAircraft(), R"(
        pull to up at 5.8 g
        line up until 60 kt
        power idle
        line up until 20 kt
        slide 80 m
        fall wheels-down
        line down 260 m with 1 snap left at start
        power full
        pull to level at 6 g)",
                                 setup);
    EXPECT_EQ(test::refusals(s), "");
    test::expectSmooth(s, "slide and snap");
}

}  // namespace
}  // namespace plumbline::fly

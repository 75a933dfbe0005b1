// Figures as flown: joints, placement, symmetry, what cannot be flown.

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly {
namespace {

using test::kDegree;
using test::kKnot;
using test::plausibleAircraft;
using test::RoutineSetup;
using test::solveText;

const char* const kShow = R"(
line level until x -300 m
pull to up at 6 g
line up until 25 kt with 1/4 roll left
pivot left power 25 %
line down until height 330 m with 1/4 roll right
pull to level at 6 g
line level 330 m with 4 of 4 points right
pull to 45 deg up at 4 g
line 45 deg up 60 m
push to level at 2 g
line level 60 m
turn right 90 deg bank 65 deg
pull 225 deg radius 118 m
line 45 deg down 130 m with 1/2 roll left
pull to level at 5 g
)";

bool hasNote(const Solution& s, SolveNote::Kind kind, const std::string& word) {
    return std::any_of(s.notes().begin(), s.notes().end(), [&](const SolveNote& n) {
        return n.kind == kind &&
               (n.what + n.value + n.limit + n.remedy).find(word) != std::string::npos;
    });
}

Vec3 nose(const path::Sample& s) { return rotate(s.q_SB, Vec3(1, 0, 0)); }

TEST(Figures, PositionVelocityAttitudeAndRateAreContinuousAtEveryJoint) {
    const Solution s = solveText(plausibleAircraft(), kShow);
    const path::Path p = s.samplePath(20);
    constexpr double e = 1e-6;
    for (const path::Element& element : p.elements) {
        if (element.start_s < e || element.stop_s <= element.start_s) continue;
        const auto two = s.sampleTimes({element.start_s - e, element.start_s + e});
        const double dt = 2 * e;
        EXPECT_LT(
            glm::length(two[1].position_S_m - two[0].position_S_m - dt * two[0].velocity_S_mps),
            1e-8)
            << element.label;
        EXPECT_LT(glm::length(two[1].velocity_S_mps - two[0].velocity_S_mps), 100 * dt + 1e-7)
            << element.label;
        const Vec3 turn = vectorFromRotation(glm::conjugate(two[0].q_SB) * two[1].q_SB);
        EXPECT_LT(glm::length(turn - dt * two[0].rate_B_radps), 1e-5) << element.label;
        EXPECT_LT(glm::length(two[1].rate_B_radps - two[0].rate_B_radps), 0.06) << element.label;
    }
}

TEST(Figures, NoseComesUpToVerticalOnceAndStays) {
    const Solution s =
        solveText(plausibleAircraft(), "line level 300 m\npull to up at 6 g\nline up 150 m");
    const path::Path p = s.samplePath(200);
    double last = 0;
    for (const path::Sample& sample : p.samples) {
        const double pitch = std::atan2(nose(sample).z, nose(sample).x);
        if (sample.time_s > p.elements[1].start_s) {
            EXPECT_GE(pitch, last - 1e-6) << sample.time_s;  // never back
            EXPECT_LE(pitch, 90 * kDegree + 1e-6);           // never over
        }
        last = pitch;
    }
    EXPECT_NEAR(last, 90 * kDegree, 1e-9);
    // The meter reads the load asked, and no more.
    double peak = 0;
    for (const path::Sample& sample : p.samples)
        peak = std::max(peak, loadFactors(sample.specific_force_B_mps2).normal_g);
    EXPECT_NEAR(peak, 6, 2e-3);
}

// Onset of 12 g/s: the load never grows faster.
TEST(Figures, LoadGrowsNoFasterThanThePilotPulls) {
    const path::Path p =
        solveText(plausibleAircraft(), "line level 100 m\npull to up at 6 g").samplePath(100);
    double fastest = 0;
    for (std::size_t i = 1; i < p.samples.size(); ++i) {
        const double dt = p.samples[i].time_s - p.samples[i - 1].time_s;
        if (dt < 5e-3) continue;
        fastest = std::max(fastest, (loadFactors(p.samples[i].specific_force_B_mps2).normal_g -
                                     loadFactors(p.samples[i - 1].specific_force_B_mps2).normal_g) /
                                        dt);
    }
    EXPECT_LT(fastest, 12.05);
    EXPECT_GT(fastest, 10);
}

// A corner of given radius keeps the tangent length of the plain circle: the upline stands R beyond
// where the arc began.
TEST(Figures, RadiusIsGeometry) {
    const Solution s = solveText(
        plausibleAircraft(), "line level until x -500 m\npull to up radius 140 m\nline up 120 m");
    const path::Path p = s.samplePath(50);
    EXPECT_NEAR(p.samples.back().position_S_m.x, -500 + 140,
                0.4);  // what lift still does after the joint
    EXPECT_NEAR(path::sampleAt(p, p.elements[2].start_s).velocity_S_mps.x, 0, 0.6);
}

TEST(Figures, RollSitsInTheMiddleOfItsLine) {
    for (const char* line :
         {"line up 240 m with 1/2 roll left", "line 45 deg up 300 m with 1 roll right",
          "line level 500 m with 4 of 4 points left"}) {
        const std::string text = std::string("line level 100 m\n") +
                                 (line[5] == 'u'   ? "pull to up at 6 g\n"
                                  : line[5] == '4' ? "pull to 45 deg up at 5 g\n"
                                                   : "") +
                                 line;
        const Solution s = solveText(plausibleAircraft(), text);
        const path::Path p = s.samplePath(400);
        // In text order: a level line joins the one before, so the whole line is both.
        const double start = line[5] == 'l' ? 0 : p.elements[2].start_s, stop = p.duration_s();
        double begin = -1, end = -1;
        for (const path::Sample& sample : p.samples) {
            if (sample.time_s < start + 0.25) continue;
            if (std::fabs(sample.rate_B_radps.x) > 0.05) {
                if (begin < 0) begin = sample.time_s;
                end = sample.time_s;
            }
        }
        ASSERT_GT(begin, 0) << line;
        const auto at = [&](double t) { return path::sampleAt(p, t).position_S_m; };
        const double before = glm::length(at(begin) - at(start)),
                     after = glm::length(at(stop) - at(end));
        EXPECT_NEAR(before, after, 1.5)
            << line;  // the threshold above is crossed within a metre of the roll's ends
    }
}

TEST(Figures, ConditionsAreMetToTheMillimetre) {
    const path::Path p =
        solveText(plausibleAircraft(),
                  "line level until x -150 m\npull to 45 deg up at 5 g\nline 45 deg up until "
                  "height 520 m\npush to level at 1 g\nline level until 70 kt or 9 s")
            .samplePath(50);
    EXPECT_NEAR(path::sampleAt(p, p.elements[0].stop_s).position_S_m.x, -150, 1e-6);
    EXPECT_NEAR(path::sampleAt(p, p.elements[2].stop_s).position_S_m.z, 520, 1e-6);
    EXPECT_NEAR(p.elements[4].stop_s - p.elements[4].start_s, 9, 1e-9);
}

TEST(Figures, HeadingAndBankComeOutExact) {
    const path::Path p = solveText(plausibleAircraft(),
                                   "line level 100 m\nturn left 135 deg bank 70 deg\nline level "
                                   "100 m\nturn right 300 deg at 3 g\nline level 150 m")
                             .samplePath(50);
    const auto heading = [&](double t) {
        const Vec3 v = path::sampleAt(p, t).velocity_S_mps;
        return std::atan2(v.y, v.x);
    };
    EXPECT_NEAR(std::remainder(heading(p.elements[2].stop_s - 1e-6) - 135 * kDegree, 2 * kPi), 0,
                1e-5);
    EXPECT_NEAR(std::remainder(heading(p.duration_s()) - (135 - 300) * kDegree, 2 * kPi), 0, 1e-5);
    EXPECT_NEAR(rotate(p.samples.back().q_SB, Vec3(0, 1, 0)).z, 0, 1e-6);
}

TEST(Figures, RepositioningArrivesWhereAsked) {
    RoutineSetup setup;
    setup.weather.wind = {{0, 250 * kDegree, 4}, {500, 280 * kDegree, 9}};
    const Solution s = solveText(plausibleAircraft(),
                                 "line level 200 m\nreposition to x 1300 m y 60 m height 420 m "
                                 "heading crowd-left speed 130 kt",
                                 setup);
    const path::Sample end = s.samplePath(10).samples.back();
    EXPECT_NEAR(end.position_S_m.x, 1300, 0.05);
    EXPECT_NEAR(end.position_S_m.y, 60, 0.05);
    EXPECT_NEAR(end.position_S_m.z, 420, 0.05);
    EXPECT_NEAR(end.airspeed_mps, 130 * kKnot, 0.02);
    EXPECT_LT(nose(end).x, -0.99);
}

// d(v^2/2 + g h)/dt = F v / m with the velocity over the ground, to 1e-6 of g V, in wind that grows
// with height: over thousandths of a second the gain of energy against the power by Gauss-Legendre
// quadrature of three points.
TEST(Figures, PowerTheoremHoldsAlongTheWholeFlight) {
    RoutineSetup setup;
    setup.weather.wind = {{0, 250 * kDegree, 4}, {500, 280 * kDegree, 9}};
    setup.options.relative_tolerance =
        1e-11;  // the interpolant's own error must not hide the equations'
    const Solution s = solveText(plausibleAircraft(), kShow, setup);
    EXPECT_LT(test::worstPowerMiss(s, 0.001), 1e-6);
}

std::string swapSides(std::string text) {
    const auto swap = [&](const std::string& a, const std::string& b) {
        std::string out;
        for (std::size_t i = 0; i < text.size();) {
            if (text.compare(i, a.size(), a) == 0) {
                out += b;
                i += a.size();
            } else if (text.compare(i, b.size(), b) == 0) {
                out += a;
                i += b.size();
            } else {
                out += text[i++];
            }
        }
        text = out;
    };
    swap("left", "right");
    swap("x -", "x ");
    return text;
}

TEST(Figures, MirroredTextFliesTheMirrorImageInCalmAir) {
    RoutineSetup right, left;
    left.x_m = -right.x_m;
    left.crowd_right = false;
    const path::Path a = solveText(plausibleAircraft(), kShow, right).samplePath(20);
    const path::Path b = solveText(plausibleAircraft(), swapSides(kShow), left).samplePath(20);
    ASSERT_EQ(a.samples.size(), b.samples.size());
    double worst = 0;
    for (std::size_t i = 0; i < a.samples.size(); ++i) {
        Vec3 mirrored = b.samples[i].position_S_m;
        mirrored.x = -mirrored.x;
        worst = std::max(worst, glm::length(mirrored - a.samples[i].position_S_m));
        Vec3 nose_b = nose(b.samples[i]);
        nose_b.x = -nose_b.x;
        worst = std::max(worst, glm::length(nose_b - nose(a.samples[i])));
    }
    EXPECT_LT(worst, 1e-9);
}

// Turning the site under the wind, both by the same angle, changes nothing in site axes.
TEST(Figures, RotatedSiteAndWindGiveTheSamePath) {
    RoutineSetup here, there;
    here.weather.wind = {{0, 200 * kDegree, 5}, {400, 230 * kDegree, 8}};
    there = here;
    there.bearing_rad = 70 * kDegree;
    for (data::WindLayer& layer : there.weather.wind) layer.from_rad += 70 * kDegree;
    const path::Path a = solveText(plausibleAircraft(), kShow, here).samplePath(20);
    const path::Path b = solveText(plausibleAircraft(), kShow, there).samplePath(20);
    ASSERT_EQ(a.samples.size(), b.samples.size());
    for (std::size_t i = 0; i < a.samples.size(); i += 10)
        EXPECT_LT(glm::length(a.samples[i].position_S_m - b.samples[i].position_S_m), 1e-6);
}

// Flying the other way about: half a turn of the whole show about show centre.
TEST(Figures, HalfATurnOfTheShowGivesTheSamePathTurned) {
    RoutineSetup there;
    there.x_m = 900;
    there.crowd_right = false;
    std::string text = kShow;
    text.replace(text.find("x -300"), 6, "x 300");
    const path::Path a = solveText(plausibleAircraft(), kShow).samplePath(20);
    const path::Path b = solveText(plausibleAircraft(), text, there).samplePath(20);
    ASSERT_EQ(a.samples.size(), b.samples.size());
    for (std::size_t i = 0; i < a.samples.size(); i += 10) {
        const Vec3& p = b.samples[i].position_S_m;
        EXPECT_LT(glm::length(a.samples[i].position_S_m - Vec3(-p.x, -p.y, p.z)), 1e-8);
    }
}

TEST(Figures, TighterToleranceConvergesTowardsOnePath) {
    RoutineSetup setup;
    const auto end = [&](double relative) {
        setup.options.relative_tolerance = relative;
        return solveText(plausibleAircraft(),
                         "line level 100 m\npull 360 deg radius 120 m\nline level 200 m", setup)
            .samplePath(10)
            .samples.back()
            .position_S_m;
    };
    const Vec3 reference = end(1e-12);
    const double rough = glm::length(end(1e-6) - reference),
                 usual = glm::length(end(1e-8) - reference);
    EXPECT_LT(usual, 1e-4);
    EXPECT_LT(usual, 0.2 * rough);
}

TEST(Figures, SameInputSameBytes) {
    const path::Path a = solveText(plausibleAircraft(), kShow).samplePath(50),
                     b = solveText(plausibleAircraft(), kShow).samplePath(50);
    ASSERT_EQ(a.samples.size(), b.samples.size());
    for (std::size_t i = 0; i < a.samples.size(); ++i)
        ASSERT_EQ(a.samples[i].position_S_m, b.samples[i].position_S_m);
}

// Slide, fall and pivot in the bands of the trade (common practice, no source): a slide of 180-240
// m ends near or above 40 m/s tail first; a good pivot stays within one wingspan; a slide settles
// nose down.
TEST(Figures, SlideAndPivotAreInTheUsualBands) {
    RoutineSetup high;
    high.height_m = 400;
    const Solution slide = solveText(plausibleAircraft(),
                                     "pull to up at 6 g\nline up until 40 kt\nslide 200 m\nfall "
                                     "wheels-down\nline down 60 m\npull to level at 6 g",
                                     high);
    const path::Path p = slide.samplePath(50);
    const path::Sample end = path::sampleAt(p, p.elements[2].stop_s - 1e-6);
    EXPECT_GT(end.airspeed_mps, 38);
    EXPECT_LT(end.airspeed_mps, 60);
    EXPECT_GT(std::fabs(end.aoa_rad), 179 * kDegree);
    EXPECT_LT(nose(path::sampleAt(p, p.elements[3].stop_s)).z, -0.999);
    EXPECT_TRUE(hasNote(slide, SolveNote::Kind::Information, "200 m long"));
    // Wheels-down passes the horizon upright, wheels-up inverted.
    for (const bool down : {true, false}) {
        const path::Path q =
            solveText(
                plausibleAircraft(),
                std::string("pull to up at 6 g\nline up until 40 kt\nslide 150 m\nfall wheels-") +
                    (down ? "down" : "up"),
                high)
                .samplePath(100);
        for (const path::Sample& s : q.samples)
            if (s.time_s > q.elements[3].start_s + 0.7 && std::fabs(nose(s).z) < 0.1) {
                const double canopy_up = -rotate(s.q_SB, Vec3(0, 0, 1)).z;
                EXPECT_GT(down ? canopy_up : -canopy_up, 0.9);
            }
    }
    const path::Path pivot =
        solveText(plausibleAircraft(),
                  "pull to up at 6 g\nline up until 25 kt\npivot left power 25 %", high)
            .samplePath(50);
    const Vec3 moved = path::sampleAt(pivot, pivot.elements[2].stop_s).position_S_m -
                       path::sampleAt(pivot, pivot.elements[2].start_s).position_S_m;
    EXPECT_LT(std::hypot(moved.x, moved.y), 7.6);
    EXPECT_GT(std::hypot(moved.x, moved.y), 0.5);
}

struct Refusal {
    const char* text;
    SolveNote::Kind kind;
    const char* word;
};
class Refused : public testing::TestWithParam<Refusal> {};

TEST_P(Refused, IsNotedWithItsReason) {
    const Solution s = solveText(plausibleAircraft(), GetParam().text);
    EXPECT_TRUE(hasNote(s, GetParam().kind, GetParam().word)) << GetParam().text;
    EXPECT_GE(s.duration_s(), 0);
    EXPECT_LT(s.duration_s(), 600);
}

INSTANTIATE_TEST_SUITE_P(
    Figures, Refused,
    testing::Values(
        Refusal{"line level 100 m\npivot left", SolveNote::Kind::NotFlyable, "upline"},
        Refusal{"pull to up at 6 g\nline up 50 m\npivot left", SolveNote::Kind::NotFlyable,
                "too fast"},
        Refusal{"line level 40 m with 2 rolls left", SolveNote::Kind::NotFlyable,
                "longer than its line"},
        Refusal{"line level until x -2000 m", SolveNote::Kind::NeverMet, "never met"},
        Refusal{"pull to up at 6 g\nline up 3000 m", SolveNote::Kind::NeverMet, "tops out"},
        Refusal{"line level until 200 kt", SolveNote::Kind::NeverMet, "never reaches"},
        Refusal{"line level 200 m with 1/4 roll left\npull to up at 6 g",
                SolveNote::Kind::NotFlyable, "bank is"},
        Refusal{"pull to up at 6 g\npull to level at 5 g", SolveNote::Kind::NotFlyable, "270 deg"},
        Refusal{"line up 100 m", SolveNote::Kind::NotFlyable, "cannot change direction"},
        Refusal{"push to down at 3 g\nline down 400 m", SolveNote::Kind::Ground, "ground"},
        Refusal{"pull to up at 6 g\nline up until 40 kt\npull 180 deg radius 200 m",
                SolveNote::Kind::NotFlyable, "slow"},
        Refusal{"pull 180 deg radius 60 m", SolveNote::Kind::NotFlyable, "radius"},
        Refusal{"pull to up at 9.9 g\nline up 20 m\npull to down at 8 g",
                SolveNote::Kind::LoadShort, "wing"},
        Refusal{"line level 300 m with 1 roll left at 700 deg/s", SolveNote::Kind::NotFlyable,
                "faster than"},
        Refusal{"line level 100 m\nturn left 90 deg bank 89 deg", SolveNote::Kind::NotFlyable,
                "load limit"},
        Refusal{"reposition to x -850 m y 0 m height 900 m heading crowd-right speed 150 kt",
                SolveNote::Kind::NotFlyable, ""}));

// Roll rate is linear in airspeed at fixed aileron (NACA Report 715, Gilruth and Turner 1941), up
// to the cap.
TEST(Figures, RollRateIsLinearInAirspeed) {
    data::Aircraft a = plausibleAircraft();
    a.limits.roll_rate_radps = 0;
    const auto rate = [&](double speed) {
        RoutineSetup setup;
        setup.speed_mps = speed;
        double most = 0;
        for (const path::Sample& s :
             solveText(a, "line level 70 m with 1/4 roll right at start", setup)
                 .samplePath(100)
                 .samples)
            most = std::max(most, std::fabs(s.rate_B_radps.x));
        return most;
    };
    EXPECT_NEAR(rate(80) / rate(40), 2,
                0.1);  // 3 % of the extract, and the speed gained from 40 m/s on the line itself
}

}  // namespace
}  // namespace plumbline::fly

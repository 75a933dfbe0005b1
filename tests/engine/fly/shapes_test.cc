// The shapes beyond line and arc: closed forms, symmetry, and what the words promise.

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/earth/atmosphere.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly {
namespace {

using test::kDegree;
using test::kKnot;
using test::plausibleAircraft;
using test::RoutineSetup;
using test::solveText;

const SolveNote* noteOf(const Solution& s, const std::string& subject) {
    for (const SolveNote& n : s.notes())
        if (n.subject == subject) return &n;
    return nullptr;
}

bool flownAsWritten(const Solution& s) {
    return std::none_of(s.notes().begin(), s.notes().end(),
                        [](const SolveNote& n) { return n.kind != SolveNote::Kind::Information; });
}

std::string complaints(const Solution& s) {
    std::string all;
    for (const SolveNote& n : s.notes()) all += n.what + " " + n.value + "\n";
    return all;
}

// A wing and a structure that give any corner: for what geometry alone says.
data::Aircraft anyCornerAircraft() {
    data::Aircraft a = plausibleAircraft();
    a.aero.cl_max = 4;
    a.aero.cl_min = -4;
    a.limits.load_max_g = 20;
    a.limits.load_min_g = -20;
    return a;
}

struct Span {
    std::size_t first = 0, last = 0;
};
// Samples of the first element with this label.
Span spanOf(const path::Path& path, const std::string& label) {
    Span span;
    for (std::size_t i = 0; i < path.samples.size(); ++i) {
        const auto e = static_cast<std::size_t>(path.samples[i].element);
        if (path.elements[e].label.find(label) == std::string::npos) continue;
        if (span.last == 0) span.first = i;
        span.last = i;
    }
    return span;
}

double heading(const path::Sample& s) { return std::atan2(s.velocity_S_mps.y, s.velocity_S_mps.x); }

// Turned about z_S from first to last, in small steps.
double turned(const path::Path& path, Span span) {
    double sum = 0;
    for (std::size_t i = span.first; i < span.last; ++i)
        sum += std::remainder(heading(path.samples[i + 1]) - heading(path.samples[i]), 2 * kPi);
    return sum;
}

// Eight sides of one length with eight equal corners end where they began: geometry.
TEST(Shapes, EightSidesCloseWhereTheyBegan) {
    for (const char* text : {"line level 100 m\npull 8 sides 360 deg side 20 m radius 140 m",
                             "line level 100 m\npull 6 sides 360 deg side 20 m radius 140 m"}) {
        RoutineSetup setup;
        setup.speed_mps = 100;
        const Solution s = solveText(anyCornerAircraft(), text, setup);
        EXPECT_TRUE(flownAsWritten(s)) << complaints(s);
        const path::Path path = s.samplePath(20);
        const Span span = spanOf(path, "sides");
        EXPECT_LT(glm::length(path.samples[span.first].position_S_m -
                              path.samples[span.last].position_S_m),
                  0.15);
    }
}

// An outside one from the top is the same figure downwards; the height it takes is that of the
// regular octagon: side (1 + sqrt 2), with sides of 60 m + 2 R tan(22.5 deg).
TEST(Shapes, OutsideOctagonHasTheOctagonsHeight) {
    RoutineSetup setup;
    setup.speed_mps = 52;
    setup.height_m = 900;
    const Solution s = solveText(anyCornerAircraft(),
                                 "power 70%\npush 8 sides 360 deg side 60 m radius 160 m", setup);
    const path::Path path = s.samplePath(50);
    double low = 1e9;
    for (const path::Sample& x : path.samples) low = std::min(low, x.position_S_m.z);
    const double side = 60 + 2 * 160 * std::tan(22.5 * kDegree);
    EXPECT_TRUE(flownAsWritten(s)) << complaints(s);
    EXPECT_NEAR(900 - low, side * (1 + std::sqrt(2.0)), 0.5);
}

// A whole barrel comes out with the attitude and heading it began with; half way the lift has
// carried it to one side.
TEST(Shapes, BarrelComesOutWhereItBegan) {
    const Solution s = solveText(plausibleAircraft(),
                                 "line level 100 m\npull 50 deg at 2 g with 1 roll left\n"
                                 "line level 200 m");
    EXPECT_TRUE(flownAsWritten(s)) << complaints(s);
    const path::Path path = s.samplePath(50);
    const Span span = spanOf(path, "pull");
    const path::Sample& in = path.samples[span.first];
    const path::Sample& out = path.samples.back();
    EXPECT_LT(std::fabs(std::remainder(heading(out) - heading(in), 2 * kPi)), 0.2 * kDegree);
    EXPECT_NEAR(rotate(out.q_SB, Vec3(0, 0, 1)).z, -1, 1e-3);
    double rolled = 0, most_side = 0;
    for (std::size_t i = span.first; i < span.last; ++i) {
        rolled +=
            path.samples[i].rate_B_radps.x * (path.samples[i + 1].time_s - path.samples[i].time_s);
        most_side =
            std::max(most_side, std::fabs(path.samples[i].position_S_m.y - in.position_S_m.y));
    }
    // The axis lies atan(50/360) off the roll axis.
    EXPECT_NEAR(rolled, -2 * kPi * std::cos(std::atan(50.0 / 360)), 0.15);
    EXPECT_GT(most_side, 8);
}

// The meter of a float stays at the load asked, and the path between is the one that the load and
// gravity make: with no lift at all it is a thrown stone's (parabola) but for drag and thrust.
TEST(Shapes, FloatHoldsItsLoad) {
    data::Aircraft a = plausibleAircraft();
    a.aero.cd0 = a.aero.induced_k = a.power.windmill_drag_area_m2 = a.power.idle_power_frac = 0;
    RoutineSetup setup;
    setup.height_m = 800;
    const Solution s = solveText(a,
                                 "power idle\nline level 150 m\npull to 45 deg up at 3 g\n"
                                 "line 45 deg up 60 m\nfloat to 30 deg down at 0 g",
                                 setup);
    const path::Path path = s.samplePath(100);
    const Span span = spanOf(path, "float");
    int held = 0;
    for (std::size_t i = span.first + 40; i + 40 < span.last; ++i, ++held) {
        const path::Sample& p = path.samples[i];
        EXPECT_NEAR(-p.specific_force_B_mps2.z / kGravity_mps2, 0, 0.01);
    }
    ASSERT_GT(held, 100);
    // dv/dt across the path is gravity's alone.
    const path::Sample& b = path.samples[span.first + 60];
    const path::Sample& e = path.samples[span.last - 60];
    const double t = e.time_s - b.time_s;
    EXPECT_NEAR(e.velocity_S_mps.z, b.velocity_S_mps.z - kGravity_mps2 * t, 1.2);
    EXPECT_NEAR(e.velocity_S_mps.x, b.velocity_S_mps.x, 1.2);
}

// A stall-limited pull has the radius 2 m / (rho S CLmax) whatever the speed (any textbook of
// flight mechanics), here from the load the meter reads while the wing is at its greatest lift.
TEST(Shapes, TightestPullsAtTheGreatestLift) {
    RoutineSetup setup;
    setup.speed_mps = 55;
    const data::Aircraft a = plausibleAircraft();
    const Solution s = solveText(a, "line level 50 m\npull 180 deg tightest", setup);
    const path::Path path = s.samplePath(50);
    const Span span = spanOf(path, "pull");
    int tight = 0;
    for (std::size_t i = span.first; i < span.last; ++i) {
        const path::Sample& p = path.samples[i];
        if (p.aoa_rad < 0.2825) continue;  // CLmax / slope = 0.2826
        const double density = earth::SiteAir(0, 288.15, 101325).at(p.position_S_m.z).density_kgpm3;
        const Vec3 lift = rotate(p.q_SB, p.specific_force_B_mps2);
        const Vec3 along = glm::normalize(p.velocity_S_mps);
        const double across = glm::length(lift - along * glm::dot(lift, along));
        const double radius = p.airspeed_mps * p.airspeed_mps / across;
        // Thrust at that incidence helps a few percent.
        EXPECT_NEAR(radius, 2 * p.mass_kg / (density * 10 * 1.3), 0.13 * radius);
        ++tight;
    }
    EXPECT_GT(tight, 30);
}

TEST(Shapes, RollingTurnsTurnAndRollWhatTheySay) {
    struct Case {
        const char* text;
        double turned, rolled;
    };
    for (const Case& c : {Case{"turn left 360 deg in 28 s with 4 rolls outward", 360, 4},
                          Case{"turn left 360 deg in 28 s with 4 rolls inward", 360, -4},
                          Case{"turn right 180 deg in 16 s with 2 rolls alternating", -180, 0},
                          Case{"turn right 90 deg in 9 s with 1 roll inward", -90, 1}}) {
        const Solution s =
            solveText(plausibleAircraft(), std::string("line level 60 m\n") + c.text);
        EXPECT_TRUE(flownAsWritten(s)) << c.text << "\n" << complaints(s);
        const path::Path path = s.samplePath(100);
        const Span span = spanOf(path, "rolling turn");
        EXPECT_NEAR(turned(path, span) / kDegree, c.turned, 0.5) << c.text;
        double rolled = 0, way = 0;
        for (std::size_t i = span.first; i < span.last; ++i) {
            const path::Sample& p = path.samples[i];
            EXPECT_NEAR(p.position_S_m.z, 300, 0.5);
            // About the path: what the body's rates turn about the velocity. The nose's circle of
            // incidence and sideslip takes a few degrees a roll of it.
            const double p_rad =
                glm::dot(p.rate_B_radps, unrotate(p.q_SB, glm::normalize(p.velocity_S_mps))) *
                (path.samples[i + 1].time_s - p.time_s);
            rolled += p_rad;
            way += std::fabs(p_rad);
        }
        EXPECT_NEAR(rolled / (2 * kPi), c.rolled, 0.08) << c.text;
        EXPECT_GT(way / (2 * kPi), std::fabs(c.rolled) - 0.08) << c.text;
    }
}

// Too fast for fuselage and wing: the fastest that flies is flown and named.
TEST(Shapes, RollingTurnNamesTheFastest) {
    const Solution s =
        solveText(plausibleAircraft(), "turn left 360 deg in 6 s with 1 roll inward");
    EXPECT_FALSE(flownAsWritten(s));
    ASSERT_NE(noteOf(s, "turn"), nullptr);
    EXPECT_GT(s.duration_s(), 8);
}

TEST(Shapes, ClimbingTurnEndsAtItsHeightAndHeading) {
    for (const double to : {360.0, 240.0}) {
        const Solution s = solveText(
            plausibleAircraft(), "turn left 270 deg bank 60 deg to height " +
                                     std::to_string(static_cast<int>(to)) + " m\nline level 50 m");
        EXPECT_TRUE(flownAsWritten(s)) << complaints(s);
        const path::Path path = s.samplePath(50);
        EXPECT_NEAR(path.samples.back().position_S_m.z, to, 1);
        EXPECT_NEAR(turned(path, {0, path.samples.size() - 1}) / kDegree, 270, 0.5);
    }
}

TEST(Shapes, WaitTakesItsTimeAndEndsOnItsHeading) {
    const Solution s = solveText(plausibleAircraft(), "wait 60 s in level turn right");
    EXPECT_TRUE(flownAsWritten(s)) << complaints(s);
    EXPECT_NEAR(s.duration_s(), 60, 1);
    const path::Path path = s.samplePath(20);
    const double rounds = turned(path, {0, path.samples.size() - 1}) / (2 * kPi);
    EXPECT_NEAR(rounds, std::round(rounds), 2e-3);
    EXPECT_LT(rounds, -0.9);
}

TEST(Shapes, ClimbsAndDescentsEndLevelAtTheirHeight) {
    const Solution s = solveText(plausibleAircraft(),
                                 "climb to height 450 m\nline level 100 m\n"
                                 "descend to height 200 m\nline level 100 m");
    EXPECT_TRUE(flownAsWritten(s)) << complaints(s);
    const path::Path path = s.samplePath(50);
    double top = 0;
    for (const path::Sample& p : path.samples) top = std::max(top, p.position_S_m.z);
    EXPECT_NEAR(top, 450, 0.5);
    EXPECT_NEAR(path.samples.back().position_S_m.z, 200, 0.5);
    EXPECT_NEAR(path.samples.back().velocity_S_mps.z, 0, 0.1);
}

TEST(Shapes, TheWordsRefuseAClimbDownwards) {
    const Solution s = solveText(plausibleAircraft(), "climb to height 200 m");
    EXPECT_FALSE(flownAsWritten(s));
}

// Across 10 m/s of wind the line over the ground stays over it; the one in the air drifts at the
// wind's speed.
TEST(Shapes, LineOverTheGroundDoesNotDrift) {
    RoutineSetup setup;
    setup.weather.wind = {{0, 0, 10}};  // from north; the show line lies north: along x ...
    setup.bearing_rad = kPi / 2;        // ... now it lies east: wind across it
    const auto drift = [&](const char* text) {
        const path::Path path = solveText(plausibleAircraft(), text, setup).samplePath(20);
        double most = 0;
        for (const path::Sample& p : path.samples)
            most = std::max(most, std::fabs(p.position_S_m.y));
        return most;
    };
    EXPECT_GT(drift("line level 800 m"), 80);
    // Into the crab from no crab: some metres at the start, drawn back.
    EXPECT_LT(drift("line level over the ground 800 m"), 10);
    const path::Path path =
        solveText(plausibleAircraft(), "line level over the ground 1500 m", setup).samplePath(20);
    EXPECT_NEAR(path.samples.back().position_S_m.y, 0, 0.05);
    EXPECT_NEAR(path.samples.back().velocity_S_mps.y, 0, 0.05);
}

// A loop round over the ground is a circle there; one round in the air is drawn out by the wind.
TEST(Shapes, LoopOverTheGroundIsRoundThere) {
    RoutineSetup setup;
    setup.weather.wind = {{0, 0, 8}};  // along the show line, against the flight
    const auto outOfRound = [&](const char* ground) {
        const Solution s = solveText(plausibleAircraft(),
                                     std::string("line level over the ground 300 m\n") +
                                         "pull 360 deg radius 130 m" + ground,
                                     setup);
        const path::Path path = s.samplePath(50);
        const Span span = spanOf(path, "pull");
        double x_low = 1e9, x_high = -1e9;
        for (std::size_t i = span.first; i <= span.last; ++i) {
            x_low = std::min(x_low, path.samples[i].position_S_m.x);
            x_high = std::max(x_high, path.samples[i].position_S_m.x);
        }
        const double in = path.samples[span.first].position_S_m.x;
        const double out = path.samples[span.last].position_S_m.x;
        return std::fabs(out - in) / (x_high - x_low);
    };
    // Smooth ends carry even a circle's exit forward by half a radius or so, the same in calm air.
    setup.weather.wind.clear();
    const double calm = outOfRound("");
    setup.weather.wind = {{0, 0, 8}};
    EXPECT_NEAR(outOfRound(" over the ground"), calm, 0.03);
    EXPECT_GT(std::fabs(outOfRound("") - calm), 0.2);
}

// A wide arc with a roll keeps its plane and ends in the direction said.
TEST(Shapes, RolledRadiusArcKeepsItsPlane) {
    RoutineSetup setup;
    setup.speed_mps = 90;
    setup.height_m = 500;
    const Solution s = solveText(plausibleAircraft(),
                                 "pull to 30 deg up radius 900 m with 1 roll right\n"
                                 "line 30 deg up 30 m",
                                 setup);
    EXPECT_TRUE(flownAsWritten(s)) << complaints(s);
    const path::Path path = s.samplePath(50);
    for (const path::Sample& p : path.samples) EXPECT_NEAR(p.position_S_m.y, 0, 1.5);
    const path::Sample& out = path.samples.back();
    EXPECT_NEAR(std::atan2(out.velocity_S_mps.z, out.velocity_S_mps.x) / kDegree, 30, 0.3);
    EXPECT_LT(rotate(out.q_SB, Vec3(0, 0, 1)).z, -0.8);
}

TEST(Shapes, RibbonPassIsMeasuredFromTheRibbon) {
    RoutineSetup setup;
    setup.height_m = 8;
    setup.ribbons = {{"one", -200, 1.5, 6, 14}};
    const Solution s = solveText(plausibleAircraft(), "line level 900 m\nribbon one", setup);
    ASSERT_NE(noteOf(s, "ribbon"), nullptr);
    EXPECT_EQ(noteOf(s, "ribbon")->value, "2.0 m above, 1.5 m from its middle, upright");
    const Solution inverted = solveText(plausibleAircraft(),
                                        "line level 150 m with 1/2 roll left\nline level 700 m\n"
                                        "ribbon one",
                                        setup);
    ASSERT_NE(noteOf(inverted, "ribbon"), nullptr);
    EXPECT_NE(noteOf(inverted, "ribbon")->value.find("inverted"), std::string::npos);
    const Solution edge = solveText(plausibleAircraft(),
                                    "line level 150 m with 1/4 roll left\nline level 700 m\n"
                                    "ribbon one",
                                    setup);
    ASSERT_NE(noteOf(edge, "ribbon"), nullptr);
    EXPECT_NE(noteOf(edge, "ribbon")->value.find("knife-edge"), std::string::npos);
    EXPECT_FALSE(
        flownAsWritten(solveText(plausibleAircraft(), "line level 200 m\nribbon one", setup)));
    EXPECT_FALSE(
        flownAsWritten(solveText(plausibleAircraft(), "line level 900 m\nribbon two", setup)));
}

TEST(Shapes, ExpectationsAreChecked) {
    const char* const kTrue[] = {"expect heading crowd-right", "expect upright",
                                 "expect height above 250 m", "expect speed above 70 m/s"};
    const char* const kFalse[] = {"expect heading crowd-left", "expect inverted",
                                  "expect knife-edge",         "expect height below 250 m",
                                  "expect speed below 70 m/s", "expect canopy to crowd"};
    for (const char* text : kTrue)
        EXPECT_TRUE(
            flownAsWritten(solveText(plausibleAircraft(), std::string("line level 50 m\n") + text)))
            << text;
    for (const char* text : kFalse) {
        const Solution s = solveText(plausibleAircraft(), std::string("line level 50 m\n") + text);
        ASSERT_EQ(s.notes().size(), 1u) << text;
        EXPECT_EQ(s.notes()[0].kind, SolveNote::Kind::Unexpected) << text;
    }
    // Flying to crowd right the canopy of an upline looks to crowd left and the right wing to the
    // crowd; a quarter roll right takes the canopy to where the right wing was.
    EXPECT_TRUE(flownAsWritten(solveText(plausibleAircraft(),
                                         "pull to up at 6 g\nexpect canopy crowd-left\n"
                                         "line up 200 m with 1/4 roll right\n"
                                         "expect canopy to crowd")));
}

TEST(Shapes, TwoPivotsEndNoseUpAgain) {
    const Solution s = solveText(plausibleAircraft(),
                                 "pull to up at 6 g\nline up until 25 kt\n2 pivots left in 1.6 s");
    const path::Path path = s.samplePath(50);
    EXPECT_GT(rotate(path.samples.back().q_SB, Vec3(1, 0, 0)).z, 0.99);
}

}  // namespace
}  // namespace plumbline::fly

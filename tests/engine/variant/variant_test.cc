#include "engine/variant/variant.h"

#include <algorithm>
#include <cmath>
#include <map>

#include <gtest/gtest.h>

#include "engine/routine/variant.h"
#include "tests/engine/variant/trial_workspace.h"

namespace plumbline::variant {
namespace {

load::Workspace workspaceOf(const std::string& figures) {
    return test::trialWorkspace("85 m/s", figures);
}

load::Workspace oneFigure(const std::string& text) {
    return workspaceOf("[[figure]]\nname = \"One\"\ntext = \"\"\"\n" + text + "\"\"\"\n");
}

/// High: everything. Middle: a loop in place of the hammerhead, no zoom. Low: a circle instead.
load::Workspace threeShows() {
    return workspaceOf(R"(
[[show]]
name = "high"
[[show]]
name = "middle"
[[show]]
name = "low"

[[figure]]
name = "Pass"
text = "line level until x -400 m"

[[figure]]
name = "Hammerhead"
shows = ["high"]
substitute = "Loop"
text = """
pull to up at 6 g
line up until 25 kt
pivot left
line down until height 300 m
pull to level at 6 g
"""

[[figure]]
name = "Zoom"
shows = ["high"]
text = """
pull to 30 deg up at 4 g
line 30 deg up 60 m
push to level at 1 g
"""

[[figure]]
name = "Out"
text = "line level 200 m"

[[substitute]]
name = "Loop"
shows = ["high", "middle"]
substitute = "Circle"
text = "pull 360 deg radius 90 m"

[[substitute]]
name = "Circle"
text = "turn left 360 deg bank 60 deg"
)");
}

path::Path pathOf(const Flown& flown) { return flown.solution.samplePath(200); }

double highest_m(const path::Path& path) {
    double height_m = -1e9;
    for (const path::Sample& s : path.samples) height_m = std::max(height_m, s.position_S_m.z);
    return height_m;
}
double lowest_m(const path::Path& path) {
    double height_m = 1e9;
    for (const path::Sample& s : path.samples) height_m = std::min(height_m, s.position_S_m.z);
    return height_m;
}

bool said(const Flown& flown, const std::string& words) {
    return std::any_of(flown.remarks.begin(), flown.remarks.end(), [&](const std::string& remark) {
        return remark.find(words) != std::string::npos;
    });
}

Flown flyOrFail(const load::Workspace& workspace, const Wish& wish) {
    auto flown = fly(workspace, wish);
    EXPECT_TRUE(flown) << describe(flown.error());
    return flown ? std::move(flown).value() : Flown();
}

Wish ofShow(const std::string& name) {
    Wish wish;
    wish.show = name;
    return wish;
}
Wish below(double ceiling_m) {
    Wish wish;
    wish.ceiling_m = ceiling_m;
    return wish;
}
Wish above(double floor_m) {
    Wish wish;
    wish.floor_m = floor_m;
    return wish;
}

std::vector<std::string> figuresOf(const path::Path& path) {
    std::vector<std::string> names;
    for (const path::Figure& figure : path.figures) names.push_back(figure.name);
    return names;
}

using Names = std::vector<std::string>;

TEST(Variant, AsWrittenIsTheRoutineItself) {
    const Flown flown = flyOrFail(threeShows(), {});
    EXPECT_EQ(figuresOf(pathOf(flown)), Names({"Pass", "Hammerhead", "Zoom", "Out"}));
    EXPECT_EQ(flown.label, "");
    EXPECT_TRUE(flown.remarks.empty());
}

TEST(Variant, FilesOutsideTheirFolderAreTold) {
    load::Workspace workspace = threeShows();
    workspace.outside = {"../fleet/a.aircraft.toml"};
    EXPECT_TRUE(said(flyOrFail(workspace, {}), "reads ../fleet/a.aircraft.toml, which is outside"));
}

TEST(Variant, AShowHasItsFiguresAndSaysWhatIsNotThere) {
    const Flown middle = flyOrFail(threeShows(), ofShow("middle"));
    EXPECT_EQ(figuresOf(pathOf(middle)), Names({"Pass", "Loop", "Out"}));
    EXPECT_EQ(middle.label, "show: middle");
    EXPECT_TRUE(said(middle, "leaves out Zoom"));
    EXPECT_TRUE(said(middle, "Loop in place of Hammerhead"));
    const Flown low = flyOrFail(threeShows(), ofShow("low"));
    EXPECT_EQ(figuresOf(pathOf(low)), Names({"Pass", "Circle", "Out"}));
}

TEST(Variant, AnUnknownShowIsToldWithTheShowsThereAre) {
    const auto flown = fly(threeShows(), ofShow("flat"));
    ASSERT_FALSE(flown);
    ASSERT_EQ(flown.error().size(), 1U);
    EXPECT_EQ(flown.error()[0].where.file, "--show");
    EXPECT_NE(flown.error()[0].remedy.find("high, middle, low"), std::string::npos);
}

// Whatever the ceiling, nothing is above it, and every fuller show would be.
TEST(Variant, TheCeilingPicksTheFullestShowBelowIt) {
    const load::Workspace workspace = threeShows();
    const Names shows = {"high", "middle", "low"};
    std::map<std::string, double> tops_m;
    for (const std::string& show : shows)
        tops_m[show] = highest_m(pathOf(flyOrFail(workspace, ofShow(show))));
    ASSERT_GT(tops_m["high"], tops_m["middle"] + 50);
    ASSERT_GT(tops_m["middle"], tops_m["low"] + 50);
    for (std::size_t i = 0; i < shows.size(); ++i) {
        for (const double room_m : {0.02, 30.0}) {
            const double ceiling_m = tops_m[shows[i]] + room_m;
            const Flown flown = flyOrFail(workspace, below(ceiling_m));
            EXPECT_LE(highest_m(pathOf(flown)), ceiling_m);
            EXPECT_EQ(flown.label, "show: " + shows[i]);
            for (std::size_t fuller = 0; fuller < i; ++fuller)
                EXPECT_TRUE(said(flown, "show " + shows[fuller] + " is too high"));
        }
    }
    EXPECT_TRUE(said(flyOrFail(workspace, below(tops_m["middle"] + 1)), "leaves out Zoom"));
}

TEST(Variant, WhereNoShowFitsTheNearestIsNamed) {
    const auto flown = fly(threeShows(), below(95));
    ASSERT_FALSE(flown);
    EXPECT_EQ(flown.error()[0].where.file, "--ceiling");
    EXPECT_NE(flown.error()[0].what.find("the nearest is low"), std::string::npos);
    EXPECT_NE(flown.error()[0].what.find("reaches 1"), std::string::npos);
    EXPECT_FALSE(flown.error()[0].remedy.empty());
}

TEST(Variant, WithAShowNamedTheCeilingTriesOnlyThatOne) {
    Wish wish = ofShow("high");
    wish.ceiling_m = 350;
    const auto flown = fly(threeShows(), wish);
    ASSERT_FALSE(flown);
    EXPECT_NE(flown.error()[0].what.find("show high does not stay below 350 m"), std::string::npos);
    EXPECT_NE(flown.error()[0].what.find("Hammerhead"), std::string::npos);
}

TEST(Variant, WithoutShowsTheCeilingHoldsForTheWhole) {
    const load::Workspace loop = oneFigure("pull 360 deg radius 90 m\n");
    EXPECT_TRUE(said(flyOrFail(loop, below(300)), "the whole routine stays below 300 m"));
    const auto refused = fly(loop, below(250));
    ASSERT_FALSE(refused);
    EXPECT_NE(refused.error()[0].what.find("the whole routine does not stay below 250 m: One"),
              std::string::npos);
}

// A top between two of the samples that are looked at counts as well: the ceiling is put between
// the highest sample of 20 a second and the top.
TEST(Variant, ATopBetweenSamplesCounts) {
    const load::Workspace loop = oneFigure("pull 360 deg radius 90 m\n");
    const Flown flown = flyOrFail(loop, {});
    const double top_m = highest_m(flown.solution.samplePath(5000));
    EXPECT_FALSE(fly(loop, below(top_m - 0.0015)));
    EXPECT_TRUE(fly(loop, below(top_m + 0.0015)));
}

// Nothing that depends on the propeller's direction of rotation is modelled yet: the whole path is
// the mirror image.
TEST(Variant, InCalmAirTheMirroredRoutineIsTheMirrorImage) {
    load::Workspace workspace = oneFigure(
        "line level until x -500 m with 1/2 roll left\n"
        "line level 60 m with 1/2 roll right\n"
        "pull to up at 6 g\nline up until 25 kt with 1/4 roll right\npivot left\n"
        "line down until height 300 m with 1/4 roll left\npull to level at 6 g\n"
        "turn right 270 deg bank 65 deg\n"
        "pull 360 deg at 4 g with 1 roll left\n"
        "line level until y 300 m\n");
    Wish mirror;
    mirror.mirror = true;
    const path::Path plain = pathOf(flyOrFail(workspace, {}));
    const Flown flown = flyOrFail(workspace, mirror);
    const path::Path mirrored = pathOf(flown);
    EXPECT_EQ(flown.label, "mirrored");
    ASSERT_EQ(mirrored.samples.size(), plain.samples.size());
    ASSERT_GT(plain.duration_s(), 40);
    for (std::size_t i = 0; i < plain.samples.size(); ++i) {
        const path::Sample& a = plain.samples[i];
        const path::Sample& b = mirrored.samples[i];
        ASSERT_NEAR(b.time_s, a.time_s, 1e-9);
        ASSERT_NEAR(b.position_S_m.x, -a.position_S_m.x, 1e-9);
        ASSERT_NEAR(b.position_S_m.y, a.position_S_m.y, 1e-9);
        ASSERT_NEAR(b.position_S_m.z, a.position_S_m.z, 1e-9);
        ASSERT_NEAR(b.airspeed_mps, a.airspeed_mps, 1e-9);
        // A load to the left becomes one to the right.
        ASSERT_NEAR(b.specific_force_B_mps2.y, -a.specific_force_B_mps2.y, 1e-7);
        ASSERT_NEAR(b.specific_force_B_mps2.z, a.specific_force_B_mps2.z, 1e-7);
    }
}

/// ISO 2533 below 11 km, as a closed form: 1.225 kg/m3, 288.15 K, 6.5 K/km.
double standardDensity_kgpm3(double altitude_m) {
    return 1.225 * std::pow(1 - 0.0065 * altitude_m / 288.15, 4.25588);
}

/// Greatest load for the square of the speed: what the wing gives.
struct WingLoad {
    double per_speed2 = 0;
    double altitude_m = 0;
};
WingLoad wingLoadOf(const path::Path& path) {
    WingLoad most;
    for (const path::Sample& s : path.samples) {
        if (s.airspeed_mps < 60) continue;  // slower, the propeller's share of the load counts
        const double load = -s.specific_force_B_mps2.z / (s.airspeed_mps * s.airspeed_mps);
        if (load > most.per_speed2) most = {load, 120 + s.position_S_m.z};
    }
    return most;
}

// The wing gives a load in proportion to the density, so a pull beyond what the wing gives is wider
// up there; a dive with the engine idling meets less drag and ends faster. A shifted path would
// have neither.
TEST(Variant, ARaisedRoutineIsFlownInThinnerAir) {
    const load::Workspace workspace =
        oneFigure("power idle\nline level 30 m\npull to up at 10 g\nline up until 25 kt\n");
    const path::Path plain = pathOf(flyOrFail(workspace, {}));
    const double floor_m = lowest_m(plain) + 300;
    const Flown flown = flyOrFail(workspace, above(floor_m));
    const path::Path raised = pathOf(flown);
    EXPECT_NEAR(flown.raised_m, 300, 20);
    EXPECT_GE(lowest_m(raised), floor_m - 1e-3);
    EXPECT_LE(lowest_m(raised), floor_m + kFloorTolerance_m + 1e-3);
    EXPECT_NEAR(raised.samples.front().position_S_m.z, 100 + flown.raised_m, 1e-9);
    EXPECT_NEAR(raised.samples.front().position_S_m.x, -700, 1e-9);
    EXPECT_NE(flown.label.find("raised 3"), std::string::npos);

    const WingLoad here = wingLoadOf(plain), there = wingLoadOf(raised);
    const double thinner =
        standardDensity_kgpm3(there.altitude_m) / standardDensity_kgpm3(here.altitude_m);
    ASSERT_LT(thinner, 0.98);
    EXPECT_NEAR(there.per_speed2 / here.per_speed2, thinner, 0.003);

    const auto pullHeight = [](const path::Path& path) {
        const path::Element& pull = path.elements.at(1);
        return path::sampleAt(path, pull.stop_s).position_S_m.z -
               path::sampleAt(path, pull.start_s).position_S_m.z;
    };
    ASSERT_NE(plain.elements.at(1).label.find("pull"), std::string::npos);
    EXPECT_GT(pullHeight(raised), pullHeight(plain) * 1.01);
}

TEST(Variant, ARaisedDiveEndsFaster) {
    const load::Workspace workspace = oneFigure(
        "power idle\npush to 15 deg down at 1 g\nline 15 deg down 60 m\npull to level at 3 g\n");
    const path::Path plain = pathOf(flyOrFail(workspace, {}));
    ASSERT_GT(lowest_m(plain), 0.1) << "ends in the ground";
    const path::Path raised = pathOf(flyOrFail(workspace, above(lowest_m(plain) + 1500)));
    EXPECT_GT(raised.samples.back().airspeed_mps, plain.samples.back().airspeed_mps + 0.1);
}

// As it is written it ends in the ground after 100 m of height; raised, all of it is flown.
TEST(Variant, WhatWouldMeetTheGroundIsFlownWholeAboveTheFloor) {
    const load::Workspace workspace = oneFigure(
        "push to 45 deg down at 1 g\nline 45 deg down 150 m\npull to level at 4 g\n"
        "line level 200 m\n");
    ASSERT_NEAR(lowest_m(pathOf(flyOrFail(workspace, {}))), 0, 1e-3);
    const path::Path raised = pathOf(flyOrFail(workspace, above(500)));
    EXPECT_NEAR(lowest_m(raised), 500 + kFloorTolerance_m / 2, kFloorTolerance_m / 2 + 1e-3);
    EXPECT_EQ(raised.elements.back().label.find("line level"), 0U);
    EXPECT_GT(raised.samples.front().position_S_m.z, 500 + 106);  // 150 m sin 45 deg, and the arcs
}

TEST(Variant, TheFloorNeverLowers) {
    const load::Workspace workspace = oneFigure("pull 360 deg radius 90 m\n");
    const Flown flown = flyOrFail(workspace, above(50));
    EXPECT_EQ(flown.raised_m, 0);
    EXPECT_EQ(flown.label, "");
    EXPECT_TRUE(said(flown, "not raised"));
    EXPECT_NEAR(lowest_m(pathOf(flown)), lowest_m(pathOf(flyOrFail(workspace, {}))), 0);
}

TEST(Variant, TheCeilingCountsTheRaise) {
    const load::Workspace workspace = threeShows();
    Wish wish = above(600);
    wish.ceiling_m = 900;
    const Flown flown = flyOrFail(workspace, wish);
    EXPECT_LE(highest_m(pathOf(flown)), 900);
    EXPECT_NEAR(lowest_m(pathOf(flown)), 600, kFloorTolerance_m);
    EXPECT_NE(flown.label.find("show: middle"), std::string::npos) << flown.label;
    wish.ceiling_m = 650;
    wish.mirror = true;
    EXPECT_EQ(flyOrFail(workspace, wish).label.find("mirrored, raised "), 0U);
}

}  // namespace
}  // namespace plumbline::variant

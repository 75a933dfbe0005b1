#include "viewer/scene/ghost.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/viewer/scene/made_paths.h"
#include "viewer/scene/build.h"

namespace plumbline::scene {
namespace {

/// A loop flown `late_s` later on its own clock and `away_m` further from the crowd.
std::shared_ptr<path::Path> loopBeside(double late_s, double away_m) {
    const path::Path loop = roundLoop();
    auto made = std::make_shared<path::Path>(loop);
    const path::Sample first = loop.samples.front();
    made->samples.clear();
    for (double t = 0; t < late_s - 0.005; t += 0.01) {
        path::Sample before = first;
        before.time_s = t;
        before.position_S_m += (t - late_s) * first.velocity_S_mps;
        before.position_S_m.y += away_m;
        made->samples.push_back(before);
    }
    for (path::Sample sample : loop.samples) {
        sample.time_s += late_s;
        sample.position_S_m.y += away_m;
        made->samples.push_back(sample);
    }
    return made;
}

TEST(Ghost, IsShiftedInTimeSoThatTheTwoAreNearest) {
    const path::Path shown = roundLoop();
    for (const double late_s : {0.0, 3.0, 7.5}) {
        EXPECT_NEAR(bestOffset(shown, *loopBeside(late_s, 12)), late_s, 0.02);
    }
    EXPECT_EQ(bestOffset(shown, path::Path()), 0);
}

TEST(Ghost, ApartIsTheDistanceToItsNearestPoint) {
    const path::Path shown = roundLoop();
    const auto ghost = makeGhost(shown, loopBeside(3, 12));
    for (double t = 0.5; t < shown.duration_s(); t += 1.3) {
        const Apart apart = apartAt(shown, *ghost, t);
        ASSERT_TRUE(apart.known);
        EXPECT_NEAR(apart.distance_m, 12, 0.01);
        EXPECT_NEAR(apart.late_s, 0, 0.03);
        EXPECT_NEAR(static_cast<double>(keptApart(*ghost, t)), 12, 0.05);
    }
    EXPECT_EQ(ghost->apart_range.high, 24);
}

TEST(Ghost, KeepsStepThroughAPauseThatOnlyOneOfTheTwoMakes) {
    // Two loops on a line; the ghost flies 12 s longer between them.
    const auto twoLoops = [](double between_s, double away_m) {
        path::Path made;
        const path::Path loop = roundLoop();
        const double first_s = loop.duration_s();
        const auto add = [&](double t, Vec3 place, const Vec3& velocity) {
            path::Sample sample;
            sample.time_s = t;
            place.y += away_m;
            sample.position_S_m = place;
            sample.velocity_S_mps = velocity;
            made.samples.push_back(sample);
        };
        for (const path::Sample& s : loop.samples) add(s.time_s, s.position_S_m, s.velocity_S_mps);
        // A level circle of that duration, back to where the line goes on.
        const Vec3 at = loop.samples.back().position_S_m;
        const double radius_m = 60 * between_s / (2 * kPi);
        for (double t = 0.01; t < between_s - 0.005; t += 0.01) {
            const double a = 2 * kPi * t / between_s;
            add(first_s + t, at + radius_m * Vec3(std::sin(a), 1 - std::cos(a), 0),
                60.0 * Vec3(std::cos(a), std::sin(a), 0));
        }
        for (const path::Sample& s : loop.samples) {
            add(first_s + between_s + s.time_s,
                s.position_S_m + at - loop.samples.front().position_S_m, s.velocity_S_mps);
        }
        return made;
    };
    const path::Path shown = twoLoops(20, 0);
    const auto ghost = makeGhost(shown, std::make_shared<path::Path>(twoLoops(32, 7)));
    const double loop_s = roundLoop().duration_s();
    EXPECT_NEAR(ghostTime(*ghost, 0.5 * loop_s), 0.5 * loop_s, 0.1);
    EXPECT_NEAR(ghostTime(*ghost, 20 + 1.5 * loop_s), 32 + 1.5 * loop_s, 0.1);
    EXPECT_NEAR(apartAt(shown, *ghost, 0.5 * loop_s).distance_m, 7, 0.1);
    EXPECT_NEAR(apartAt(shown, *ghost, 20 + 1.5 * loop_s).distance_m, 7, 0.1);
}

TEST(Ghost, SaysWhichComesLater) {
    // The same line, but the ghost is held 1.5 s behind by its offset.
    const path::Path shown = levelPass(100, 60);
    Ghost ghost;
    ghost.path = std::make_shared<path::Path>(levelPass(100, 60, -600 - 60 * 1.5));
    const Apart apart = apartAt(shown, ghost, 10);
    EXPECT_NEAR(apart.distance_m, 0, 1e-3);
    EXPECT_NEAR(apart.late_s, 1.5, 1e-3);
    ghost.offset_s = {60};  // it has ended long ago
    EXPECT_FALSE(apartAt(shown, ghost, 10).known);
}

TEST(Ghost, IsDrawnAsAnAircraftAndALadderOfItsOwn) {
    SceneSource source;
    source.path = std::make_shared<path::Path>(roundLoop());
    source.aircraft = std::make_shared<data::Aircraft>();
    source.world = makeWorld({}, {}, 1);
    const DrawList alone = buildDrawList(source, {}, Marks{}, 8, 1280, 720);
    auto flown = loopBeside(3, 12);
    flown->origin = path::Origin::Recording;
    source.ghost = makeGhost(*source.path, flown);
    const DrawList list = buildDrawList(source, {}, Marks{}, 8, 1280, 720);
    EXPECT_FALSE(alone.show_ghost);
    ASSERT_TRUE(list.show_ghost);
    EXPECT_NEAR(glm::length(list.ghost.position_S_m - list.aircraft.position_S_m), 12, 0.2);
    EXPECT_LT(list.ghost.opacity, 1);
    ASSERT_EQ(list.bands.size(), alone.bands.size() + 1);
    // Eight ties of 12 m.
    EXPECT_EQ(list.lines.size(), alone.lines.size() + 8);
    ASSERT_EQ(list.labels.size(), alone.labels.size() + 1);
    EXPECT_EQ(list.labels.front().text, "12 m apart");
    // Coloured by the distance: half of 24 m is the map's middle.
    Marks marks;
    marks.band_quantity = Quantity::Apart;
    const DrawList coloured = buildDrawList(source, {}, marks, 8, 1280, 720);
    const glm::vec4 colour = coloured.bands[0].vertices[5].colour;
    const glm::vec3 middle = mapStops(Quantity::Apart)[4];
    EXPECT_NEAR(colour.r, middle.r, 0.01F);
    EXPECT_NEAR(colour.g, middle.g, 0.01F);
    marks.grey = true;
    const DrawList grey = buildDrawList(source, {}, marks, 8, 1280, 720);
    const glm::vec4 without = grey.bands[0].vertices[5].colour;
    EXPECT_EQ(without.r, without.g);
    EXPECT_EQ(without.g, without.b);
}

}  // namespace
}  // namespace plumbline::scene

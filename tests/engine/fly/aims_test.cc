// Parameters found so that places, heights and speeds come out as wanted.

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/routine/variant.h"
#include "tests/engine/fly/routine_support.h"

namespace plumbline::fly {
namespace {

using namespace test;

constexpr double kMet_m = 0.01, kMet_mps = 0.01;

std::string figureOf(const std::string& name, const std::string& text,
                     const std::string& values = "") {
    return "[[figure]]\nname = '" + name + "'\ntext = \"\"\"\n" + text + "\"\"\"\n" +
           (values.empty() ? "" : "values = { " + values + " }\n");
}

std::string aimOf(const std::string& change, const std::string& from, const std::string& to,
                  const std::string& want, const std::string& of = "") {
    return "[[figure.aim]]\nchange = '" + change + "'\nfrom = '" + from + "'\nto = '" + to +
           "'\nwant = '" + want + "'\n" + (of.empty() ? "" : "of = '" + of + "'\n");
}

/// The samples of the elements that a condition on the label takes, of one figure.
template <class Take>
std::vector<path::Sample> samplesWhere(const Solution& solution, std::int32_t figure, Take take) {
    const path::Path path = solution.samplePath(2000);
    std::vector<path::Sample> out;
    for (const path::Sample& s : path.samples) {
        const path::Element& e = path.elements[static_cast<std::size_t>(s.element)];
        if (e.figure == figure && take(e.label)) out.push_back(s);
    }
    return out;
}

// Of figures that end steeply: the runs in are left out by their labels, and there are none out.
double sampledCentre_m(const Solution& solution, std::int32_t figure) {
    const auto samples = samplesWhere(solution, figure, [](const std::string& label) {
        return label.rfind("line level", 0) != 0;
    });
    double least = 1e9, greatest = -1e9;
    for (const path::Sample& s : samples) {
        least = std::min(least, s.position_S_m.x);
        greatest = std::max(greatest, s.position_S_m.x);
    }
    return 0.5 * (least + greatest);
}

double sampledTop_m(const Solution& solution, std::int32_t figure, double side = 1) {
    double most = -1e9;
    for (const path::Sample& s :
         samplesWhere(solution, figure, [](const std::string&) { return true; }))
        most = std::max(most, side * s.position_S_m.z);
    return side * most;
}

path::Sample lastOf(const Solution& solution) { return solution.samplePath(10).samples.back(); }

void expectAllMet(const Solution& solution, std::size_t count) {
    ASSERT_EQ(solution.found().size(), count);
    for (const FoundValue& found : solution.found()) EXPECT_TRUE(found.met) << found.words;
}

/// What was found, written into the routine in place of its aims, flies the same to the last bit.
void expectSameWrittenIn(const data::Aircraft& aircraft, routine::Routine routine,
                         const Solution& solution) {
    for (const FoundValue& found : solution.found()) {
        routine::RoutineFigure& figure = routine.figures[static_cast<std::size_t>(found.figure)];
        EXPECT_TRUE(routine::setValue(figure, found.parameter, found.value).empty());
        EXPECT_TRUE(std::any_of(figure.values.begin(), figure.values.end(),
                                [&](const text::ParameterValue& v) {
                                    return v.name == found.parameter && v.value == found.text;
                                }));
    }
    for (routine::RoutineFigure& figure : routine.figures) figure.aims.clear();
    expectSamePath(solution, solve(aircraft, {}, {}, routine));
}

TEST(Aims, LoopOnShowCentreFromBothSides) {
    for (const double radius_m : {90.0, 130.0}) {
        const routine::Routine routine =
            readRoutineOf(figureOf("Loop",
                                   "line level {run}\npull 360 deg radius " +
                                       std::to_string(radius_m) + " m\nline level 200 m\n",
                                   "run = '100 m'") +
                          aimOf("run", "20 m", "1000 m", "centre x 0 m"));
        const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
        expectAllMet(solution, 1);
        EXPECT_NEAR(sampledCentre_m(solution, 0), 0, kMet_m);
        expectSameWrittenIn(plausibleAircraft(), routine, solution);

        const routine::Routine other = routine::mirrored(routine);
        const Solution mirrored = solve(plausibleAircraft(), {}, {}, other);
        EXPECT_NEAR(sampledCentre_m(mirrored, 0), 0, kMet_m);
        EXPECT_NEAR(mirrored.found()[0].value, solution.found()[0].value, 1e-6);
    }
}

TEST(Aims, CentreIsThatOfTheSymmetricArc) {
    // Flown without drag, a round loop is its own mirror image about the plumb line through its
    // top.
    const routine::Routine routine = readRoutineOf(
        figureOf("Loop", "line level {run}\npull 360 deg radius 150 m\nline level 50 m\n",
                 "run = '100 m'") +
        aimOf("run", "20 m", "1000 m", "centre x 120 m"));
    const Solution solution = solve(bareLineAircraft(), {}, {}, routine);
    expectAllMet(solution, 1);
    const auto samples = samplesWhere(solution, 0, [](const std::string&) { return true; });
    const auto top = std::max_element(samples.begin(), samples.end(),
                                      [](const path::Sample& a, const path::Sample& b) {
                                          return a.position_S_m.z < b.position_S_m.z;
                                      });
    EXPECT_NEAR(sampledCentre_m(solution, 0), 120, kMet_m);
    EXPECT_NEAR(top->position_S_m.x, 120, 0.05);
}

TEST(Aims, HalfCubanOnShowCentreInWind) {
    const routine::Routine routine = readRoutineOf(
        figureOf("Half Cuban",
                 "line level {run}\npull 225 deg at 5 g\nline 45 deg down 160 m with 1/2 roll "
                 "left\n",
                 "run = '400 m'") +
        aimOf("run", "20 m", "1400 m", "centre x -40 m"));
    data::Weather weather;
    weather.wind = {{0, 4.2, 3}, {250, 4.4, 7}, {800, 4.9, 12}};
    const Solution solution = solve(plausibleAircraft(), {}, weather, routine);
    expectAllMet(solution, 1);
    EXPECT_NEAR(sampledCentre_m(solution, 0), -40, kMet_m);
}

TEST(Aims, TopOfAnUplineByEnergy) {
    // Nothing but weight does work: V^2 = V0^2 - 2 g (h - h0).
    const double speed_mps = 82, start_m = 100, top_m = 350;
    const routine::Routine routine = readRoutineOf(
        figureOf("Up", "pull to up radius 150 m\nline up until {speed}\n", "speed = '60 m/s'") +
            aimOf("speed", "20 m/s", "65 m/s", "top 350 m"),
        -900, start_m, speed_mps);
    const Solution solution = solve(bareLineAircraft(), {}, {}, routine);
    expectAllMet(solution, 1);
    EXPECT_NEAR(solution.found()[0].value,
                std::sqrt(speed_mps * speed_mps - 2 * kGravity_mps2 * (top_m - start_m)), 1e-4);
    EXPECT_NEAR(lastOf(solution).position_S_m.z, top_m, kMet_m);
    expectSameWrittenIn(bareLineAircraft(), routine, solution);
}

TEST(Aims, TopOfAnUplineByItsLength) {
    const routine::Routine routine = readRoutineOf(
        figureOf("Hammerhead",
                 "pull to up at 5 g\nline up {up}\npivot left\nline down 60 m\npull to level at 5 "
                 "g\n",
                 "up = '200 m'") +
            aimOf("up", "40 m", "400 m", "top 450 m"),
        -900, 100);
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    expectAllMet(solution, 1);
    EXPECT_NEAR(sampledTop_m(solution, 0), 450, kMet_m);
}

TEST(Aims, LevelOffAtAHeight) {
    const routine::Routine routine = readRoutineOf(
        figureOf("Down",
                 "push to 45 deg down at 1 g\nline 45 deg down {down}\npull to level at 5 g\n",
                 "down = '100 m'") +
            aimOf("down", "20 m", "900 m", "lowest 150 m"),
        -900, 600);
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    expectAllMet(solution, 1);
    EXPECT_NEAR(sampledTop_m(solution, 0, -1), 150, kMet_m);
    expectSameWrittenIn(plausibleAircraft(), routine, solution);
}

TEST(Aims, ArriveAtASpeed) {
    // By power, on a level line.
    const routine::Routine power =
        readRoutineOf(figureOf("Run", "power {power}\nline level 800 m\n", "power = '50 %'") +
                      aimOf("power", "0 %", "100 %", "end speed 75 m/s"));
    const Solution slowed = solve(plausibleAircraft(), {}, {}, power);
    expectAllMet(slowed, 1);
    EXPECT_NEAR(lastOf(slowed).airspeed_mps, 75, kMet_mps);
    EXPECT_NEAR(lastOf(slowed).power_frac, slowed.found()[0].value, 1e-6);
    // By load, over a loop.
    const routine::Routine load =
        readRoutineOf(figureOf("Loop", "pull 360 deg at {load}\n", "load = '4 g'") +
                      aimOf("load", "3 g", "7 g", "end speed 76 m/s"));
    const Solution looped = solve(plausibleAircraft(), {}, {}, load);
    ASSERT_EQ(looped.found().size(), 1U);
    EXPECT_TRUE(looped.found()[0].met) << lastOf(looped).airspeed_mps;
    EXPECT_NEAR(lastOf(looped).airspeed_mps, 76, kMet_mps);
    // By the drop of a dive, nothing but weight doing work.
    const routine::Routine dive = readRoutineOf(
        figureOf("Dive", "push to 30 deg down radius 200 m\nline 30 deg down {down}\n",
                 "down = '100 m'") +
            aimOf("down", "50 m", "900 m", "end speed 100 m/s"),
        -900, 600, 80);
    const Solution dived = solve(bareLineAircraft(), {}, {}, dive);
    expectAllMet(dived, 1);
    EXPECT_NEAR(lastOf(dived).position_S_m.z, 600 - (100.0 * 100 - 80.0 * 80) / (2 * kGravity_mps2),
                1e-3);
}

TEST(Aims, TwoOfOneFigureTogether) {
    const routine::Routine routine =
        readRoutineOf(figureOf("Loop", "line level {run}\npull 300 deg at {load}\n",
                               "run = '200 m', load = '4 g'") +
                          aimOf("run", "20 m", "1400 m", "centre x 0 m") +
                          aimOf("load", "3 g", "7 g", "top 340 m"),
                      -900, 100);
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    expectAllMet(solution, 2);
    EXPECT_NEAR(sampledCentre_m(solution, 0), 0, kMet_m);
    EXPECT_NEAR(sampledTop_m(solution, 0), 340, kMet_m);
    expectSameWrittenIn(plausibleAircraft(), routine, solution);
    // The order in which they are written does not matter.
    routine::Routine turned = routine;
    std::swap(turned.figures[0].aims[0], turned.figures[0].aims[1]);
    const Solution other = solve(plausibleAircraft(), {}, {}, turned);
    expectAllMet(other, 2);
    EXPECT_NEAR(other.found()[0].value, solution.found()[1].value, 1e-4);
}

TEST(Aims, AnEarlierFigureForALaterOnesPlace) {
    const routine::Routine routine = readRoutineOf(
        figureOf("Run", "line level {run}\n", "run = '50 m'") +
            aimOf("run", "20 m", "1200 m", "centre x 30 m", "Cuban") +
            figureOf("Loop", "pull 360 deg at {load}\n", "load = '5 g'") +
            aimOf("load", "3 g", "7 g", "top 320 m") +
            figureOf("Cuban",
                     "line level 100 m\npull 225 deg at 5 g\nline 45 deg down 100 m with 1/2 roll "
                     "left\n") +
            figureOf("Last", "line level 100 m\n"),
        -900, 100);
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    expectAllMet(solution, 2);
    EXPECT_NEAR(sampledCentre_m(solution, 2), 30, kMet_m);
    EXPECT_NEAR(sampledTop_m(solution, 1), 320, kMet_m);
    expectSameWrittenIn(plausibleAircraft(), routine, solution);
}

TEST(Aims, OneFigureAfterAnother) {
    const std::string loop = "line level {run}\npull 360 deg radius 100 m\n";
    const routine::Routine routine =
        readRoutineOf(figureOf("First", loop, "run = '50 m'") +
                      aimOf("run", "20 m", "1200 m", "centre x -300 m") +
                      figureOf("Second", loop, "run = '50 m'") +
                      aimOf("run", "20 m", "1200 m", "centre x 300 m"));
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    expectAllMet(solution, 2);
    EXPECT_NEAR(sampledCentre_m(solution, 0), -300, kMet_m);
    EXPECT_NEAR(sampledCentre_m(solution, 1), 300, kMet_m);
}

TEST(Aims, StartsAndEndsInEveryQuantity) {
    const std::string turn = "line level {run}\nturn left 90 deg bank 60 deg\n";
    for (const std::string want : {"end x 100 m", "end y 700 m"}) {
        const bool x = want[4] == 'x';
        const routine::Routine routine =
            readRoutineOf(figureOf("Turn", turn + (x ? "" : "line level {out}\n"),
                                   x ? "run = '50 m'" : "run = '50 m', out = '90 m'") +
                          aimOf(x ? "run" : "out", "20 m", "1200 m", want));
        const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
        expectAllMet(solution, 1);
        const Vec3 end = lastOf(solution).position_S_m;
        EXPECT_NEAR(x ? end.x : end.y, x ? 100 : 700, kMet_m);
    }
    const routine::Routine start = readRoutineOf(
        figureOf("Climb", "pull to 20 deg up at 2 g\nline 20 deg up {up}\npush to level at 1 g\n",
                 "up = '100 m'") +
            aimOf("up", "20 m", "600 m", "start height 260 m", "Next") +
            figureOf("Next", "line level 100 m\n"),
        -900, 100);
    const Solution climbed = solve(plausibleAircraft(), {}, {}, start);
    ASSERT_EQ(climbed.found().size(), 1U);
    EXPECT_TRUE(climbed.found()[0].met);
    const double next_s = climbed.samplePath(1).figures[1].start_s;
    EXPECT_NEAR(climbed.sampleTimes({next_s})[0].position_S_m.z, 260, kMet_m);
}

TEST(Aims, NearestOfTheImpossibleIsSaid) {
    const routine::Routine routine =
        readRoutineOf(figureOf("Loop", "line level {run}\npull 360 deg radius {radius}\n",
                               "run = '200 m', radius = '100 m'") +
                          aimOf("radius", "80 m", "120 m", "top 500 m"),
                      -900, 100);
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    ASSERT_EQ(solution.found().size(), 1U);
    EXPECT_FALSE(solution.found()[0].met);
    EXPECT_EQ(solution.found()[0].value, 120);
    const auto note =
        std::find_if(solution.notes().begin(), solution.notes().end(),
                     [](const SolveNote& n) { return n.kind == SolveNote::Kind::NotFlyable; });
    ASSERT_NE(note, solution.notes().end());
    EXPECT_EQ(note->what, "cannot put the top at 500 m: the nearest is with radius = 120 m");
    EXPECT_EQ(note->limit, "500 m");
    EXPECT_NEAR(std::stod(note->value), sampledTop_m(solution, 0), 0.51);
    EXPECT_EQ(note->remedy, "widen the values to try, 80 m to 120 m, or want something nearer");
    EXPECT_EQ(note->source_line, routine.figures[0].aims[0].where.line);
    expectSameWrittenIn(plausibleAircraft(), routine, solution);
}

TEST(Aims, FoundValuesAreSaid) {
    const routine::Routine routine = readRoutineOf(
        figureOf("Loop", "line level {run}\npull 360 deg radius 100 m\n", "run = '200 m'") +
        aimOf("run", "20 m", "1200 m", "centre x 0 m"));
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    expectAllMet(solution, 1);
    const auto note = std::find_if(solution.notes().begin(), solution.notes().end(),
                                   [](const SolveNote& n) { return n.subject == "aim"; });
    ASSERT_NE(note, solution.notes().end());
    EXPECT_EQ(note->kind, SolveNote::Kind::Information);
    EXPECT_EQ(note->what, solution.found()[0].words + " puts the centre at x 0 m");
    EXPECT_NEAR(std::stod(solution.found()[0].words.substr(6)), solution.found()[0].value, 0.51);
}

TEST(Aims, WhatAFigureBeforeDoesIsTooLate) {
    const routine::Routine routine =
        readRoutineOf(figureOf("First", "line level 100 m\n") +
                      figureOf("Second", "line level {run}\n", "run = '200 m'") +
                      aimOf("run", "20 m", "1200 m", "end x 0 m", "First"));
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    EXPECT_TRUE(solution.found().empty());
    ASSERT_EQ(solution.notes().size(), 1U);
    EXPECT_EQ(solution.notes()[0].kind, SolveNote::Kind::NotFlyable);
    EXPECT_EQ(solution.notes()[0].what,
              "cannot put the end of First at x 0 m: it is flown before run is");
    EXPECT_NEAR(lastOf(solution).position_S_m.x, -600, 1e-6);
}

TEST(Aims, EndsOfTheRange) {
    // A level line's end is as far on as the line is long.
    for (const auto& [want, value] : {std::pair("end x -800 m", 100.0), {"end x -300 m", 600.0}}) {
        const routine::Routine routine =
            readRoutineOf(figureOf("Run", "line level {run}\n", "run = '200 m'") +
                          aimOf("run", "100 m", "600 m", want));
        const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
        expectAllMet(solution, 1);
        EXPECT_NEAR(solution.found()[0].value, value, 1e-4);
    }
    const routine::Routine past =
        readRoutineOf(figureOf("Run", "line level {run}\n", "run = '200 m'") +
                      aimOf("run", "100 m", "600 m", "end x -299.9 m"));
    const Solution solution = solve(plausibleAircraft(), {}, {}, past);
    ASSERT_EQ(solution.found().size(), 1U);
    EXPECT_FALSE(solution.found()[0].met);
    EXPECT_EQ(solution.found()[0].value, 600);
    // Told as finely as it takes to see the difference.
    EXPECT_EQ(solution.notes().back().value, "-300.0 m");
    EXPECT_EQ(solution.notes().back().limit, "-299.9 m");
}

TEST(Aims, WhereEveryTrialMeetsTheGround) {
    const routine::Routine routine =
        readRoutineOf(figureOf("Dive", "push to 45 deg down at 1 g\nline 45 deg down {down}\n",
                               "down = '700 m'") +
                          aimOf("down", "600 m", "900 m", "end height 50 m"),
                      -900, 200);
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine);
    ASSERT_EQ(solution.found().size(), 1U);
    EXPECT_FALSE(solution.found()[0].met);
    EXPECT_EQ(solution.notes().back().what,
              "cannot put the end at height 50 m: with no value tried is it flown");
}

TEST(Aims, MirrorImageInCalmAir) {
    const routine::Routine routine = readRoutineOf(
        figureOf("Loop",
                 "line level {run}\npull 360 deg at {load}\nline level 100 m with 1 roll left\n",
                 "run = '200 m', load = '4 g'") +
            aimOf("run", "20 m", "1400 m", "centre x -60 m") +
            aimOf("load", "3 g", "7 g", "top 340 m"),
        -900, 100);
    const Solution one = solve(plausibleAircraft(), {}, {}, routine);
    const Solution other = solve(plausibleAircraft(), {}, {}, routine::mirrored(routine));
    expectAllMet(one, 2);
    expectAllMet(other, 2);
    const path::Path a = one.samplePath(20), b = other.samplePath(20);
    ASSERT_EQ(a.samples.size(), b.samples.size());
    for (std::size_t i = 0; i < a.samples.size(); ++i) {
        EXPECT_NEAR(a.samples[i].position_S_m.x, -b.samples[i].position_S_m.x, 1e-6);
        EXPECT_NEAR(a.samples[i].position_S_m.z, b.samples[i].position_S_m.z, 1e-6);
    }
}

TEST(Aims, RaisedHeightsAreThoseOfTheRoutine) {
    const routine::Routine routine =
        readRoutineOf(figureOf("Loop", "pull 360 deg at {load}\n", "load = '4 g'") +
                          aimOf("load", "3 g", "7 g", "top 340 m"),
                      -900, 100);
    SolveOptions options;
    options.raise_m = 300;
    const Solution solution = solve(plausibleAircraft(), {}, {}, routine, options);
    expectAllMet(solution, 1);
    EXPECT_NEAR(sampledTop_m(solution, 0), 640, kMet_m);
    EXPECT_NE(solution.notes().back().what.find("the top at 640 m"), std::string::npos);
}

TEST(Aims, SameBytesTwice) {
    const routine::Routine routine =
        readRoutineOf(figureOf("Loop", "line level {run}\npull 360 deg at {load}\n",
                               "run = '200 m', load = '4 g'") +
                          aimOf("run", "20 m", "1400 m", "centre x -60 m") +
                          aimOf("load", "3 g", "7 g", "top 340 m"),
                      -900, 100);
    const Solution one = solve(plausibleAircraft(), {}, {}, routine);
    const Solution two = solve(plausibleAircraft(), {}, {}, routine);
    expectSamePath(one, two);
    expectSameNotes(one, two);
}

}  // namespace
}  // namespace plumbline::fly

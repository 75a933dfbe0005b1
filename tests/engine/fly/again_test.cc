// A routine solved again after a change: the same bytes as solved afresh, for less work.

#include <algorithm>

#include <gtest/gtest.h>

#include "tests/engine/fly/routine_support.h"

namespace plumbline::fly {
namespace {

using namespace test;

const std::string kFigures[] = {
    "[[figure]]\nname = 'Entry'\ntext = \"\"\"\ncue \\\"one\\\"\nsmoke on\n"
    "line level until x -300 m\n\"\"\"\n",
    "[[figure]]\nname = 'Loop'\ntext = \"\"\"\npull 360 deg at 4 g\nline level 100 m\n\"\"\"\n",
    "[[figure]]\nname = 'Half Cuban'\ntext = \"\"\"\npower 80 %\npull 225 deg radius 110 m\n"
    "line 45 deg down 150 m with 1/2 roll left\npull to level at 5 g\nsmoke off\n\"\"\"\n",
    "[[figure]]\nname = 'Turn'\ntext = \"\"\"\ncue \\\"two\\\"\nsmoke on\nline level 200 m\n"
    "turn left 90 deg bank 60 deg\n\"\"\"\n",
};

routine::Routine wholeRoutine() {
    return readRoutineOf(kFigures[0] + kFigures[1] + kFigures[2] + kFigures[3]);
}

Solution solveWhole(const routine::Routine& routine) {
    return solve(plausibleAircraft(), {}, {}, routine);
}

/// Both ways to the changed routine agree; the evaluations of the second.
std::int64_t expectSameAgain(const routine::Routine& before, const routine::Routine& after) {
    const Solution afresh = solveWhole(after);
    const Solution first = solveWhole(before);
    const Solution again = solveAgain(first, after);
    expectSamePath(afresh, again);
    // Samples taken over are those that would have been made.
    for (const Sampling::Rates rates : {Sampling::Rates::Exact, Sampling::Rates::ForEye}) {
        Sampling sampling;
        sampling.rate_hz = 50;
        sampling.rates = rates;
        const path::Path made = afresh.samplePath(sampling);
        const path::Path taken = again.samplePathAgain(sampling, first.samplePath(sampling));
        EXPECT_EQ(made.samples.size(), taken.samples.size());
        for (std::size_t i = 0; i < std::min(made.samples.size(), taken.samples.size()); ++i) {
            EXPECT_EQ(made.samples[i].time_s, taken.samples[i].time_s);
            EXPECT_EQ(made.samples[i].position_S_m, taken.samples[i].position_S_m);
            EXPECT_EQ(made.samples[i].q_SB, taken.samples[i].q_SB);
            EXPECT_EQ(made.samples[i].rate_B_radps, taken.samples[i].rate_B_radps);
            EXPECT_EQ(made.samples[i].element, taken.samples[i].element);
        }
    }
    expectSameNotes(afresh, again);
    EXPECT_EQ(afresh.found().size(), again.found().size());
    for (std::size_t i = 0; i < std::min(afresh.found().size(), again.found().size()); ++i)
        EXPECT_EQ(afresh.found()[i].value, again.found()[i].value);
    EXPECT_LE(again.evaluations(), afresh.evaluations());
    return again.evaluations();
}

void setLine(routine::RoutineFigure& figure, std::size_t element, double distance_m) {
    std::get<text::Line>(figure.elements[element].body).extent.distance_m = distance_m;
}

TEST(Again, NothingChangedFliesNothing) {
    EXPECT_EQ(expectSameAgain(wholeRoutine(), wholeRoutine()), 0);
}

TEST(Again, LastFigureFliesOnlyItself) {
    routine::Routine changed = wholeRoutine();
    setLine(changed.figures[3], 2, 260);
    const std::int64_t again = expectSameAgain(wholeRoutine(), changed);
    // What the last figure adds to the routine without it.
    routine::Routine shorter = changed;
    shorter.figures.pop_back();
    EXPECT_EQ(again, solveWhole(changed).evaluations() - solveWhole(shorter).evaluations());
}

// Nothing of a slow figure is left behind but where it ends.
TEST(Again, BehindSlowFigures) {
    const auto figure = [](const std::string& name, const std::string& text) {
        return "[[figure]]\nname = '" + name + "'\ntext = \"\"\"\n" + text + "\"\"\"\n";
    };
    const std::string slow =
        figure("Snap",
               "power 40 %\nline level until 125 kt or 9 s\nline level 300 m with 1 snap left\n") +
        figure(
            "Spin",
            "power idle\nspin left 2 turns\nline down 90 m\npower full\npull to level at 4 g\n") +
        figure("Torque roll",
               "line level until 140 kt or 9 s\npull to up at 5 g\nline up until 12 kt\n"
               "torque-roll left 1 roll\npower idle\nslide 20 m\nfall wheels-up\nline down 90 m\n"
               "power full\npull to level at 5 g\n") +
        figure("Tumble",
               "line level until 140 kt or 9 s\npull to up at 5 g\nline up until 60 kt\n"
               "tumble forward 1 1/2 turns\nline down 90 m\npull to level at 5 g\n") +
        figure("Last", "line level 100 m\nline level 50 m with 1/4 roll left\n");
    const routine::Routine before = readRoutineOf(slow, -900, 1500, 70);
    for (std::size_t i = 1; i < before.figures.size(); ++i) {
        routine::Routine after = before;
        after.figures[i].elements.front() =
            text::parseFigureText("line level 3 s", "t", 1).elements.front();
        expectSameAgain(before, after);
    }
}

TEST(Again, MiddleAndFirst) {
    routine::Routine changed = wholeRoutine();
    setLine(changed.figures[1], 1, 130);
    expectSameAgain(wholeRoutine(), changed);
    changed = wholeRoutine();
    std::get<text::Line>(changed.figures[0].elements[2].body).extent.until.value = -280;
    EXPECT_EQ(expectSameAgain(wholeRoutine(), changed), solveWhole(changed).evaluations());
}

TEST(Again, FiguresAddedAndLeftOut) {
    routine::Routine shorter = wholeRoutine();
    shorter.figures.pop_back();
    expectSameAgain(wholeRoutine(), shorter);
    expectSameAgain(shorter, wholeRoutine());
    routine::Routine without_middle = wholeRoutine();
    without_middle.figures.erase(without_middle.figures.begin() + 1);
    expectSameAgain(wholeRoutine(), without_middle);
}

TEST(Again, AnotherStartNameAndCue) {
    routine::Routine changed = wholeRoutine();
    changed.start.speed_mps = 79;
    changed.name = "Other";
    expectSameAgain(wholeRoutine(), changed);
    changed = wholeRoutine();
    changed.figures[3].name = "Circle";
    std::get<text::CueMark>(changed.figures[3].elements[0].body).words = "three";
    expectSameAgain(wholeRoutine(), changed);
}

TEST(Again, OverTheGroundAndBack) {
    routine::Routine low = wholeRoutine();
    std::get<text::Line>(low.figures[2].elements[2].body).extent.distance_m = 900;
    const Solution down = solveWhole(low);
    ASSERT_TRUE(std::any_of(down.notes().begin(), down.notes().end(), [](const SolveNote& note) {
        return note.kind == SolveNote::Kind::Ground;
    }));
    expectSameAgain(wholeRoutine(), low);
    expectSameAgain(low, wholeRoutine());
    routine::Routine behind = low;
    setLine(behind.figures[3], 2, 260);
    EXPECT_EQ(expectSameAgain(low, behind), 0);
}

TEST(Again, AgainAndAgain) {
    routine::Routine changed = wholeRoutine();
    Solution solution = solveWhole(changed);
    for (int i = 0; i < 20; ++i) {
        setLine(changed.figures[3], 2, 200 + i);
        if (i % 7 == 3) setLine(changed.figures[1], 1, 100 + i);
        solution = solveAgain(solution, changed);
    }
    expectSamePath(solution, solveWhole(changed));
    expectSameNotes(solution, solveWhole(changed));
}

TEST(Again, ChangedAtEveryFigureOfEveryKind) {
    const std::vector<std::string> texts = {
        "line level until x 0 m with 8 of 8 points left",
        "expect heading crowd-right\nribbon first\npull 360 deg at 3 g with 1 roll left",
        "power 70 %\nturn left 180 deg in 12 s with 2 rolls inward",
        "smoke on\nclimb to height 1600 m\nsmoke off",
        "expect upright\nturn right 180 deg bank 60 deg to height 1500 m",
        "power full\npull to up at 5 g\nline up until 40 kt\npivot left\nline down 120 m\n"
        "pull to level at 5 g",
        "pull 4 sides 360 deg side 40 m at 5 g",
        "line 45 deg up over the ground 60 m\nfloat to 20 deg down at 0.3 g\npull to level at 3 g",
        "reposition to x 600 m y 40 m height 1200 m heading crowd-left speed 130 kt",
        "wait 20 s in level turn left",
        "cue \\\"end\\\"\nline level 200 m with 1/2 roll right then 1/2 roll right"};
    std::string tables;
    for (std::size_t i = 0; i < texts.size(); ++i)
        tables += "[[figure]]\nname = 'F" + std::to_string(i) + "'\ntext = \"\"\"\n" + texts[i] +
                  "\n\"\"\"\n";
    const routine::Routine whole = readRoutineOf(tables, -900, 1500);
    const Solution before = solveWhole(whole);
    EXPECT_EQ(before.samplePath(1).figures.size(), texts.size());
    std::int64_t evaluations = before.evaluations() + 1;
    for (std::size_t i = 0; i < texts.size(); ++i) {
        routine::Routine changed = whole;
        ++changed.figures[i].elements.front().span.column;  // read again, flown the same
        const Solution again = solveAgain(before, changed);
        expectSamePath(before, again);
        expectSameNotes(before, again);
        EXPECT_LT(again.evaluations(), evaluations) << i;
        evaluations = again.evaluations();
    }
}

TEST(Again, NothingOfNothing) { EXPECT_TRUE(solveAgain({}, wholeRoutine()).empty()); }

TEST(Again, ValuesFoundBeforeTheChangeAreTakenOver) {
    const std::string aimed =
        "[[figure]]\nname = 'Loop'\ntext = \"\"\"\nline level {run}\npull 360 deg at 4 g\n\"\"\"\n"
        "values = { run = '300 m' }\n[[figure.aim]]\nchange = 'run'\nfrom = '20 m'\nto = '900 m'\n"
        "want = 'centre x 0 m'\n";
    const routine::Routine whole = readRoutineOf(aimed + kFigures[2] + kFigures[3]);
    routine::Routine changed = whole;
    setLine(changed.figures[2], 2, 260);
    const std::int64_t last = expectSameAgain(whole, changed);
    EXPECT_LT(last, solveWhole(whole).evaluations() / 5);
    changed = whole;
    changed.figures[0].aims[0].value = 50;
    expectSameAgain(whole, changed);
    changed.figures[0].aims.clear();
    expectSameAgain(whole, changed);
}

TEST(Again, AnAimAtAChangedFigureIsFoundAnew) {
    const std::string run =
        "[[figure]]\nname = 'Run'\ntext = \"\"\"\nline level {run}\n\"\"\"\n"
        "values = { run = '300 m' }\n[[figure.aim]]\nchange = 'run'\nfrom = '20 m'\nto = '900 m'\n"
        "want = 'centre x 0 m'\nof = 'Half Cuban'\n";
    const routine::Routine whole = readRoutineOf(run + kFigures[2] + kFigures[3]);
    routine::Routine changed = whole;
    std::get<text::Arc>(changed.figures[1].elements[1].body).radius_m = 130;
    expectSameAgain(whole, changed);
    // The aim loses its figure, and finds it.
    changed.figures[1].name = "Another";
    EXPECT_TRUE(solveWhole(changed).found().empty());
    expectSameAgain(whole, changed);
    expectSameAgain(changed, whole);
}

}  // namespace
}  // namespace plumbline::fly

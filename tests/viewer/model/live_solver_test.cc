#include "viewer/model/live_solver.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "viewer/model/routine_blocks.h"
#include "viewer/model/text_buffer.h"

namespace plumbline::model {
namespace {

LiveWish demoWish(std::uint64_t number, std::string text) {
    LiveWish wish;
    wish.number = number;
    wish.routine = "demo/demo.routine.toml";
    wish.built_in = true;
    wish.texts[wish.routine] = std::move(text);
    return wish;
}

std::string demoText() {
    return std::string(load::embeddedAsset("demo/demo.routine.toml").value());
}

std::string changed(std::string text, const std::string& from, const std::string& to) {
    return text.replace(text.find(from), from.size(), to);
}

void expectSamePath(const path::Path& a, const path::Path& b) {
    ASSERT_EQ(a.samples.size(), b.samples.size());
    for (std::size_t i = 0; i < a.samples.size(); ++i) {
        ASSERT_EQ(a.samples[i].position_S_m, b.samples[i].position_S_m) << i;
    }
}

using Kind = LiveFlight::Kind;

TEST(LiveFlight, AnEditGivesThePathThatOpeningWouldGive) {
    LiveFlight drafts(Kind::Draft), fines(Kind::Fine);
    const LiveResult first = drafts.fly(demoWish(1, demoText()), 1);
    ASSERT_TRUE(fines.fly(demoWish(1, demoText()), 2, first.shown).shown);
    const std::string text =
        changed(demoText(), "pull 225 deg radius 118 m", "pull 225 deg radius 121 m");
    const LiveResult draft = drafts.fly(demoWish(2, text), 3);
    const LiveResult fine = fines.fly(demoWish(2, text), 4, draft.shown);
    ASSERT_TRUE(draft.shown && fine.shown) << describe(fine.problems);
    EXPECT_LT(draft.shown->path().samples.size(), fine.shown->path().samples.size() / 10);
    const LiveResult afresh = LiveFlight(Kind::Fine).fly(demoWish(2, text), 5);
    expectSamePath(fine.shown->path(), afresh.shown->path());
    EXPECT_EQ(fine.shown->findings.size(), afresh.shown->findings.size());
    // The ground is not made anew for it.
    EXPECT_EQ(fine.shown->source.world, first.shown->source.world);
    EXPECT_EQ(draft.shown->source.world, first.shown->source.world);
}

TEST(LiveFlight, ManyEditsInARowStayExact) {
    LiveFlight flight(Kind::Fine);
    std::string text = demoText();
    for (int i = 0; i < 5; ++i) {
        text = changed(text, "1 roll left at 90 deg/s",
                       i % 2 == 0 ? "1 roll left at 90 deg/s " : "1 roll left at 90 deg/s");
        text = withFigureMoved(text, 3 + i, 4);
        flight.fly(demoWish(static_cast<std::uint64_t>(i), text), 1);
    }
    const LiveResult last = flight.fly(demoWish(9, text), 2);
    ASSERT_TRUE(last.shown);
    expectSamePath(last.shown->path(),
                   LiveFlight(Kind::Fine).fly(demoWish(9, text), 3).shown->path());
}

TEST(LiveFlight, GoesOnFromWhatIsOpen) {
    const OpenResult opened = openNow({}, 7);
    ASSERT_TRUE(opened.shown);
    const std::string text =
        changed(demoText(), "pull 225 deg radius 118 m", "pull 225 deg radius 121 m");
    for (const Kind kind : {Kind::Draft, Kind::Fine}) {
        LiveFlight flight(kind);
        flight.begin(opened.shown, "demo/demo.routine.toml");
        const LiveResult after = flight.fly(demoWish(1, text), 8);
        ASSERT_TRUE(after.shown);
        EXPECT_EQ(after.shown->source.world, opened.shown->source.world);
        EXPECT_GT(after.shown->solution.sameUntil_s(), 1);
    }
}

// What is drawn of a draft is what is drawn of the fine path: places within a decimetre all over,
// attitudes where somebody looks.
TEST(LiveFlight, ADraftIsNearTheFinePath) {
    LiveWish wish = demoWish(1, demoText());
    const LiveResult fine = LiveFlight(Kind::Fine).fly(wish, 1);
    const path::Path& exact = fine.shown->path();
    wish.figure = exact.figures[6].name;
    wish.in_it_s = 3;
    const LiveResult result = LiveFlight(Kind::Draft).fly(wish, 2);
    const path::Path& draft = result.shown->path();
    EXPECT_NEAR(draft.duration_s(), exact.duration_s(), 0.02);
    const double moment_s = exact.figures[6].start_s + 3;
    for (const path::Sample& sample : exact.samples) {
        const path::Sample drawn = path::sampleAt(draft, sample.time_s);
        ASSERT_LT(glm::length(drawn.position_S_m - sample.position_S_m), 2) << sample.time_s;
        if (sample.time_s < moment_s - 16 || sample.time_s > moment_s + 6) continue;
        ASSERT_LT(glm::length(drawn.position_S_m - sample.position_S_m), 0.1) << sample.time_s;
        const double off = std::abs(glm::dot(drawn.q_SB, sample.q_SB));
        ASSERT_GT(off, std::cos(0.02)) << sample.time_s;
    }
}

TEST(LiveFlight, ADraftIsCheckedAtOnce) {
    LiveFlight drafts(Kind::Draft), fines(Kind::Fine);
    const OpenResult before = openNow({}, 1);
    drafts.begin(before.shown, "demo/demo.routine.toml");
    // The pull-out takes some 75 m: begun at 84 m it ends below the floor of 10 m.
    const std::string text =
        changed(demoText(), "line 45 deg down until height 108 m with 1/2 roll left\n",
                "line 45 deg down until height 84 m with 1/2 roll left\n");
    const LiveResult draft = drafts.fly(demoWish(2, text), 2);
    const LiveResult fine = fines.fly(demoWish(2, text), 3, draft.shown);
    // Nothing that the fine path has is missing, gates apart.
    const auto told = [](const Shown& shown) {
        std::vector<std::string> lines;
        for (const check::Finding& f : shown.findings) {
            if (f.kind == "gate" || f.grade < check::Grade::Tight) continue;
            lines.push_back(f.figure + ": " + f.kind + " " + check::gradeWord(f.grade));
        }
        std::sort(lines.begin(), lines.end());
        return lines;
    };
    EXPECT_EQ(told(*draft.shown), told(*fine.shown));
    const std::vector<std::string> lines = told(*draft.shown);
    EXPECT_NE(std::find(lines.begin(), lines.end(), "Half Cuban: floor unsafe"), lines.end());
}

TEST(LiveFlight, WhatIsBesideStaysBeside) {
    LiveFlight drafts(Kind::Draft), fines(Kind::Fine);
    const OpenResult opened = openNow({}, 1);
    LiveWish wish = demoWish(1, demoText());
    wish.now = opened.shown;
    wish.beside = opened.shown->source.path;
    wish.beside_title = "the path as saved";
    LiveResult draft = drafts.fly(wish, 2);
    const LiveResult fine = fines.fly(wish, 3, draft.shown);
    ASSERT_TRUE(fine.shown->source.ghost);
    EXPECT_EQ(fine.shown->source.ghost->path, opened.shown->source.path);
    EXPECT_FALSE(fine.shown->lanes.apart_m.values.empty());
    EXPECT_LT(fine.shown->lanes.apart_m.high, 0.1F) << "nothing has changed";
    wish =
        demoWish(2, changed(demoText(), "pull 225 deg radius 118 m", "pull 225 deg radius 150 m"));
    wish.now = fine.shown;
    wish.beside = opened.shown->source.path;
    draft = drafts.fly(wish, 4);
    EXPECT_TRUE(draft.shown->source.ghost) << "not even a frame without it";
    EXPECT_GT(fines.fly(wish, 5, draft.shown).shown->lanes.apart_m.high, 5);
}

TEST(LiveFlight, WrongTextIsToldWithItsPlaceAndTheNextIsFlownAgain) {
    LiveFlight flight(Kind::Draft);
    flight.fly(demoWish(1, demoText()), 1);
    const std::string wrong = changed(demoText(), "pull to level at 4 g", "pul to level at 4 g");
    const LiveResult result = flight.fly(demoWish(2, wrong), 2);
    EXPECT_EQ(result.shown, nullptr);
    ASSERT_EQ(result.problems.size(), 1U);
    const Problem& problem = result.problems.front();
    EXPECT_EQ(problem.where.file, "demo/demo.routine.toml");
    EXPECT_EQ(byteOf(wrong, problem.where.line, problem.where.column), wrong.find("pul to level"));
    EXPECT_TRUE(flight.fly(demoWish(3, demoText()), 3).shown);
}

TEST(LiveFlight, AnotherSiteTextMakesAnotherWorld) {
    LiveFlight flight(Kind::Draft);
    const LiveResult before = flight.fly(demoWish(1, demoText()), 1);
    LiveWish wish = demoWish(2, demoText());
    const std::filesystem::path weather = "demo/vellmoor.weather.toml";
    wish.texts[weather] = std::string(load::embeddedAsset(weather.generic_string()).value());
    const std::size_t at = wish.texts[weather].find("kt\"");
    ASSERT_NE(at, std::string::npos);
    wish.texts[weather].insert(at - 1, "0");
    const LiveResult after = flight.fly(wish, 2);
    ASSERT_TRUE(after.shown) << describe(after.problems);
    EXPECT_NE(before.shown->source.world, after.shown->source.world);
}

TEST(LiveSolver, TheNewestTextWins) {
    LiveSolver solver;
    for (std::uint64_t i = 1; i <= 20; ++i) solver.ask(demoWish(i, demoText()));
    LiveResult last;
    for (int i = 0; i < 20000 && !(last.number == 20 && !last.draft); ++i) {
        if (auto result = solver.take()) last = std::move(*result);
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    EXPECT_EQ(last.number, 20U);
    EXPECT_TRUE(last.shown);
}

TEST(Shelf, EveryFigureHasItsPath) {
    const std::vector<ShelfFigure> shelf = variant::flyShelf(kShelfRate_hz);
    EXPECT_EQ(shelf.size(), load::shelfNames().size());
    for (const ShelfFigure& figure : shelf) {
        EXPECT_FALSE(figure.title.empty()) << figure.name;
        EXPECT_GT(figure.path.duration_s(), 1) << figure.name;
    }
}

}  // namespace
}  // namespace plumbline::model

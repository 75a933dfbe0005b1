#include "viewer/model/live_solver.h"

#include <gtest/gtest.h>

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

TEST(LiveFlight, AnEditGivesThePathThatOpeningWouldGive) {
    LiveFlight flight;
    ASSERT_TRUE(flight.fly(demoWish(1, demoText()), 1, true).shown);
    ASSERT_TRUE(flight.fly(demoWish(1, demoText()), 2, false).shown);
    const std::string text =
        changed(demoText(), "pull 225 deg radius 118 m", "pull 225 deg radius 121 m");
    const LiveResult draft = flight.fly(demoWish(2, text), 3, true);
    const LiveResult fine = flight.fly(demoWish(2, text), 4, false);
    ASSERT_TRUE(draft.shown && fine.shown) << describe(fine.problems);
    EXPECT_LT(draft.shown->path().samples.size(), fine.shown->path().samples.size() / 3);
    const LiveResult afresh = LiveFlight().fly(demoWish(2, text), 5, false);
    expectSamePath(fine.shown->path(), afresh.shown->path());
    EXPECT_EQ(fine.shown->findings.size(), afresh.shown->findings.size());
    // The ground is not made anew for it.
    EXPECT_EQ(fine.shown->source.world, draft.shown->source.world);
}

TEST(LiveFlight, ManyEditsInARowStayExact) {
    LiveFlight flight;
    std::string text = demoText();
    for (int i = 0; i < 5; ++i) {
        text = changed(text, "1 roll left at 80 deg/s",
                       i % 2 == 0 ? "1 roll left at 80 deg/s " : "1 roll left at 80 deg/s");
        text = withFigureMoved(text, 3 + i, 4);
        flight.fly(demoWish(static_cast<std::uint64_t>(i), text), 1, true);
    }
    const LiveResult draft = flight.fly(demoWish(9, text), 2, true);
    ASSERT_TRUE(draft.shown);
    expectSamePath(draft.shown->path(), LiveFlight().fly(demoWish(9, text), 3, true).shown->path());
}

TEST(LiveFlight, WrongTextIsToldWithItsPlaceAndTheNextIsFlownAgain) {
    LiveFlight flight;
    flight.fly(demoWish(1, demoText()), 1, true);
    const std::string wrong = changed(demoText(), "pull to level at 4 g", "pul to level at 4 g");
    const LiveResult result = flight.fly(demoWish(2, wrong), 2, true);
    EXPECT_EQ(result.shown, nullptr);
    ASSERT_EQ(result.problems.size(), 1U);
    const Problem& problem = result.problems.front();
    EXPECT_EQ(problem.where.file, "demo/demo.routine.toml");
    EXPECT_EQ(byteOf(wrong, problem.where.line, problem.where.column), wrong.find("pul to level"));
    EXPECT_TRUE(flight.fly(demoWish(3, demoText()), 3, true).shown);
}

TEST(LiveFlight, AnotherSiteTextMakesAnotherWorld) {
    LiveFlight flight;
    const LiveResult before = flight.fly(demoWish(1, demoText()), 1, true);
    LiveWish wish = demoWish(2, demoText());
    const std::filesystem::path weather = "demo/vellmoor.weather.toml";
    wish.texts[weather] = std::string(load::embeddedAsset(weather.generic_string()).value());
    const std::size_t at = wish.texts[weather].find("kt\"");
    ASSERT_NE(at, std::string::npos);
    wish.texts[weather].insert(at - 1, "0");
    const LiveResult after = flight.fly(wish, 2, true);
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
    const std::vector<ShelfFigure> shelf = flyShelf();
    EXPECT_EQ(shelf.size(), load::shelfNames().size());
    for (const ShelfFigure& figure : shelf) {
        EXPECT_FALSE(figure.title.empty()) << figure.name;
        EXPECT_GT(figure.path.duration_s(), 1) << figure.name;
    }
}

}  // namespace
}  // namespace plumbline::model

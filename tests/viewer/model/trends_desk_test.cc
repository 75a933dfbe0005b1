// How the season goes, as the window has it: what can be chosen, where the marks of a plot lie, and
// that the book is read beside the frames.
#include "viewer/model/trends_desk.h"

#include <thread>

#include <gtest/gtest.h>

#include "engine/season/sorties.h"
#include "viewer/model/model.h"

namespace plumbline::model {
namespace {

season::Trend trendOf(const char* figure, const char* element, const char* measure,
                      std::vector<season::TrendPoint> points,
                      season::Course course = season::Course::TooFew) {
    season::Trend trend;
    trend.figure = figure;
    trend.element = element;
    trend.kind = *season::measureKind(measure);
    trend.points = std::move(points);
    trend.course = course;
    return trend;
}

Trends twoFigures() {
    const std::vector<season::TrendPoint> two = {{1, 0, 1, {}, {}}, {2, 86400, 2, {}, {}}};
    const std::vector<season::TrendPoint> three = {
        {1, 0, 1, {}, {}}, {2, 86400, 2, {}, {}}, {2, 86500, 2, {}, {}}, {3, 90000, 2, {}, {}}};
    Trends trends;
    trends.all = std::make_shared<const std::vector<season::Trend>>(std::vector<season::Trend>{
        trendOf("Loop", "", "lowest", two), trendOf("Loop", "pull", "radius", two),
        trendOf("Hammerhead", "", "lowest", three),
        trendOf("Hammerhead", "line up", "line off", three, season::Course::Better),
        trendOf("Hammerhead", "line down", "line off", three, season::Course::Worse)});
    return trends;
}

TEST(TrendChoice, OffersEachFigureOnceAndTheMeasuresItHas) {
    Trends trends = twoFigures();
    trends.figure = "Hammerhead";
    trends.measure = "line off";
    const TrendChoice choice = trendChoice(trends);
    ASSERT_EQ(choice.figures.size(), 2U);
    EXPECT_EQ(choice.figures[1].name, "Hammerhead");
    EXPECT_EQ(choice.figures[0].times, 2U);
    EXPECT_EQ(choice.figures[1].times, 3U);  // twice in one sortie is one sortie
    EXPECT_EQ(choice.figure, 1);
    ASSERT_EQ(choice.measures.size(), 2U);
    EXPECT_EQ(choice.measures[0].name, "lowest");
    EXPECT_EQ(choice.measures[1].name, "line off");
    EXPECT_EQ(choice.measures[1].course, season::Course::Worse);  // before what went better
    ASSERT_EQ(choice.plots.size(), 2U);
    EXPECT_EQ(choice.plots[0]->element, "line up");
    EXPECT_EQ(choice.plots[1]->element, "line down");
}

TEST(TrendChoice, OfWhatTheBookHasNotTakesTheFirst) {
    Trends trends = twoFigures();
    trends.figure = "Never flown";
    trends.measure = "slide length";
    const TrendChoice choice = trendChoice(trends);
    EXPECT_EQ(choice.figure, 0);
    EXPECT_EQ(choice.measure, 0);
    ASSERT_EQ(choice.plots.size(), 1U);
    EXPECT_EQ(choice.plots[0]->kind.name, "lowest");
    EXPECT_TRUE(trendChoice(Trends()).figures.empty());
}

TEST(TrendChoice, StaysWithinTheListsAndKeepsTheMeasure) {
    Trends trends = twoFigures();
    chooseTrend(trends, 0, 99);
    EXPECT_EQ(trends.figure, "Loop");
    EXPECT_EQ(trends.measure, "radius");
    chooseTrend(trends, 99, 0);  // another figure: its measures are others
    EXPECT_EQ(trends.figure, "Hammerhead");
    EXPECT_EQ(trendChoice(trends).measure, 0);
    chooseTrend(trends, 0, 0);
    EXPECT_EQ(trendChoice(trends).measures[1].name, "radius");
    EXPECT_EQ(trendChoice(trends).measure, 1);  // as chosen before
}

// Closed form: values 2 to 6 with 8 % of 4 above and below are a field from 1.68 to 6.32.
TEST(TrendFieldTest, PutsMarksWhereTimeAndValueSay) {
    season::Trend trend = trendOf(
        "Loop", "", "lowest", {{1, 0, 3, 0.5, 4}, {2, 86400, 2, {}, 4}, {3, 4 * 86400, 6, {}, {}}},
        season::Course::Worse);
    trend.fit = season::Fit{2, 0.5, 0.1, 0.1};  // a day
    const TrendField field = trendField(trend);
    EXPECT_NEAR(field.least, 1.68, 1e-12);
    EXPECT_NEAR(field.most, 6.32, 1e-12);
    ASSERT_EQ(field.marks.size(), 3U);
    EXPECT_DOUBLE_EQ(field.marks[0].x, 0);
    EXPECT_DOUBLE_EQ(field.marks[1].x, 0.25);
    EXPECT_DOUBLE_EQ(field.marks[2].x, 1);
    EXPECT_NEAR(field.marks[0].low, (2 - 1.68) / 4.64, 1e-12);
    EXPECT_NEAR(field.marks[0].high, (4 - 1.68) / 4.64, 1e-12);
    EXPECT_DOUBLE_EQ(field.marks[1].low, field.marks[1].high);
    ASSERT_TRUE(field.planned[1]);
    EXPECT_NEAR(*field.planned[1], (4 - 1.68) / 4.64, 1e-12);
    EXPECT_FALSE(field.planned[2]);
    ASSERT_TRUE(field.line);
    EXPECT_NEAR(field.line->first, (2 - 1.68) / 4.64, 1e-12);
    EXPECT_NEAR(field.line->second, (2 + 0.5 * 4 - 1.68) / 4.64, 1e-12);
}

TEST(TrendFieldTest, DrawsNoLineThatNobodySays) {
    season::Trend trend = trendOf("Loop", "", "lowest", {{1, 0, 3, {}, {}}, {2, 0, 3, {}, {}}},
                                  season::Course::NoChange);
    trend.fit = season::Fit{3, 0, 0, 0};
    const TrendField field = trendField(trend);
    EXPECT_FALSE(field.line);
    // Equal values have a field around them: 3 m, the least for a length, and 8 % more.
    EXPECT_NEAR(field.least, 3 - 1.5 * 1.16, 1e-12);
    EXPECT_NEAR(field.most, 3 + 1.5 * 1.16, 1e-12);
    EXPECT_DOUBLE_EQ(field.marks[0].x, 0.5);  // of one moment
}

void untilRead(TrendsDesk& desk, Model& model) {
    for (int i = 0; i < 2000 && (model.trends.reading || !model.trends.all); ++i) {
        desk.frame(model);
        if (!model.trends.problem.empty()) return;
        std::this_thread::sleep_for(std::chrono::milliseconds(5));
    }
}

class TrendsDeskTest : public testing::Test {
protected:
    void SetUp() override {
        book_ = std::filesystem::path(testing::TempDir()) / "trends_of_the_window.book";
        std::filesystem::remove(book_);
    }
    void TearDown() override { std::filesystem::remove(book_); }
    std::filesystem::path book_;
};

TEST_F(TrendsDeskTest, ReadsTheBookOnlyOnceThePanelIsOpen) {
    {
        auto book = season::Book::open(book_, season::Book::Access::Make);
        ASSERT_TRUE(book);
        for (int i = 0; i < 3; ++i) {
            season::Sortie sortie;
            sortie.key = "000000000000000" + std::to_string(i);
            sortie.name = "flight";
            sortie.flown_utc_s = 1000000 + 86400 * i;
            season::FlownFigure& figure = sortie.figures.emplace_back();
            figure.name = "Loop";
            figure.stop_s = 10;
            figure.measures.push_back({"", "lowest", 50.0 + i, {}, 55.0});
            ASSERT_TRUE(season::addSortie(*book, sortie, nullptr));
        }
    }
    TrendsDesk desk(book_);
    Model model;
    desk.frame(model);
    EXPECT_FALSE(desk.busy());
    model.trends.open = true;
    untilRead(desk, model);
    ASSERT_TRUE(model.trends.all);
    const TrendChoice choice = trendChoice(model.trends);
    ASSERT_EQ(choice.figures.size(), 1U);
    EXPECT_EQ(choice.figures[0].times, 3U);
    ASSERT_EQ(choice.plots.size(), 1U);
    EXPECT_DOUBLE_EQ(choice.plots[0]->points[2].value, 52);
}

TEST_F(TrendsDeskTest, WithoutABookHasNothingAndMakesNone) {
    TrendsDesk desk(book_);
    Model model;
    model.trends.open = true;
    untilRead(desk, model);
    ASSERT_TRUE(model.trends.all);
    EXPECT_TRUE(model.trends.all->empty());
    EXPECT_FALSE(std::filesystem::exists(book_));
}

TEST_F(TrendsDeskTest, SaysWhyAFileIsNoBook) {
    std::FILE* file = std::fopen(book_.string().c_str(), "wb");
    ASSERT_NE(file, nullptr);
    std::fputs("this is no book, whatever its name says; it is only long enough to look like one",
               file);
    std::fclose(file);
    TrendsDesk desk(book_);
    Model model;
    model.trends.open = true;
    untilRead(desk, model);
    EXPECT_FALSE(model.trends.problem.empty());
}

TEST(TrendsInTheWindow, OpenAndCloseByOneAction) {
    Model model;
    Action toggle;
    toggle.kind = ActionKind::ToggleTrends;
    apply(model, toggle);
    EXPECT_TRUE(model.trends.open);
    apply(model, toggle);
    EXPECT_FALSE(model.trends.open);
}

}  // namespace
}  // namespace plumbline::model

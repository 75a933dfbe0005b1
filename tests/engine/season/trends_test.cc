#include "engine/season/trends.h"

#include <cmath>

#include "engine/season/sorties.h"
#include "tests/engine/season/made_sorties.h"
#include "tests/engine/season/season_folder.h"

namespace plumbline {
namespace {

using season::Course;

TEST(SeasonFit, GivesTheCertifiedLine) {
    // NIST Statistical Reference Datasets, linear regression, "Norris": data and certified values
    // (from memory; that they agree to ten digits shows the memory right).
    const std::vector<double> x = {0.2,   337.4, 118.2, 884.6, 10.1,  226.5, 666.3, 996.3, 448.6,
                                   777.0, 558.2, 0.4,   0.6,   775.5, 666.9, 338.0, 447.5, 11.6,
                                   556.0, 228.1, 995.8, 887.6, 120.2, 0.3,   0.3,   556.8, 339.1,
                                   887.2, 999.0, 779.0, 11.1,  118.3, 229.2, 669.1, 448.9, 0.5};
    const std::vector<double> y = {0.1,   338.8, 118.1, 888.0, 9.2,   228.1, 668.5, 998.5, 449.1,
                                   778.9, 559.2, 0.3,   0.1,   778.1, 668.8, 339.3, 448.9, 10.8,
                                   557.7, 228.3, 998.0, 888.8, 119.6, 0.3,   0.6,   557.6, 339.3,
                                   888.0, 998.5, 778.9, 10.2,  117.6, 228.9, 668.4, 449.2, 0.2};
    const auto fit = season::fitLine(x, y);
    ASSERT_TRUE(fit);
    EXPECT_NEAR(fit->intercept, -0.262323073774029, 1e-10);
    EXPECT_NEAR(fit->slope, 1.00211681802045, 1e-12);
    EXPECT_NEAR(fit->slope_sigma, 0.429796848199937e-3, 1e-13);
    EXPECT_NEAR(fit->residual_sigma, 0.884796396144373, 1e-11);
}

TEST(SeasonFit, NeedsThreePlacesApart) {
    const std::vector<double> two = {1, 2}, same = {1, 1, 1}, y = {1, 2, 3};
    EXPECT_FALSE(season::fitLine(two, two));
    EXPECT_FALSE(season::fitLine(same, y));
}

class SeasonTrends : public test::SeasonFolder {
protected:
    /// One sortie a day, its loop's line so far off.
    void fly(season::Book& book, const std::vector<double>& off_rad, double lowest_m = 100) {
        for (std::size_t i = 0; i < off_rad.size(); ++i) {
            season::Sortie s = test::madeSortie("s" + std::to_string(i + 10),
                                                1780000000 + static_cast<std::int64_t>(i) * 86400);
            s.figures.resize(1);
            s.figures[0].measures = {{"line up", "line off", off_rad[i], 0.01, {}},
                                     {"", "lowest", lowest_m, 2.0, 110.0}};
            ASSERT_TRUE(season::addSortie(book, s, nullptr));
        }
    }
};

TEST_F(SeasonTrends, SayBetterAndWorseBeyondDoubtOnly) {
    season::Book book = open();
    fly(book, {0.10, 0.09, 0.081, 0.069, 0.06, 0.051});
    season::TrendWish wish;
    wish.measure = "line off";
    auto all = season::trends(book, wish);
    ASSERT_EQ(all->size(), 1U);
    EXPECT_EQ(all->front().course, Course::Better);
    EXPECT_NEAR(all->front().fit->slope, -0.01, 5e-4);  // a hundredth a day
    EXPECT_EQ(all->front().points.size(), 6U);
    EXPECT_NEAR(all->front().mean, 0.451 / 6, 1e-12);
}

TEST_F(SeasonTrends, ScatterIsNoChange) {
    season::Book book = open();
    fly(book, {0.05, 0.09, 0.04, 0.08, 0.05, 0.07});
    season::TrendWish wish;
    wish.measure = "line off";
    EXPECT_EQ(season::trends(book, wish)->front().course, Course::NoChange);
}

TEST_F(SeasonTrends, FourAreTooFew) {
    season::Book book = open();
    fly(book, {0.1, 0.09, 0.08, 0.07});
    season::TrendWish wish;
    wish.measure = "line off";
    EXPECT_EQ(season::trends(book, wish)->front().course, Course::TooFew);
}

TEST_F(SeasonTrends, AreChosenByFigureMeasureAndTime) {
    season::Book book = open();
    fly(book, {0.1, 0.1, 0.1});
    EXPECT_EQ(season::trends(book)->size(), 2U);
    season::TrendWish wish;
    wish.figure = "Other";
    EXPECT_TRUE(season::trends(book, wish)->empty());
    wish.figure = "Loop";
    wish.since_utc_s = 1780000000 + 86400;
    ASSERT_EQ(season::trends(book, wish)->size(), 2U);
    EXPECT_EQ(season::trends(book, wish)->front().points.size(), 2U);
    wish.routine = "Evening";  // they were flown to none
    EXPECT_TRUE(season::trends(book, wish)->empty());
}

}  // namespace
}  // namespace plumbline

#include "engine/season/currency.h"

#include "engine/season/airframe_loads.h"
#include "engine/season/sorties.h"
#include "tests/engine/season/made_sorties.h"
#include "tests/engine/season/season_folder.h"

namespace plumbline {
namespace {

constexpr std::int64_t kNow_utc_s = 1780000000, kDay_s = 86400;

class SeasonCurrency : public test::SeasonFolder {
protected:
    static void fly(season::Book& book, const std::string& key, int days_ago,
                    const std::string& airframe = "X-AAA", const char* routine = nullptr) {
        season::Sortie s = test::madeSortie(key, kNow_utc_s - days_ago * kDay_s);
        s.airframe = airframe;
        const season::Routine plan = test::madeRoutine(routine == nullptr ? "" : routine, "1");
        ASSERT_TRUE(season::addSortie(book, s, routine == nullptr ? nullptr : &plan));
    }
};

TEST_F(SeasonCurrency, CountsWithinEachWindowItsEdgeIncluded) {
    season::Book book = open();
    for (const int days : {3, 7, 8, 30, 31, 200})
        fly(book, std::to_string(days), days, "X-AAA", days == 3 ? "Evening" : "Old");
    fly(book, "tomorrow", -1);
    const auto c = season::currency(book, kNow_utc_s, season::kUsualWindows_days);
    ASSERT_TRUE(c);
    EXPECT_DOUBLE_EQ(*c->since_days, 3);
    ASSERT_EQ(c->windows.size(), 3U);
    EXPECT_EQ(c->windows[0].sorties, 2);
    EXPECT_EQ(c->windows[1].sorties, 4);
    EXPECT_EQ(c->windows[2].sorties, 5);
    EXPECT_EQ(c->windows[0].flown_s, 1200);
    ASSERT_EQ(c->routines.size(), 2U);
    EXPECT_EQ(c->routines[0].name, "Old");  // the longest ago first
    EXPECT_DOUBLE_EQ(c->routines[0].since_days, 7);
    EXPECT_EQ(c->routines[0].sorties, (std::vector<int>{1, 3, 4}));
    EXPECT_EQ(c->routines[1].sorties, (std::vector<int>{1, 1, 1}));
    ASSERT_EQ(c->figures.size(), 1U);
    EXPECT_EQ(c->figures[0].sorties, (std::vector<int>{2, 4, 5}));  // twice a sortie counts once
}

TEST_F(SeasonCurrency, NothingFlownIsSaidAsNothing) {
    season::Book book = open();
    const auto c = season::currency(book, kNow_utc_s, season::kUsualWindows_days);
    EXPECT_FALSE(c->since_days);
    EXPECT_EQ(c->windows[2].sorties, 0);
}

using SeasonLoads = SeasonCurrency;

TEST_F(SeasonLoads, AreSummedSinceTheLastOverhaul) {
    season::Book book = open();
    fly(book, "a", 40);
    fly(book, "b", 20);
    fly(book, "c", 10);
    fly(book, "other", 5, "X-BBB");
    season::Sortie blind = test::madeSortie("blind", kNow_utc_s);
    blind.loads.reset();
    blind.full_power_s.reset();
    ASSERT_TRUE(season::addSortie(book, blind, nullptr));
    auto all = season::airframeLoads(book);
    ASSERT_EQ(all->size(), 2U);
    EXPECT_EQ((*all)[0].airframe, "X-AAA");
    EXPECT_FALSE((*all)[0].since_utc_s);
    EXPECT_EQ((*all)[0].sorties, 4);

    ASSERT_TRUE(season::addOverhaul(book, {0, "X-AAA", kNow_utc_s - 60 * kDay_s, "first"}));
    ASSERT_TRUE(season::addOverhaul(book, {0, "X-AAA", kNow_utc_s - 30 * kDay_s, "second"}));
    EXPECT_FALSE(season::addOverhaul(book, {0, "X-AAA", kNow_utc_s - 30 * kDay_s, "again"}));
    all = season::airframeLoads(book);
    const season::AirframeLoads& sum = all->front();
    EXPECT_EQ(sum.since_utc_s, kNow_utc_s - 30 * kDay_s);
    EXPECT_EQ(sum.sorties, 3);
    EXPECT_EQ(sum.without_loads, 1);
    EXPECT_EQ(sum.without_power, 1);
    EXPECT_EQ(sum.flown_s, 1800);
    EXPECT_EQ(sum.with_loads_s, 1200);
    EXPECT_EQ(sum.full_power_s, 241);
    EXPECT_EQ(sum.most_g, 6.5);
    EXPECT_EQ(sum.least_g, -3);
    ASSERT_EQ(sum.levels.size(), 2U);
    EXPECT_EQ(sum.levels[0].load_g, -1);
    EXPECT_EQ(sum.levels[0].times, 6);
    EXPECT_EQ(sum.levels[1].beyond_s, 20);
    ASSERT_EQ(sum.cycles.size(), 2U);
    EXPECT_EQ(sum.cycles[1].range, 9);
    EXPECT_EQ(sum.cycles[1].count, 3);
    EXPECT_DOUBLE_EQ(sum.cycles[1].mean, 2);
    EXPECT_EQ(sum.push_pulls, 2);
    EXPECT_EQ((*all)[1].sorties, 1);
    EXPECT_EQ(season::overhauls(book)->size(), 2U);
}

}  // namespace
}  // namespace plumbline

#include "engine/review/load_book.h"

#include <array>
#include <cmath>
#include <map>
#include <numeric>

#include <gtest/gtest.h>

namespace plumbline::review {
namespace {

// ASTM E1049-85, 5.4.4, the standard's example: its history and its counts.
TEST(Rainflow, CountsTheStandardsExample) {
    constexpr std::array<double, 9> kHistory = {-2, 1, -3, 5, -1, 3, -4, 4, -2};
    std::map<double, double> counts;
    double whole = 0;
    for (const Cycle& cycle : rainflow(kHistory)) {
        counts[cycle.range] += cycle.count;
        if (cycle.count == 1) {
            ++whole;
            EXPECT_EQ(cycle.range, 4);
            EXPECT_EQ(cycle.mean, 1);
        }
    }
    EXPECT_EQ(counts, (std::map<double, double>{{3, 0.5}, {4, 1.5}, {6, 0.5}, {8, 1.0}, {9, 0.5}}));
    EXPECT_EQ(whole, 1);
}

// Half cycles hold the whole way between reversals: sum of range times count is half the way.
TEST(Rainflow, KeepsTheWayGone) {
    std::vector<double> history;
    for (int i = 0; i < 400; ++i)
        history.push_back(3 * std::sin(0.7 * i) + 2 * std::sin(0.11 * i * i));
    double counted = 0;
    for (const Cycle& cycle : rainflow(history)) counted += cycle.range * cycle.count;
    double way = 0;
    for (std::size_t i = 1; i < history.size(); ++i) way += std::fabs(history[i] - history[i - 1]);
    EXPECT_NEAR(2 * counted, way, 1e-9 * way);
}

TEST(Rainflow, RipplesAreNoReversals) {
    constexpr std::array<double, 8> kHistory = {1, 1.1, 1.05, 4, 3.9, 4.05, 1, 1.2};
    EXPECT_EQ(reversals(kHistory, 0.25), (std::vector<double>{1, 4.05, 1}));
}

/// A second at each of some loads, with ramps of a tenth.
path::Path held(const std::vector<double>& loads_g) {
    path::Path path;
    double t = 0;
    for (const double load : loads_g)
        for (const double at : {0.0, 0.9}) {
            path::Sample s;
            s.time_s = t + at;
            s.specific_force_B_mps2 = Vec3(0, 0, -load * kGravity_mps2);
            s.airspeed_mps = 60;
            path.samples.push_back(s);
            if (at > 0) t += 1;
        }
    return path;
}

TEST(LoadBook, OfStepsOfLoadIsTheirOwn) {
    const LoadBook book = loadBookOf(held({1, 6.5, 1, -2.5, -2.5, 5.5, 1}));
    EXPECT_NEAR(book.most_g, 6.5, 1e-9);
    EXPECT_NEAR(book.least_g, -2.5, 1e-9);
    // Five and a half g, all of it within half a second.
    EXPECT_NEAR(book.quickest_gps, (5.5 - -2.5) / 0.5, 0.1);
    ASSERT_EQ(book.push_pulls.size(), 1U);
    EXPECT_NEAR(book.push_pulls[0].least_g, -2.5, 1e-9);
    EXPECT_NEAR(book.push_pulls[0].most_g, 5.5, 1e-9);
    for (const LoadLevel& level : book.levels) {
        if (level.load_g == 6) {
            EXPECT_EQ(level.times, 1);
            EXPECT_NEAR(level.beyond_s, 0.9 + 0.1 * 2 * 0.5 / 5.5, 0.03);
        }
        if (level.load_g == 5) {
            EXPECT_EQ(level.times, 2);
        }
        if (level.load_g == -2) {
            EXPECT_EQ(level.times, 1);
        }
    }
}

// 28 Nov 2026: noise about a level was counted as hundreds of times.
TEST(LoadBook, RipplesAboutALevelAreOneTime) {
    const LoadBook book = loadBookOf(held({1, 3.1, 2.9, 3.1, 2.85, 3.15, 1, 3.2, 1}));
    ASSERT_FALSE(book.levels.empty());
    EXPECT_EQ(book.levels.back().load_g, 3);
    EXPECT_EQ(book.levels.back().times, 2);
}

TEST(CrewSheet, CountsMinutesAndKilograms) {
    path::Path path = held({1, 1, 1, 1});
    for (path::Sample& s : path.samples) {
        s.power_frac = s.time_s > 1.95 ? 1 : 0.6;
        s.fuel_kg = 40 - 2 * s.time_s;
        s.airspeed_mps = 60 + s.time_s * 10;
    }
    data::AircraftLimits limits;
    limits.never_exceed_mps = 85;
    // At sea level in standard air calibrated is true airspeed.
    const earth::SiteAir air(0, earth::kStandardTemperature_k, earth::kStandardPressure_pa);
    const CrewSheet sheet = crewSheetOf(path, limits, air);
    EXPECT_NEAR(sheet.full_power_s, 1.9 + 0.1, 1e-9);
    EXPECT_NEAR(sheet.fuel_kg, 2 * 3.9, 1e-9);
    EXPECT_NEAR(sheet.fastest_mps, 99, 1e-3);
    EXPECT_NEAR(sheet.beyond_never_exceed_s, 1.4, 0.51);  // to within two samples
}

}  // namespace
}  // namespace plumbline::review

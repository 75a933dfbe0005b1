#include "engine/margins/margins.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "engine/margins/plan.h"
#include "tests/engine/variant/trial_workspace.h"

namespace plumbline::margins {
namespace {

variant::Flown flownOf(const std::string& text, const data::Spread& spread) {
    load::Workspace workspace = variant::test::trialWorkspace("75 m/s", text);
    workspace.pilot.spread = spread;
    auto flown = variant::fly(std::move(workspace), {});
    EXPECT_TRUE(flown);
    return std::move(flown).value();
}

constexpr const char* kLevel = R"(
[[figure]]
name = "One"
text = "line level 600 m"
[[figure]]
name = "Two"
text = """
cue "second"
line level 400 m
"""
)";

constexpr const char* kLoop = R"(
[[figure]]
name = "Run"
text = "line level 200 m"
[[figure]]
name = "Loop"
text = """
pull 360 deg at 4 g
line level 100 m
"""
)";

data::Spread none() {
    data::Spread s;
    s = {.entry_speed_mps = 0,
         .load_g = 0,
         .timing_s = 0,
         .heading_rad = 0,
         .along_m = 0,
         .across_m = 0,
         .height_m = 0,
         .wind_mps = 0,
         .temperature_k = 0,
         .mass_kg = 0,
         .power_frac = 0,
         .roll_rate_frac = 0,
         .reaction_s = 0,
         .left_frac = 1};
    return s;
}

const HeightSpread& of(const std::vector<HeightSpread>& heights, const std::string& figure) {
    for (const HeightSpread& h : heights)
        if (h.figure == figure) return h;
    ADD_FAILURE() << figure;
    return heights.front();
}

TEST(Margins, WithoutErrorsEveryFlightIsThePlan) {
    const Report report = fly(flownOf(kLoop, none()), {.flights = 20});
    ASSERT_EQ(report.tops.size(), 1);
    EXPECT_EQ(report.tops[0].figure, "Loop");
    for (const HeightSpread& h : report.lowest) {
        EXPECT_NEAR(h.low_m, h.plan_m, 0.26);  // a cell
        EXPECT_NEAR(h.high_m, h.plan_m, 0.26);
        EXPECT_TRUE(h.influences.empty());
    }
    for (const Chance& c : report.chances) {
        EXPECT_TRUE(c.in_plan) << c.kind;
        EXPECT_EQ(c.tight, 20);
    }
}

TEST(Margins, HeightErrorsAddUpAsThePilotLetsThem) {
    // Two level figures: the second starts with the share left of the first one's error and its
    // own, so its height is normal with variance s^2 (1 + left^2); quantiles of 5 and 95 % lie
    // 1.645 standard deviations off.
    data::Spread spread = none();
    spread.height_m = 10;
    spread.left_frac = 0.6;
    const Report report = fly(flownOf(kLevel, spread), {.flights = 4000});
    // A quantile's standard error is sqrt(p (1 - p) / n) / density = 0.033 standard deviations
    // here; four of them, and a cell.
    const HeightSpread& one = of(report.lowest, "One");
    EXPECT_NEAR(one.high_m, 100 + 16.449, 1.6);
    EXPECT_NEAR(one.low_m, 100 - 16.449, 1.6);
    const double sigma_m = 10 * std::sqrt(1 + 0.36);
    const HeightSpread& two = of(report.lowest, "Two");
    EXPECT_NEAR(two.high_m, 100 + 1.6449 * sigma_m, 1.9);
    EXPECT_NEAR(two.low_m, 100 - 1.6449 * sigma_m, 1.9);
    // Of its variance 1 / 1.36 is its own error's.
    ASSERT_EQ(two.influences.size(), 1);
    EXPECT_EQ(two.influences[0].input, "entry height");
    EXPECT_NEAR(two.influences[0].share, 0.978 / 1.36, 0.04);
}

TEST(Margins, TheChanceOfAFindingIsThatOfItsError) {
    // The floor a known way below: unsafe as often as a normal error of 10 m exceeds that.
    data::Spread spread = none();
    spread.height_m = 10;
    spread.left_frac = 0;
    variant::Flown flown = flownOf(kLevel, spread);
    flown.workspace.site.floor_m = 90;
    const Report report = fly(flown, {.flights = 4000});
    const double expected = 0.5 * std::erfc(1 / std::sqrt(2.0));
    int floors = 0;
    for (const Chance& c : report.chances) {
        if (c.kind != "floor") continue;
        ++floors;
        const double share = static_cast<double>(c.unsafe) / 4000;
        EXPECT_NEAR(share, expected, 4 * std::sqrt(expected * (1 - expected) / 4000)) << c.figure;
        EXPECT_GT(c.tight, c.unsafe);
        EXPECT_FALSE(c.in_plan);
        ASSERT_FALSE(c.influences.empty());
        EXPECT_EQ(c.influences[0].input, "entry height");
    }
    EXPECT_EQ(floors, 2);
}

TEST(Margins, ACueComesAsLateAsTheLineBeforeIt) {
    data::Spread spread = none();
    spread.reaction_s = 0.5;
    const Report report = fly(flownOf(kLevel, spread), {.flights = 2000});
    ASSERT_EQ(report.cues.size(), 1);
    // The line is lengthened by the speed at its end, so the time by the error.
    EXPECT_NEAR(report.cues[0].late_s - report.cues[0].plan_s, 1.6449 * 0.5, 0.08);
    EXPECT_NEAR(report.cues[0].plan_s - report.cues[0].early_s, 1.6449 * 0.5, 0.08);
}

TEST(Margins, TheTopOfALoopHangsOnItsLoad) {
    data::Spread spread = none();
    spread.load_g = 0.3;
    spread.timing_s = 0.2;
    const Report report = fly(flownOf(kLoop, spread), {.flights = 500});
    ASSERT_EQ(report.tops.size(), 1);
    ASSERT_FALSE(report.tops[0].influences.empty());
    EXPECT_EQ(report.tops[0].influences[0].input, "load");
    EXPECT_GT(report.tops[0].influences[0].share, 0.9);
    EXPECT_GT(report.tops[0].high_m, report.tops[0].plan_m + 5);
}

void expectSame(const Report& a, const Report& b) {
    EXPECT_EQ(a.flights, b.flights);
    EXPECT_EQ(a.unsafe, b.unsafe);
    EXPECT_EQ(a.tight, b.tight);
    ASSERT_EQ(a.chances.size(), b.chances.size());
    for (std::size_t i = 0; i < a.chances.size(); ++i) {
        EXPECT_EQ(a.chances[i].kind, b.chances[i].kind);
        EXPECT_EQ(a.chances[i].tight, b.chances[i].tight);
        EXPECT_EQ(a.chances[i].unsafe, b.chances[i].unsafe);
    }
    ASSERT_EQ(a.tops.size(), b.tops.size());
    for (std::size_t i = 0; i < a.tops.size(); ++i) {
        EXPECT_EQ(a.tops[i].low_m, b.tops[i].low_m);
        EXPECT_EQ(a.tops[i].high_m, b.tops[i].high_m);
        ASSERT_EQ(a.tops[i].influences.size(), b.tops[i].influences.size());
        for (std::size_t k = 0; k < a.tops[i].influences.size(); ++k)
            EXPECT_EQ(a.tops[i].influences[k].share, b.tops[i].influences[k].share);
    }
}

TEST(Margins, ThreeThreadsSayTheSameToTheLastBit) {
    const variant::Flown flown = flownOf(kLoop, {});
    const Report one = fly(flown, {.flights = 300, .executor = system::parallel(1)});
    const Report three = fly(flown, {.flights = 300, .executor = system::parallel(3)});
    expectSame(one, three);
    const Report other = fly(flown, {.flights = 300, .seed = 2});
    EXPECT_NE(one.tops[0].influences[0].share, other.tops[0].influences[0].share);
}

TEST(Margins, GivenUpItSaysHowManyWereFlown) {
    const Report report = fly(flownOf(kLevel, {}),
                              {.flights = 100000, .progress = [](std::uint64_t) { return false; }});
    EXPECT_GT(report.flights, 0);
    EXPECT_LT(report.flights, 1000);
}

TEST(Margins, GivenUpWithinABatchNothingOfItIsCounted) {
    std::atomic<int> asked{0};
    Wishes wishes;
    wishes.flights = 1000;
    wishes.executor = system::parallel(3);
    wishes.give_up = [&] { return ++asked > 10; };
    EXPECT_EQ(fly(flownOf(kLevel, {}), wishes).flights, 0U);
    EXPECT_LT(asked, 20);
}

TEST(Margins, PartialReportsGrowToTheWhole) {
    const variant::Flown flown = flownOf(kLoop, {});
    std::vector<Report> parts;
    Wishes wishes;
    wishes.flights = 300;
    wishes.partial = [&](const Report& report) { parts.push_back(report); };
    const Report whole = fly(flown, wishes);
    ASSERT_GT(parts.size(), 1U);
    for (std::size_t i = 1; i < parts.size(); ++i)
        EXPECT_GT(parts[i].flights, parts[i - 1].flights);
    expectSame(parts.back(), whole);
    // A part is what so many flights alone come to.
    wishes.partial = nullptr;
    wishes.flights = parts.front().flights;
    expectSame(parts.front(), fly(flown, wishes));
}

TEST(Margins, AFigureIsUnsafeAsOftenAsAnyOfItsFindings) {
    data::Spread spread = none();
    spread.height_m = 10;
    spread.left_frac = 0;
    variant::Flown flown = flownOf(kLevel, spread);
    flown.workspace.site.floor_m = 90;
    const Report report = fly(flown, {.flights = 1000});
    ASSERT_EQ(report.figures.size(), 2U);
    for (const FigureChance& figure : report.figures) {
        std::uint64_t most = 0, sum = 0;
        for (const Chance& c : report.chances) {
            if (c.figure != figure.figure) continue;
            most = std::max(most, c.unsafe);
            sum += c.unsafe;
        }
        EXPECT_GE(figure.unsafe, most);
        EXPECT_LE(figure.unsafe, sum);
        EXPECT_GT(figure.tight, figure.unsafe);
    }
}

TEST(Margins, TheWorstFlightsCanBeFlownAgain) {
    data::Spread spread = none();
    spread.height_m = 10;
    spread.left_frac = 0;
    variant::Flown flown = flownOf(kLevel, spread);
    flown.workspace.site.floor_m = 90;
    const Wishes wishes{.flights = 400};
    const Report report = fly(flown, wishes);
    ASSERT_EQ(report.worst.size(), kWorstFlights);
    for (std::size_t i = 0; i < report.worst.size(); ++i) {
        const WorstFlight& worst = report.worst[i];
        const FlownAgain again = flyAgain(flown, wishes, worst.flight, 50);
        std::set<std::pair<std::string, std::string>> unsafe;
        for (const check::Finding& f : again.findings)
            if (f.grade >= check::Grade::Unsafe) unsafe.insert({f.kind, f.figure});
        EXPECT_EQ(unsafe.size(), worst.unsafe);
        for (const WorstFlight::Wrong& wrong : worst.wrong)
            EXPECT_TRUE(std::any_of(again.findings.begin(), again.findings.end(),
                                    [&](const check::Finding& f) {
                                        return f.kind == wrong.kind && f.figure == wrong.figure &&
                                               f.grade >= check::Grade::Tight;
                                    }));
        EXPECT_LE(worst.unsafe, report.worst[i > 0 ? i - 1 : 0].unsafe);
    }
    // The worst flight of the floor is the lowest of all: the draw says how low each begins.
    for (const Chance& c : report.chances) {
        if (c.kind != "floor" || c.figure != "One") continue;
        double lowest = 1e9;
        std::uint64_t which = 0;
        for (std::uint64_t n = 0; n < wishes.flights; ++n) {
            const double off = drawFlight(wishes.seed, n, 2).of(0, Figurewise::Height);
            if (off < lowest) {
                lowest = off;
                which = n;
            }
        }
        EXPECT_EQ(c.worst_flight, which);
        const path::Path path = flyAgain(flown, wishes, which, 50).path;
        EXPECT_NEAR(path.samples.front().position_S_m.z, 100 + 10 * lowest, 0.01);
    }
}

TEST(Margins, TheWaysOfTheFirstFlightsAreKeptFigureByFigure) {
    const variant::Flown flown = flownOf(kLevel, {});
    Wishes wishes;
    wishes.flights = 200;
    wishes.kept_ways = 5;
    wishes.executor = system::parallel(3);
    const Report report = fly(flown, wishes);
    ASSERT_EQ(report.ways.size(), 5U);
    for (std::uint64_t n = 0; n < 5; ++n) {
        const Way& way = *report.ways[n];
        ASSERT_EQ(way.begins.size(), 3U);
        EXPECT_EQ(way.begins.back(), way.places_S_m.size());
        const path::Path path = flyAgain(flown, wishes, n, wishes.rate_hz).path;
        ASSERT_EQ(path.samples.size(), way.places_S_m.size());
        EXPECT_NEAR(path.samples[10].position_S_m.y, way.places_S_m[10].y, 1e-3);
    }
}

TEST(Slips, WindErrorsAddToTheWindWhateverItsDirection) {
    variant::Flown flown = flownOf(kLevel, none());
    flown.workspace.pilot.spread.wind_mps = 3;
    flown.workspace.weather.wind = {{0, 1.0, 8}};
    const Plan plan = planOf(flown, 1e-5, 20);
    const Draw draw = drawFlight(1, 17, 2);
    const Slips slips = slipsOf(plan, draw);
    // Differences of the vectors in site axes: the size is that of the two errors.
    const auto east_north = [](const data::WindLayer& w) {
        return glm::dvec2(std::sin(w.from_rad), std::cos(w.from_rad)) * w.speed_mps;
    };
    const double off =
        glm::length(east_north(slips.weather.wind[0]) - east_north(plan.workspace.weather.wind[0]));
    EXPECT_NEAR(off, 3 * std::hypot(draw.of(Daily::WindAlong), draw.of(Daily::WindAcross)), 1e-9);
}

}  // namespace
}  // namespace plumbline::margins

#include "engine/margins/margins.h"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <set>

#include <gtest/gtest.h>

#include "engine/margins/look.h"
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

TEST(Margins, CountedInPiecesTheyAreTheSameFlights) {
    const variant::Flown flown = flownOf(kLoop, {});
    Wishes wishes;
    wishes.flights = 40;
    const Report whole = fly(flown, wishes);
    bool gives_up = false;
    wishes.give_up = [&] { return gives_up; };
    Counting counting(flown, wishes);
    for (std::uint64_t piece = 1; !counting.done(); ++piece) {
        const std::uint64_t before = counting.counted();
        gives_up = true;
        EXPECT_FALSE(counting.next(piece));
        EXPECT_EQ(counting.counted(), before);
        gives_up = false;
        EXPECT_TRUE(counting.next(piece));
    }
    EXPECT_EQ(counting.counted(), 40U);
    expectSame(counting.report(), whole);
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

// Once the floor is raised until the loop's top is planned 10 m above its gate, a normal error of
// 10 m in height puts it below in as many flights as the normal distribution has below -1.
TEST(Margins, ATopIsBelowItsGateAsOftenAsItsErrorSays) {
    data::Spread spread = none();
    spread.height_m = 10;
    spread.left_frac = 0;
    variant::Flown flown = flownOf(kLoop, spread);
    flown.workspace.pilot.gate_load_g = 4;
    const Report first = fly(flown, {.flights = 1});
    ASSERT_EQ(first.gates.size(), 1U);
    flown.workspace.site.floor_m += first.gates[0].plan_m - 10;
    const Report report = fly(flown, {.flights = 4000});
    ASSERT_EQ(report.gates.size(), 1U);
    const GateMargin& gate = report.gates[0];
    EXPECT_EQ(gate.figure, "Loop");
    EXPECT_NEAR(gate.plan_m, 10, 0.01);
    EXPECT_EQ(gate.flights, 4000);
    const double expected = 0.5 * std::erfc(1 / std::sqrt(2.0));
    EXPECT_NEAR(static_cast<double>(gate.below) / 4000, expected, 0.023);  // 4 sigma
    EXPECT_NEAR(gate.low_m, 10 - 16.449, 1.6);
    EXPECT_NEAR(gate.high_m, 10 + 16.449, 1.6);
    ASSERT_EQ(gate.influences.size(), 1U);
    EXPECT_EQ(gate.influences[0].input, "entry height");
}

// Faster at the top means a wider way down: the gate goes with the speed of the flight.
TEST(Margins, AGateGoesWithTheSpeedAtTheTop) {
    variant::Flown flown = flownOf(kLoop, none());
    flown.workspace.pilot.gate_load_g = 3;  // what the wing gives there is more
    const path::Path path = flown.solution.samplePath(50);
    const load::Workspace& w = flown.workspace;
    const std::vector<check::Gate> gates =
        check::gatesOf(w.aircraft, w.site, w.pilot, flown.solution, path);
    ASSERT_EQ(gates.size(), 1U);
    const GateCurve curve(gates[0], flown.solution, path);
    for (const double faster_mps : {-11.0, -3.0, 0.0, 4.0, 13.0}) {
        const double speed_mps = gates[0].airspeed_mps + faster_mps;
        const double least_m = check::gateAt(gates[0], speed_mps, flown.solution, path).complete_m;
        EXPECT_NEAR(curve.least_m(speed_mps), least_m, 0.007 * least_m) << faster_mps;
    }
    EXPECT_GT(curve.least_m(gates[0].airspeed_mps + 10), curve.least_m(gates[0].airspeed_mps) + 3);
}

// A dive that is sometimes flown into the ground: such a flight ends there, with few findings, and
// is worse than all others.
constexpr const char* kDive = R"(
[[figure]]
name = "Run"
text = "line level 300 m"
[[figure]]
name = "Dive"
text = """
push to 30 deg down at 0.5 g
line 30 deg down until height 72 m
pull to level at 4 g
line level 300 m
"""
[[figure]]
name = "Away"
text = "line level 300 m"
)";

TEST(Margins, TheWorstFlightsAreNamedByWhatIsGravestThenRarest) {
    data::Spread spread = none();
    spread.height_m = 14;
    spread.across_m = 25;
    spread.left_frac = 0.5;
    variant::Flown flown = flownOf(kDive, spread);
    flown.workspace.site.floor_m = 25;
    flown.workspace.site.crowd_line_y_m = -100;
    flown.workspace.site.show_line_offset_m = 100;
    const Wishes wishes{.flights = 2000};
    const Report report = fly(flown, wishes);
    std::uint64_t grounded = 0;
    for (const Chance& c : report.chances)
        if (c.kind == "ground") grounded += c.unsafe;
    ASSERT_GT(grounded, 0U);
    ASSERT_EQ(report.worst.size(), kWorstFlights);
    for (std::size_t i = 0; i < report.worst.size(); ++i) {
        const WorstFlight& worst = report.worst[i];
        ASSERT_FALSE(worst.wrong.empty());
        EXPECT_EQ(worst.wrong[0].kind == "ground", i < grounded) << i;
        // Each of them with its grade in that flight and how many flights have it.
        const FlownAgain again = flyAgain(flown, wishes, worst.flight, 50);
        std::pair<int, std::uint64_t> before{-99, 0};
        for (const WorstFlight::Wrong& wrong : worst.wrong) {
            check::Grade grade = check::Grade::Note;
            for (const check::Finding& f : again.findings)
                if (f.kind == wrong.kind && f.figure == wrong.figure)
                    grade = std::max(grade, f.grade);
            for (const Chance& c : report.chances) {
                if (c.kind != wrong.kind || c.figure != wrong.figure) continue;
                const std::pair now{wrong.kind == "ground" ? -9 : -static_cast<int>(grade),
                                    grade >= check::Grade::Unsafe ? c.unsafe : c.tight};
                EXPECT_GE(now, before) << wrong.kind;
                before = now;
            }
        }
    }
}

// Looked at often or seldom, tops, lowest points and the ends of figures are where they are.
TEST(Look, HeightsDoNotHangOnTheRate) {
    const variant::Flown flown = flownOf(kDive, none());
    const auto heightsOf = [&](const path::Path& path) {
        std::vector<double> heights_m(2 * path.figures.size());
        for (std::size_t f = 0; f < path.figures.size(); ++f) {
            heights_m[2 * f] = -1e9;
            heights_m[2 * f + 1] = 1e9;
        }
        for (const path::Sample& s : path.samples) {
            const auto f = static_cast<std::size_t>(path::figureOf(path, s));
            heights_m[2 * f] = std::max(heights_m[2 * f], s.position_S_m.z);
            heights_m[2 * f + 1] = std::min(heights_m[2 * f + 1], s.position_S_m.z);
        }
        return heights_m;
    };
    const std::vector<double> fine = heightsOf(flown.solution.samplePath(1000));
    for (const double rate_hz : {3.0, 5.0, 10.0}) {
        const std::vector<double> seen = heightsOf(lookAt(flown.solution, rate_hz));
        ASSERT_EQ(seen.size(), fine.size());
        for (std::size_t i = 0; i < fine.size(); ++i) EXPECT_NEAR(seen[i], fine[i], 0.05) << i;
    }
}

// Every flight is flown once: the work grows as their number.
TEST(Margins, EveryFlightIsFlownOnce) {
    for (const std::uint64_t flights : {100, 300, 900}) {
        std::atomic<std::uint64_t> flown{0};
        Wishes wishes;
        wishes.flights = flights;
        wishes.executor = system::parallel(2);
        wishes.give_up = [&] {
            ++flown;
            return false;
        };
        EXPECT_EQ(fly(flownOf(kLevel, {}), wishes).flights, flights);
        EXPECT_EQ(flown.load(), flights);
    }
}

// On the last way down the pilot goes by height; a short line near the top of a figure is none.
TEST(Slips, OnlyTheLastWayDownIsFlownByHeight) {
    data::Spread spread = none();
    spread.height_m = 5;
    const variant::Flown flown = flownOf(R"(
[[figure]]
name = "Two steps"
text = """
pull to 45 deg up at 5 g
line 45 deg up 200 m
push to 45 deg down at 1 g
line 45 deg down 30 m
pull to 40 deg down at 2 g
line 40 deg down 40 m
pull to level at 4 g
"""
)",
                                         spread);
    const Plan plan = planOf(flown, 1e-5, 20);
    ASSERT_EQ(plan.ends[0].size(), 7U);
    EXPECT_FALSE(plan.ends[0][1].last_down);
    EXPECT_FALSE(plan.ends[0][3].last_down);
    EXPECT_TRUE(plan.ends[0][5].last_down);
    const Slips slips = slipsOf(plan, drawFlight(1, 3, 1));
    const auto kindOf = [&](std::size_t i) {
        return std::get<text::Line>(slips.routine.figures[0].elements[i].body).extent.kind;
    };
    EXPECT_EQ(kindOf(3), text::Extent::Kind::Distance);
    EXPECT_EQ(kindOf(5), text::Extent::Kind::Until);
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
        // On the very flight, end to end.
        const path::Path path = flyAgain(flown, wishes, n, 100).path;
        EXPECT_GE(way.places_S_m.size(), static_cast<std::size_t>(5 * path.duration_s()));
        for (const glm::vec3& place : way.places_S_m) {
            double nearest_m = 1e9;
            for (const path::Sample& s : path.samples)
                nearest_m = std::min(nearest_m, glm::length(s.position_S_m - Vec3(place)));
            EXPECT_LT(nearest_m, 1);
        }
        EXPECT_LT(glm::length(path.samples.back().position_S_m - Vec3(way.places_S_m.back())), 0.5);
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

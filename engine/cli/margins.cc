// plumbline margins: the routine flown imperfectly many times.

#include "engine/margins/margins.h"

#include <cmath>
#include <cstdio>

#include <nlohmann/json.hpp>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/commands.h"
#include "engine/cli/options.h"
#include "engine/cli/pace.h"
#include "engine/cli/table.h"

namespace plumbline::cli {

namespace {

constexpr std::uint64_t kMostFlights = 10'000'000;
constexpr double kShownChance = 0.001;  // chosen: rarer, and only tight, is left to --json
constexpr std::size_t kShownInfluences = 3;

/// A share in percent, with no more digits than its interval bears out.
std::string percent(double share, double width) {
    const int decimals = width > 0.02 ? 0 : width > 0.002 ? 1 : 2;
    return formatFixed(100 * share, decimals);
}

std::string chanceText(std::uint64_t hits, std::uint64_t flights) {
    if (flights == 0) return "";
    const margins::Interval i = margins::wilson(hits, flights);
    const double width = i.high - i.low;
    const double share = static_cast<double>(hits) / static_cast<double>(flights);
    return percent(share, width) + " % (" + percent(i.low, width) + " to " +
           percent(i.high, width) + ")";
}

std::string influenceText(const std::vector<margins::Influence>& influences) {
    std::string text;
    for (std::size_t i = 0; i < std::min(influences.size(), kShownInfluences); ++i)
        text += (i ? ", " : "") + influences[i].input + " " +
                formatFixed(100 * influences[i].share, 0) + " %";
    return text.empty() ? "none alone" : text;
}

void printHeights(const char* title, const std::vector<margins::HeightSpread>& heights,
                  units::DisplayUnits units) {
    if (heights.empty()) return;
    std::vector<std::vector<std::string>> rows = {
        {title, "plan", "5 %", "50 %", "95 %", "what matters most"}};
    for (const margins::HeightSpread& h : heights)
        rows.push_back({h.figure, units::formatHeight(h.plan_m, units),
                        units::formatHeight(h.low_m, units), units::formatHeight(h.middle_m, units),
                        units::formatHeight(h.high_m, units), influenceText(h.influences)});
    printTable(stdout, rows);
    std::puts("");
}

void printReport(const std::string& routine, const margins::Report& report,
                 units::DisplayUnits units) {
    std::vector<std::vector<std::string>> rows = {
        {"finding", "unsafe or worse", "tight or worse", "plan", "what matters most"}};
    std::size_t rare = 0;
    for (const margins::Chance& c : report.chances) {
        if (c.unsafe == 0 &&
            static_cast<double>(c.tight) < kShownChance * static_cast<double>(report.flights)) {
            ++rare;
            continue;
        }
        rows.push_back({c.figure.empty() ? c.kind : c.figure + ": " + c.kind,
                        chanceText(c.unsafe, report.flights), chanceText(c.tight, report.flights),
                        c.in_plan ? "too" : "not", influenceText(c.influences)});
    }
    if (rows.size() > 1) {
        printTable(stdout, rows);
        std::puts("");
    }
    if (rare > 0) std::printf("%zu rarer ones, only tight, are in --json\n\n", rare);
    printHeights("top", report.tops, units);
    printHeights("lowest point", report.lowest, units);
    if (!report.cues.empty()) {
        rows = {{"cue", "plan", "5 %", "95 %"}};
        for (const margins::CueWindow& c : report.cues)
            rows.push_back({c.words, units::formatTime(c.plan_s), units::formatTime(c.early_s),
                            units::formatTime(c.late_s)});
        printTable(stdout, rows);
        std::puts("");
    }
    std::printf(
        "%s: of %llu flights %s had something unsafe or worse, %s tight or worse\n"
        "In brackets: 95 %% confidence for the number of flights; how well the spreads and the "
        "model fit the\npilot and the aircraft is not in it. The percentages of what matters are "
        "shares of the variance.\n%s\n",
        routine.c_str(), static_cast<unsigned long long>(report.flights),
        chanceText(report.unsafe, report.flights).c_str(),
        chanceText(report.tight, report.flights).c_str(), check::caution());
}

using Json = nlohmann::ordered_json;

Json jsonOf(const std::vector<margins::Influence>& influences) {
    Json list = Json::array();
    for (const margins::Influence& i : influences)
        list.push_back({{"input", i.input}, {"variance_share", std::round(100 * i.share) / 100}});
    return list;
}

Json chanceJson(std::uint64_t hits, std::uint64_t flights) {
    const margins::Interval i = margins::wilson(hits, flights);
    const auto rounded = [](double share) { return std::round(1e5 * share) / 1e5; };
    return {{"flights", hits},
            {"share", rounded(static_cast<double>(hits) / static_cast<double>(flights))},
            {"low95", rounded(i.low)},
            {"high95", rounded(i.high)}};
}

Json jsonOf(const std::vector<margins::HeightSpread>& heights) {
    const auto metres = [](double m) { return std::llround(m); };
    Json list = Json::array();
    for (const margins::HeightSpread& h : heights)
        list.push_back({{"figure", h.figure},
                        {"plan_m", metres(h.plan_m)},
                        {"p05_m", metres(h.low_m)},
                        {"p50_m", metres(h.middle_m)},
                        {"p95_m", metres(h.high_m)},
                        {"influences", jsonOf(h.influences)}});
    return list;
}

void printJson(const variant::Flown& flown, const margins::Report& report, std::uint64_t seed) {
    const auto tenths = [](double s) { return std::round(10 * s) / 10; };
    Json findings = Json::array(), cues = Json::array();
    for (const margins::Chance& c : report.chances)
        findings.push_back({{"kind", c.kind},
                            {"figure", c.figure},
                            {"in_plan", c.in_plan},
                            {"unsafe", chanceJson(c.unsafe, report.flights)},
                            {"tight", chanceJson(c.tight, report.flights)},
                            {"influences", jsonOf(c.influences)}});
    for (const margins::CueWindow& c : report.cues)
        cues.push_back({{"words", c.words},
                        {"plan_s", tenths(c.plan_s)},
                        {"p05_s", tenths(c.early_s)},
                        {"p95_s", tenths(c.late_s)}});
    const Json all = {{"routine", flown.workspace.routine.name},
                      {"variant", flown.label},
                      {"flights", report.flights},
                      {"seed", seed},
                      {"unsafe", chanceJson(report.unsafe, report.flights)},
                      {"tight", chanceJson(report.tight, report.flights)},
                      {"findings", findings},
                      {"tops", jsonOf(report.tops)},
                      {"lowest", jsonOf(report.lowest)},
                      {"cues", cues},
                      {"caution", check::caution()}};
    std::printf("%s\n", all.dump(2, ' ', false, Json::error_handler_t::replace).c_str());
}

}  // namespace

int runMargins(const Arguments& arguments) {
    OptionParser parser("margins",
                        "Flies a routine imperfectly many times, each flight with its own errors "
                        "of hand and day: the chance of every finding, how high tops and lowest "
                        "points are, when cues fall, and which error matters most. The errors' "
                        "sizes are in the pilot's file, [spread].",
                        "plumbline margins evening.routine.toml\n"
                        "  plumbline margins demo --flights 1000 --seed 7 --json");
    RoutineOptions options;
    margins::Wishes wishes;
    unsigned threads = 0;
    bool json = false;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    addRoutineOptions(parser.app(), options);
    parser.app()
        .add_option("--flights", wishes.flights, "how many, default 10000")
        ->check(CLI::Range(std::uint64_t{1}, kMostFlights))
        ->type_name("N");
    parser.app()
        .add_option("--seed", wishes.seed,
                    "which flights are drawn, default 1: the same number, the same flights")
        ->type_name("S");
    parser.app()
        .add_option("--threads", threads,
                    "how many work at once, default one for each core; the result is the same")
        ->check(CLI::Range(1U, 1024U))
        ->type_name("N");
    parser.app().add_flag("--json", json, "the result as JSON");
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    const Expected<variant::Flown, Problems> flown = flyRoutine(options, units);
    if (!flown) return refuse(flown.error());
    printRemarks(options.routine, flown->remarks);
    Pace pace(1);
    wishes.executor = system::parallel(threads);
    wishes.progress = [&](std::uint64_t done) {
        const double share = static_cast<double>(done) / static_cast<double>(wishes.flights);
        if (done != wishes.flights && pace.due())
            std::fprintf(stderr, "margins: %.0f %%, about %.0f s left\n", 100 * share,
                         std::ceil(pace.left_s(share)));
        return true;
    };
    const margins::Report report = margins::fly(*flown, wishes);
    if (json)
        printJson(*flown, report, wishes.seed);
    else
        printReport(flown->workspace.routine.name, report, units);
    return report.tight > 0 ? kDoneWithFindings : kDone;
}

}  // namespace plumbline::cli

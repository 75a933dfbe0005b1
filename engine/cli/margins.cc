// plumbline margins: the routine flown imperfectly many times.

#include "engine/margins/margins.h"

#include <cmath>
#include <cstdio>

#include <nlohmann/json.hpp>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/commands.h"
#include "engine/cli/finding_line.h"
#include "engine/cli/options.h"
#include "engine/cli/pace.h"
#include "engine/cli/table.h"
#include "engine/out/path_csv.h"

namespace plumbline::cli {

namespace {

constexpr std::uint64_t kMostFlights = 10'000'000;
constexpr double kShownChance = 0.001;  // chosen: rarer, and only tight, is left to --json
constexpr std::size_t kShownInfluences = 3;
constexpr double kPathRate_hz = 100;  // as `solve` writes

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

void printGates(const std::vector<margins::GateMargin>& gates, units::DisplayUnits units) {
    if (gates.empty()) return;
    std::vector<std::vector<std::string>> rows = {{"top above its gate", "at", "plan", "5 %",
                                                   "50 %", "95 %", "below it",
                                                   "what matters most"}};
    for (const margins::GateMargin& g : gates)
        rows.push_back({g.figure, units::formatTime(g.plan_s), units::formatHeight(g.plan_m, units),
                        units::formatHeight(g.low_m, units), units::formatHeight(g.middle_m, units),
                        units::formatHeight(g.high_m, units), chanceText(g.below, g.flights),
                        influenceText(g.influences)});
    printTable(stdout, rows);
    std::puts("");
}

std::string wrongText(const margins::WorstFlight& flight) {
    std::string text;
    for (std::size_t i = 0; i < flight.wrong.size(); ++i) {
        const margins::WorstFlight::Wrong& w = flight.wrong[i];
        // A figure is named once for all that goes wrong in it at a stretch.
        const bool again = i > 0 && flight.wrong[i - 1].figure == w.figure;
        if (again)
            text += ", " + w.kind;
        else
            text += (i > 0 ? "; " : "") + (w.figure.empty() ? "" : w.figure + ": ") + w.kind;
    }
    const std::uint64_t more = flight.tight - flight.wrong.size();
    return more == 0 ? text : text + "; " + std::to_string(more) + " more";
}

void printReport(const std::string& routine, const margins::Report& report,
                 units::DisplayUnits units) {
    std::vector<std::vector<std::string>> rows = {
        {"finding", "unsafe or worse", "tight or worse", "plan", "worst in", "what matters most"}};
    std::size_t rare = 0;
    for (const margins::Chance& c : report.chances) {
        if (c.unsafe == 0 &&
            static_cast<double>(c.tight) < kShownChance * static_cast<double>(report.flights)) {
            ++rare;
            continue;
        }
        rows.push_back({c.figure.empty() ? c.kind : c.figure + ": " + c.kind,
                        chanceText(c.unsafe, report.flights), chanceText(c.tight, report.flights),
                        c.in_plan ? "too" : "not", std::to_string(c.worst_flight),
                        influenceText(c.influences)});
    }
    if (rows.size() > 1) {
        printTable(stdout, rows);
        std::puts("");
    }
    if (rare > 0) std::printf("%zu rarer ones, only tight, are in --json\n\n", rare);
    printHeights("top", report.tops, units);
    printHeights("lowest point", report.lowest, units);
    printGates(report.gates, units);
    if (!report.cues.empty()) {
        rows = {{"cue", "plan", "5 %", "95 %"}};
        for (const margins::CueWindow& c : report.cues)
            rows.push_back({c.words, units::formatTime(c.plan_s), units::formatTime(c.early_s),
                            units::formatTime(c.late_s)});
        printTable(stdout, rows);
        std::puts("");
    }
    if (!report.worst.empty()) {
        rows = {{"flight", "unsafe", "tight", "what went wrong in it, the worst"}};
        for (const margins::WorstFlight& w : report.worst)
            rows.push_back({std::to_string(w.flight), std::to_string(w.unsafe),
                            std::to_string(w.tight - w.unsafe), wrongText(w)});
        printTable(stdout, rows);
        std::puts("--flight N -o FILE writes one of them as a path: show the routine beside it\n");
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
    Json findings = Json::array(), cues = Json::array(), figures = Json::array(),
         worst = Json::array();
    for (const margins::Chance& c : report.chances)
        findings.push_back({{"kind", c.kind},
                            {"figure", c.figure},
                            {"in_plan", c.in_plan},
                            {"unsafe", chanceJson(c.unsafe, report.flights)},
                            {"tight", chanceJson(c.tight, report.flights)},
                            {"worst_flight", c.worst_flight},
                            {"influences", jsonOf(c.influences)}});
    for (const margins::FigureChance& f : report.figures)
        figures.push_back({{"figure", f.figure},
                           {"unsafe", chanceJson(f.unsafe, report.flights)},
                           {"tight", chanceJson(f.tight, report.flights)}});
    Json gates = Json::array();
    for (const margins::GateMargin& g : report.gates)
        gates.push_back({{"figure", g.figure},
                         {"plan_s", tenths(g.plan_s)},
                         {"plan_m", std::llround(g.plan_m)},
                         {"p05_m", std::llround(g.low_m)},
                         {"p50_m", std::llround(g.middle_m)},
                         {"p95_m", std::llround(g.high_m)},
                         {"below", chanceJson(g.below, g.flights)},
                         {"influences", jsonOf(g.influences)}});
    for (const margins::WorstFlight& w : report.worst) {
        Json wrong = Json::array();
        for (const margins::WorstFlight::Wrong& one : w.wrong)
            wrong.push_back({{"kind", one.kind}, {"figure", one.figure}});
        worst.push_back({{"flight", w.flight},
                         {"unsafe", w.unsafe},
                         {"tight_or_worse", w.tight},
                         {"worst", wrong}});
    }
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
                      {"figures", figures},
                      {"worst_flights", worst},
                      {"tops", jsonOf(report.tops)},
                      {"lowest", jsonOf(report.lowest)},
                      {"above_gates", gates},
                      {"cues", cues},
                      {"caution", check::caution()}};
    std::printf("%s\n", all.dump(2, ' ', false, Json::error_handler_t::replace).c_str());
}

/// One flight's path in place of the counts.
int writeFlight(const RoutineOptions& options, const variant::Flown& flown,
                const margins::Wishes& wishes, std::uint64_t flight, const std::string& output,
                units::DisplayUnits units) {
    if (const int refused = refuseOverwriting(output, {options.routine})) return refused;
    const margins::FlownAgain again = margins::flyAgain(flown, wishes, flight, kPathRate_hz);
    if (const int failed = writeResult(output, out::pathCsv(again.path))) return failed;
    std::FILE* const to = output == "-" ? stderr : stdout;
    bool found = false;
    for (const check::Finding& f : again.findings) {
        if (f.grade < check::Grade::Tight) continue;
        found = true;
        std::fprintf(to, "%s%s\n", check::gradeWord(f.grade), findingLine(f, units).c_str());
    }
    std::fprintf(to,
                 "flight %llu of seed %llu in %s; it jumps where a figure begins with new errors\n"
                 "%s\n",
                 static_cast<unsigned long long>(flight),
                 static_cast<unsigned long long>(wishes.seed), output.c_str(), check::caution());
    return found ? kDoneWithFindings : kDone;
}

}  // namespace

int runMargins(const Arguments& arguments) {
    OptionParser parser("margins",
                        "Flies a routine imperfectly many times, each flight with its own errors "
                        "of hand and day: the chance of every finding, how high tops and lowest "
                        "points are, when cues fall, and which error matters most. The errors' "
                        "sizes are in the pilot's file, [spread].",
                        "plumbline margins evening.routine.toml\n"
                        "  plumbline margins demo --flights 1000 --seed 7 --json\n"
                        "  plumbline margins demo --flight 93 -o flight93.csv");
    RoutineOptions options;
    margins::Wishes wishes;
    unsigned threads = 0;
    bool json = false;
    std::optional<std::uint64_t> flight;
    std::string output;
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
    CLI::Option* const one =
        parser.app()
            .add_option("--flight", flight,
                        "fly only this one, by its number in the table, and write its path")
            ->check(CLI::Range(std::uint64_t{0}, kMostFlights))
            ->type_name("N");
    CLI::Option* const file =
        parser.app()
            .add_option("-o,--output", output, "that path as CSV; - for stdout")
            ->type_name("FILE");
    one->needs(file);
    file->needs(one);
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    const Expected<variant::Flown, Problems> flown = flyRoutine(options, units);
    if (!flown) return refuse(flown.error());
    printRemarks(options.routine, flown->remarks);
    if (flight) return writeFlight(options, *flown, wishes, *flight, output, units);
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

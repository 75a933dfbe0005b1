// plumbline solve: figure text to a 6-DOF path.

#include "engine/fly/solve.h"

#include <algorithm>
#include <cstdio>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/commands.h"
#include "engine/cli/options.h"
#include "engine/cli/table.h"
#include "engine/out/path_csv.h"

namespace plumbline::cli {

namespace {

/// Not flown as written: a load that falls short by up to 1 g is information.
bool isFinding(const fly::SolveNote& note) {
    using Kind = fly::SolveNote::Kind;
    if (note.kind != Kind::LoadShort) return note.kind != Kind::Information;
    return note.short_g > fly::kLoadShortFinding_g;
}

/// Start, entry speed, lowest point and loads of each figure.
void printFigures(std::FILE* to, const path::Path& path, units::DisplayUnits units) {
    std::vector<std::vector<std::string>> rows = {
        {"figure", "start", "entry speed", "lowest", "most load", "least load"}};
    std::size_t at = 0;
    const std::vector<path::Sample>& samples = path.samples;
    for (const path::Figure& figure : path.figures) {
        while (at < samples.size() && samples[at].time_s < figure.start_s) ++at;
        if (at == samples.size()) break;
        const double entry_mps = samples[at].airspeed_mps;
        double lowest_m = samples[at].position_S_m.z;
        LoadFactors load = loadFactors(samples[at].specific_force_B_mps2);
        double most_g = load.normal_g, least_g = load.normal_g;
        for (std::size_t i = at; i < samples.size() && samples[i].time_s <= figure.stop_s; ++i) {
            load = loadFactors(samples[i].specific_force_B_mps2);
            lowest_m = std::min(lowest_m, samples[i].position_S_m.z);
            most_g = std::max(most_g, load.normal_g);
            least_g = std::min(least_g, load.normal_g);
        }
        rows.push_back({figure.name, units::formatTime(figure.start_s),
                        units::formatSpeed(entry_mps, units), units::formatHeight(lowest_m, units),
                        units::formatLoad(most_g), units::formatLoad(least_g)});
    }
    printTable(to, rows);
}

/// What the solver has to say, where it stands in the routine file.
void printNotes(std::FILE* to, const std::string& file, const path::Path& path,
                const std::vector<fly::SolveNote>& notes) {
    for (const fly::SolveNote& note : notes) {
        Problem problem;
        problem.where = {file, note.source_line, note.source_line > 0 ? 1 : 0};
        if (note.figure >= 0 && note.figure < std::ssize(path.figures))
            problem.what = path.figures[static_cast<std::size_t>(note.figure)].name + ": ";
        problem.what += note.what;
        if (!note.value.empty()) problem.what += ", " + note.value;
        if (!note.limit.empty()) problem.what += " (wanted " + note.limit + ")";
        problem.remedy = note.remedy;
        std::fprintf(to, "%s\n", describe(problem).c_str());
    }
}

}  // namespace

int runSolve(const Arguments& arguments) {
    OptionParser parser("solve", "Flies a routine and writes its path.",
                        "plumbline solve evening.routine.toml -o evening.csv\n"
                        "  plumbline solve evening.routine.toml --floor 600m --mirror -o high.csv");
    RoutineOptions options;
    std::string output;
    std::string rate = "100";
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    addRoutineOptions(parser.app(), options);
    parser.app()
        .add_option("-o,--output", output, "the path as CSV; - for stdout")
        ->type_name("FILE")
        ->required();
    parser.app()
        .add_option("--rate", rate, "rows a second, default 100; joints have one more")
        ->type_name("N");
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    const Expected<double, Problems> rate_hz = parseRate(rate);
    if (!rate_hz) return refuse(rate_hz.error());
    const Expected<variant::Flown, Problems> flown = flyRoutine(options, units);
    if (!flown) return refuse(flown.error());
    if (const int refused = refuseOverwriting(output, {options.routine})) return refused;
    const fly::Solution& solution = flown->solution;
    const path::Path path = solution.samplePath(*rate_hz);
    if (const int failed = writeResult(output, out::pathCsv(path))) return failed;

    printRemarks(options.routine, flown->remarks);
    std::FILE* const to = output == "-" ? stderr : stdout;
    printFigures(to, path, units);
    printNotes(to, flown->workspace.routine_path.generic_string(), path, solution.notes());
    std::fprintf(to, "%s long, %zu rows in %s\n%s\n", units::formatTime(path.duration_s()).c_str(),
                 path.samples.size(), output.c_str(), check::caution());
    const bool finding = std::any_of(solution.notes().begin(), solution.notes().end(), isFinding);
    return finding ? kDoneWithFindings : kDone;
}

}  // namespace plumbline::cli

// plumbline export: a routine or a flight in an open format.

#include "engine/out/export.h"

#include <algorithm>
#include <cstdio>
#include <filesystem>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/commands.h"
#include "engine/cli/logs.h"
#include "engine/cli/options.h"
#include "engine/earth/local_projection.h"
#include "engine/load/demo_name.h"

namespace plumbline::cli {

namespace {

constexpr double kFarthest_m = 50000;  // chosen: so far the ground may be taken as flat

struct ExportOptions {
    std::vector<std::string> files;
    VariantOptions variant;
    std::string output, rate;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
};

bool namesRoutine(const std::string& file) {
    return std::filesystem::path(file).extension() == ".toml" || load::meansDemo(file);
}

Problems onlyOne(Problem problem) { return Problems(1, std::move(problem)); }

Expected<out::Flight, Problems> routineFlight(const ExportOptions& options, double rate_hz) {
    if (options.files.size() > 1) {
        Problem problem;
        problem.where.file = options.files[1];
        problem.what = "one routine at a time, or the recordings of one flight";
        problem.remedy = "export it by itself";
        return Unexpected(onlyOne(std::move(problem)));
    }
    RoutineOptions routine;
    routine.routine = options.files.front();
    routine.variant = options.variant;
    const Expected<variant::Flown, Problems> flown = flyRoutine(routine, options.units);
    if (!flown) return Unexpected(flown.error());
    auto path = std::make_shared<path::Path>(flown->solution.samplePath(rate_hz));
    if (path->samples.empty()) {
        Problem problem;
        problem.where.file = options.files.front();
        problem.what = "nothing in it can be flown";
        problem.remedy = "give it at least one figure with one line";
        return Unexpected(onlyOne(std::move(problem)));
    }
    printRemarks(options.files.front(), flown->remarks);
    out::Flight flight = out::flightOf(flown->workspace, std::move(path));
    if (!flown->label.empty()) flight.title += " (" + flown->label + ")";
    return flight;
}

Expected<out::Flight, Problems> recordedFlight(const ExportOptions& options) {
    const VariantOptions& variant = options.variant;
    if (variant.show || variant.ceiling || variant.floor || variant.mirror ||
        variant.overrides.weather) {
        Problem problem;
        problem.where.file = options.files.front();
        problem.what = "a recording stays as it was flown";
        problem.remedy = "leave out --show, --ceiling, --floor, --mirror and --weather";
        return Unexpected(onlyOne(std::move(problem)));
    }
    std::optional<data::Site> site;
    if (variant.overrides.site_file) {
        Expected<data::Site, Problems> read = load::loadSite(*variant.overrides.site_file);
        if (!read) return Unexpected(std::move(read).error());
        site = std::move(*read);
    }
    Expected<Logs, Problems> logs = openLogs(options.files);
    if (!logs) return Unexpected(std::move(logs).error());
    Expected<record::ImportedTrack, Problems> track =
        record::readRecordings(logs->named(), wishesOf("export"));
    if (!track) return Unexpected(std::move(track).error());
    if (site && track->origin) {
        const double apart_m = earth::groundDistance_m(site->show_centre, *track->origin);
        if (apart_m > kFarthest_m) {
            Problem problem;
            problem.where.file = *variant.overrides.site_file;
            problem.what = "this site is " + formatFixed(apart_m / 1000, 0) +
                           " km from where the recording begins";
            problem.remedy = "give the site it was flown at, or none";
            return Unexpected(onlyOne(std::move(problem)));
        }
    }
    printProblems(track->warnings);
    std::filesystem::path name = std::filesystem::path(options.files.front()).filename();
    if (name.extension() == ".gz") name = name.stem();
    return out::flightOf(std::move(*track), site, name.stem().string());
}

}  // namespace

int runExport(const Arguments& arguments) {
    OptionParser parser("export",
                        "Writes a routine or a flight in an open format, by the ending of the "
                        "name: .glb (glTF: the "
                        "aircraft flying its path in 3-D), .kml (a globe's lines, with times), "
                        ".gpx (a track), .csv "
                        "(as solve and import write it).",
                        "plumbline export evening.routine.toml -o evening.glb\n"
                        "  plumbline export evening.routine.toml --mirror -o evening.kml\n"
                        "  plumbline export morning.igc --site vellmoor.site.toml -o morning.glb");
    ExportOptions options;
    parser.app()
        .add_option("FILE", options.files,
                    "one *.routine.toml (or the word demo), or the recordings of one flight")
        ->required();
    addVariantOptions(parser.app(), options.variant);
    parser.app()
        .add_option("-o,--output", options.output,
                    "what to write: a name that ends in .glb, .kml, .gpx or .csv")
        ->type_name("FILE")
        ->required();
    parser.app()
        .add_option("--rate", options.rate,
                    "rows a second of a routine's .csv (default 100), points a second of a .gpx "
                    "(default 10)")
        ->type_name("N");
    addUnitsOption(parser.app(), options.units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    const Expected<out::Format, Problem> format = out::formatOf(options.output);
    if (!format) return refuse(onlyOne(format.error()));
    const bool gpx = *format == out::Format::Gpx;
    const Expected<double, Problems> rate_hz = parseRate(!options.rate.empty() ? options.rate
                                                         : gpx                 ? "10"
                                                                               : "100");
    if (!rate_hz) return refuse(rate_hz.error());
    const bool routine = std::any_of(options.files.begin(), options.files.end(), namesRoutine);
    // chosen: a .gpx takes its points from samples that are there, so there must be enough
    const double sampled_hz = *format == out::Format::Csv ? *rate_hz : std::max(*rate_hz, 100.0);
    const Expected<out::Flight, Problems> flight =
        routine ? routineFlight(options, sampled_hz) : recordedFlight(options);
    if (!flight) return refuse(flight.error());
    const Expected<out::Exported, Problem> made =
        out::exported(*flight, *format, options.output, options.units, *rate_hz);
    if (!made) return refuse(onlyOne(made.error()));
    if (const int refused = refuseOverwriting(options.output, options.files)) return refused;
    if (const int failed = writeResult(options.output, made->bytes)) return failed;
    printRemarks(options.output, made->remarks);
    std::printf("%s: %s, %s long, %zu kB\n%s\n", options.output.c_str(), flight->title.c_str(),
                units::formatTime(flight->path->duration_s()).c_str(),
                (made->bytes.size() + 999) / 1000, check::caution());
    return kDone;
}

}  // namespace plumbline::cli

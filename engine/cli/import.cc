// plumbline import: a recording to a path.

#include <algorithm>
#include <cstdio>

#include "engine/base/number_text.h"
#include "engine/cli/commands.h"
#include "engine/cli/logs.h"
#include "engine/cli/options.h"
#include "engine/out/path_csv.h"
#include "engine/record/read_recording.h"
#include "engine/system/whole_file.h"
#include "engine/units/units.h"

namespace plumbline::cli {

namespace {

/// What the recording tells and what it does not, in words.
std::string knownWords(const path::Known& known) {
    std::string words;
    const auto add = [&words](bool is_known, const char* word) {
        if (!is_known) words += (words.empty() ? "" : ", ") + std::string(word);
    };
    add(known.place, "place");
    add(known.attitude, "attitude");
    add(known.bank, "bank");
    add(known.load, "load");
    add(known.airspeed, "airspeed");
    add(known.incidence || !known.airspeed, "incidence");
    add(known.power, "power");
    add(known.fuel, "fuel");
    return words.empty() ? "everything is known" : "not known: " + words;
}

void printTrack(std::FILE* to, const record::ImportedTrack& track, units::DisplayUnits units) {
    const std::vector<path::Sample>& samples = track.path.samples;
    double lowest_m = samples.front().position_S_m.z, highest_m = lowest_m, fastest_mps = 0;
    for (const path::Sample& sample : samples) {
        lowest_m = std::min(lowest_m, sample.position_S_m.z);
        highest_m = std::max(highest_m, sample.position_S_m.z);
        fastest_mps = std::max(fastest_mps, glm::length(sample.velocity_S_mps));
    }
    std::fprintf(to, "%s, %zu samples, %s long%s%s\n", track.kind.c_str(), samples.size(),
                 units::formatTime(track.path.duration_s()).c_str(),
                 track.start_utc.empty() ? "" : ", from ", track.start_utc.c_str());
    std::fprintf(to, "heights %s to %s", units::formatHeight(lowest_m, units).c_str(),
                 units::formatHeight(highest_m, units).c_str());
    if (track.path.known.place)
        std::fprintf(to, ", fastest %s over the ground",
                     units::formatSpeed(fastest_mps, units).c_str());
    std::fprintf(to, "\n");
    if (track.origin)
        std::fprintf(to, "origin %s deg north, %s deg east, x east, y north\n",
                     formatFixed(track.origin->latitude_rad / units::kDegree_rad, 6).c_str(),
                     formatFixed(track.origin->longitude_rad / units::kDegree_rad, 6).c_str());
    std::fprintf(to, "%s\n", knownWords(track.path.known).c_str());
    double attitude_rad = 0, position_m = 0;
    for (const path::Sample& sample : samples) {
        attitude_rad += static_cast<double>(sample.attitude_sigma_rad);
        position_m += static_cast<double>(sample.position_sigma_m);
    }
    const double count = static_cast<double>(samples.size());
    if (attitude_rad > 0 && position_m > 0)
        std::fprintf(to, "expected errors on average: attitude %s deg, place %s\n",
                     formatFixed(attitude_rad / count / units::kDegree_rad, 1).c_str(),
                     units::formatHeight(position_m / count, units).c_str());
    for (const std::string& note : track.notes) std::fprintf(to, "%s\n", note.c_str());
}

/// A column map from its file.
Expected<record::ColumnMap, Problems> readColumns(const std::string& file) {
    const system::ReadFile read = system::readWholeFile(file);
    if (read.bytes) return record::readColumnMap(*read.bytes, file);
    Problem problem;
    problem.where.file = file;
    problem.what = "this column map cannot be read: " + read.reason;
    problem.remedy = "import --explain writes one";
    return Unexpected(Problems{problem});
}

int explain(const std::vector<record::NamedBytes>& inputs, const record::ColumnMap* columns,
            const std::string& output, const std::vector<std::string>& logs) {
    std::string text;
    for (const record::NamedBytes& input : inputs) {
        const Expected<std::string, Problems> one = record::explainRecording(input, columns);
        if (!one) return refuse(one.error());
        text += *one;
    }
    if (!output.empty())
        if (const int refused = refuseOverwriting(output, logs)) return refused;
    return writeResult(output.empty() ? "-" : output, text);
}

}  // namespace

int runImport(const Arguments& arguments) {
    OptionParser parser(
        "import",
        "Reads a recording (path CSV, CSV of any logger, IGC, GPX, KML tracks, NMEA, ULog, also "
        "packed by gzip; several files of one flight are joined) and writes it as "
        "a path. Attitude is taken from the log or estimated from its sensors.",
        "plumbline import morning.igc -o morning.csv");
    std::vector<std::string> logs;
    std::string output, columns_file, mounting;
    bool explains = false;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    parser.app()
        .add_option("LOG", logs, "recordings; their kind is told by what is in them")
        ->required();
    parser.app()
        .add_option("-o,--output", output, "the path as CSV; - for stdout")
        ->type_name("FILE");
    parser.app().add_flag("--explain", explains,
                          "say how the files are understood instead; for a CSV as a column map to "
                          "change and give back");
    parser.app()
        .add_option("--columns", columns_file, "a column map for the CSV files (see --explain)")
        ->type_name("FILE");
    parser.app()
        .add_option("--mounting", mounting,
                    "how the sensors sit: where two of their axes point in the aircraft, such as "
                    "\"x forward, z down\" (forward, back, right, left, down, up); found from the "
                    "flight where it is not said")
        ->type_name("WORDS");
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    if (output.empty() && !explains) {
        Problem problem;
        problem.what = "import needs a place to write to";
        problem.remedy = "add -o FILE, or --explain";
        return refuse({problem});
    }
    std::optional<record::ColumnMap> columns;
    if (!columns_file.empty()) {
        Expected<record::ColumnMap, Problems> read = readColumns(columns_file);
        if (!read) return refuse(read.error());
        columns = std::move(*read);
    }
    record::Wishes wishes = wishesOf("import");
    wishes.columns = columns ? &*columns : nullptr;
    if (!mounting.empty()) {
        wishes.q_BI = record::readMounting(mounting);
        if (!wishes.q_BI) {
            Problem problem;
            problem.what = "--mounting \"" + mounting + "\" does not say how the sensors sit";
            problem.remedy =
                "two of x, y, z with forward, back, right, left, down or up, square to each other: "
                "\"x forward, z down\"";
            return refuse({problem});
        }
    }
    Expected<Logs, Problems> opened = openLogs(logs);
    if (!opened) return refuse(opened.error());
    const std::vector<record::NamedBytes> inputs = opened->named();
    if (explains) return explain(inputs, wishes.columns, output, logs);
    const Expected<record::ImportedTrack, Problems> track = record::readRecordings(inputs, wishes);
    if (!track) return refuse(track.error());
    if (const int refused = refuseOverwriting(output, logs)) return refused;
    out::PathCsvPieces pieces(track->path);
    if (const int failed = writeResult(output, [&pieces] { return pieces.next(); })) return failed;
    printProblems(track->warnings);
    printTrack(output == "-" ? stderr : stdout, *track, units);
    return kDone;
}

}  // namespace plumbline::cli

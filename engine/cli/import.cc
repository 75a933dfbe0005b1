// plumbline import: a recording to a path.

#include <algorithm>
#include <cstdio>

#include "engine/base/number_text.h"
#include "engine/cli/commands.h"
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
    add(known.attitude, "attitude");
    add(known.bank, "bank");
    add(known.load, "load");
    add(known.airspeed, "airspeed");
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
    std::fprintf(to, "heights %s to %s, fastest %s over the ground\n",
                 units::formatHeight(lowest_m, units).c_str(),
                 units::formatHeight(highest_m, units).c_str(),
                 units::formatSpeed(fastest_mps, units).c_str());
    if (track.origin)
        std::fprintf(to, "origin %s deg north, %s deg east, x east, y north\n",
                     formatFixed(track.origin->latitude_rad / units::kDegree_rad, 6).c_str(),
                     formatFixed(track.origin->longitude_rad / units::kDegree_rad, 6).c_str());
    std::fprintf(to, "%s\n", knownWords(track.path.known).c_str());
}

}  // namespace

int runImport(const Arguments& arguments) {
    OptionParser parser("import",
                        "Reads a recording (path CSV, CSV with time and place, IGC, GPX; several "
                        "files of one flight are joined) and writes it as a path.",
                        "plumbline import morning.igc -o morning.csv");
    std::vector<std::string> logs;
    std::string output;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    parser.app()
        .add_option("LOG", logs, "recordings; their kind is told by what is in them")
        ->required();
    parser.app()
        .add_option("-o,--output", output, "the path as CSV; - for stdout")
        ->type_name("FILE")
        ->required();
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    Problems problems;
    std::vector<std::string> contents(logs.size());
    std::vector<record::NamedBytes> inputs;
    for (std::size_t i = 0; i < logs.size(); ++i) {
        system::ReadFile file = system::readWholeFile(logs[i]);
        if (file.bytes) {
            contents[i] = std::move(*file.bytes);
            inputs.push_back({logs[i], contents[i]});
            continue;
        }
        Problem problem;
        problem.where.file = logs[i];
        problem.what = "this recording cannot be read: " + file.reason;
        problem.remedy = "check the name and the folder";
        problems.push_back(std::move(problem));
    }
    if (!problems.empty()) return refuse(problems);
    const Expected<record::ImportedTrack, Problems> track = record::readRecordings(inputs);
    if (!track) return refuse(track.error());
    if (const int refused = refuseOverwriting(output, logs)) return refused;
    if (const int failed = writeResult(output, out::pathCsv(track->path))) return failed;
    printProblems(track->warnings);
    printTrack(output == "-" ? stderr : stdout, *track, units);
    return kDone;
}

}  // namespace plumbline::cli

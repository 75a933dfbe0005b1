#include "engine/record/read_recording.h"

#include "engine/base/check.h"
#include "engine/record/csv_track.h"
#include "engine/record/gpx.h"
#include "engine/record/igc.h"
#include "engine/record/path_csv_reader.h"
#include "engine/record/track_path.h"

namespace plumbline::record {

namespace {

Problem notRecognised(const NamedBytes& input) {
    if (input.bytes.empty())
        return {{input.file, 0, 0}, "this file is empty", "copy it again from the recorder"};
    const bool binary = input.bytes.substr(0, 4096).find('\0') != std::string_view::npos;
    return {
        {input.file, 0, 0},
        binary ? "this is a binary file of no known kind" : "this is no recording of a known kind",
        "give a path CSV, an IGC or GPX file, or a CSV whose header names time, latitude, "
        "longitude and altitude (or x, y, z) with their units"};
}

Expected<FixLog, Problems> readPositions(const NamedBytes& input) {
    const bool binary = input.bytes.find('\0') != std::string_view::npos;
    if (!binary && looksLikeGpx(input.bytes)) return readGpx(input);
    if (!binary && looksLikeCsvTrack(input.bytes)) return readCsvTrack(input);
    // A cut memory card leaves zero bytes at the end of an IGC file; its good lines still count.
    if (looksLikeIgc(input.bytes)) return readIgc(input);
    return failure(notRecognised(input));
}

}  // namespace

Expected<ImportedTrack, Problems> readRecordings(std::span<const NamedBytes> inputs) {
    PL_EXPECT(!inputs.empty());
    if (inputs.size() == 1 && looksLikePathCsv(inputs.front().bytes))
        return readPathCsv(inputs.front());
    std::vector<FixLog> logs;
    Problems problems;
    for (const NamedBytes& input : inputs) {
        if (looksLikePathCsv(input.bytes)) {
            problems.push_back(problem({input.file, 0, 0},
                                       "a path CSV cannot be joined with other recordings",
                                       "import it alone"));
            continue;
        }
        Expected<FixLog, Problems> log = readPositions(input);
        if (log)
            logs.push_back(std::move(*log));
        else
            problems.insert(problems.end(), log.error().begin(), log.error().end());
    }
    if (!problems.empty()) return Unexpected(problems);
    return trackFromLogs(std::move(logs));
}

Expected<ImportedTrack, Problems> readRecording(std::string_view bytes, const std::string& file) {
    const NamedBytes input{file, bytes};
    return readRecordings(std::span(&input, 1));
}

}  // namespace plumbline::record

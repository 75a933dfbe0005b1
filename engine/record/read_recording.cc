#include "engine/record/read_recording.h"

#include <algorithm>
#include <deque>

#include "engine/base/check.h"
#include "engine/base/number_text.h"
#include "engine/record/csv_log.h"
#include "engine/record/gpx.h"
#include "engine/record/gzip.h"
#include "engine/record/igc.h"
#include "engine/record/kml.h"
#include "engine/record/nmea.h"
#include "engine/record/path_csv_reader.h"
#include "engine/record/sensor_path.h"
#include "engine/record/track_path.h"
#include "engine/record/ulog.h"

namespace plumbline::record {

namespace {

Problem notRecognised(const NamedBytes& input) {
    if (input.bytes.empty())
        return {{input.file, 0, 0}, "this file is empty", "copy it again from the recorder"};
    const bool binary = input.bytes.substr(0, 4096).find('\0') != std::string_view::npos;
    // Rows with separators: a table, but nothing says what its columns are.
    LineReader lines(input.bytes);
    if (!binary && lines.next()) {
        const std::string_view first = lines.line();
        const bool row = first.find_first_of(",;\t") != std::string_view::npos;
        const std::size_t begin = first.find_first_not_of("-+ \"");
        const bool number =
            begin != std::string_view::npos && first[begin] >= '0' && first[begin] <= '9';
        if (row && number)
            return {
                {input.file, 1, 1},
                "this is a table without a header that names its columns",
                "add a first line such as time (s),latitude (deg),longitude (deg),altitude (m)"};
        if (row && lines.next() && lines.line().find_first_of("0123456789") == 0)
            return {{input.file, 1, 1},
                    "no columns of this table's header are known to go together",
                    "a time and a place, sensors or an attitude are needed: say what they are by a "
                    "column map (import --columns)"};
    }
    return {
        {input.file, 0, 0},
        binary ? "this is a binary file of no known kind" : "this is no recording of a known kind",
        "give a path CSV, an IGC, GPX, KML, NMEA or ULog file, or a CSV whose header names time "
        "and "
        "latitude, longitude, altitude (or x, y, z), or sensors, with their units"};
}

Expected<FixLog, Problems> readLog(const NamedBytes& input, const ColumnMap* columns) {
    if (looksLikeUlog(input.bytes)) return readUlog(input);
    const bool binary = input.bytes.substr(0, 65536).find('\0') != std::string_view::npos;
    if (!binary && looksLikeGpx(input.bytes)) return readGpx(input);
    if (!binary && looksLikeKml(input.bytes)) return readKml(input);
    if (!binary && looksLikeCsvLog(input.bytes, columns)) return readCsvLog(input, columns);
    // A cut memory card leaves zero bytes at the end of a file; its good lines still count.
    if (looksLikeIgc(input.bytes)) return readIgc(input);
    if (looksLikeNmea(input.bytes)) return readNmea(input);
    return failure(notRecognised(input));
}

/// Files as they are or unpacked; the unpacked bytes live as long as this.
struct Inputs {
    std::vector<NamedBytes> files;
    std::deque<std::string> unpacked;
    Problems warnings;
};

Expected<Inputs, Problems> unpackAll(std::span<const NamedBytes> inputs) {
    Inputs out;
    Problems problems;
    for (const NamedBytes& input : inputs) {
        out.files.push_back(input);
        if (!looksLikeGzip(input.bytes)) continue;
        Expected<Unpacked, Problems> unpacked = unpackGzip(input);
        if (!unpacked) {
            problems.insert(problems.end(), unpacked.error().begin(), unpacked.error().end());
            continue;
        }
        if (input.forget) input.forget();
        std::string& bytes = out.unpacked.emplace_back(std::move(unpacked->bytes));
        out.files.back().bytes = bytes;
        out.files.back().forget = [&bytes] { bytes = {}; };
        out.warnings.insert(out.warnings.end(), unpacked->warnings.begin(),
                            unpacked->warnings.end());
    }
    if (!problems.empty()) return Unexpected(std::move(problems));
    return out;
}

Expected<ImportedTrack, Problems> readUnpacked(std::span<const NamedBytes> inputs,
                                               const Wishes& wishes) {
    const ColumnMap* const columns = wishes.columns;
    if (inputs.size() == 1 && !columns && looksLikePathCsv(inputs.front().bytes))
        return readPathCsv(inputs.front());
    std::vector<FixLog> logs;
    Problems problems;
    std::size_t bytes = 0, read = 0;
    for (const NamedBytes& input : inputs) bytes += input.bytes.size();
    for (const NamedBytes& input : inputs) {
        // chosen: reading takes about a fifth of what sensors take
        wishes.tell(
            0.2 * static_cast<double>(read) / static_cast<double>(std::max<std::size_t>(bytes, 1)),
            "reading");
        read += input.bytes.size();
        if (!columns && looksLikePathCsv(input.bytes)) {
            problems.push_back(problem({input.file, 0, 0},
                                       "a path CSV cannot be joined with other recordings",
                                       "import it alone"));
            continue;
        }
        Expected<FixLog, Problems> log = readLog(input, columns);
        if (input.forget) input.forget();
        if (log)
            logs.push_back(std::move(*log));
        else
            problems.insert(problems.end(), log.error().begin(), log.error().end());
    }
    if (!problems.empty()) return Unexpected(std::move(problems));
    bool with_sensors = false;
    for (const FixLog& log : logs) with_sensors |= !log.sensors.empty();
    Expected<ImportedTrack, Problems> track =
        with_sensors ? pathFromSensors(std::move(logs), wishes) : trackFromLogs(std::move(logs));
    wishes.tell(1, "done");
    return track;
}

std::string describeLog(const FixLog& log) {
    const auto line = [](std::size_t count, const char* what, const std::vector<double>& t) {
        if (count == 0) return std::string();
        std::string rate;
        if (count > 1 && t.back() > t.front())
            rate = ", " + formatFixed(static_cast<double>(count - 1) / (t.back() - t.front()), 1) +
                   " a second";
        return "# " + std::to_string(count) + " " + what + rate + "\n";
    };
    const SensorLog& s = log.sensors;
    std::vector<double> fix_times;
    for (const Fix& fix : log.fixes) fix_times.push_back(fix.clock_s);
    std::string text = "# " + log.file + ": " + log.kind + "\n";
    text += line(log.fixes.size(), "places", fix_times);
    text += line(s.rate_I_radps.size(), "rates", s.rate_I_radps.clock_s);
    text += line(s.force_I_mps2.size(), "forces", s.force_I_mps2.clock_s);
    text += line(s.field_I.size(), "fields", s.field_I.clock_s);
    text += line(s.pressure_height_m.size(), "pressure heights", s.pressure_height_m.clock_s);
    text += line(s.airspeed_mps.size(), "airspeeds", s.airspeed_mps.clock_s);
    text += line(s.q_EB.size(), "attitudes", s.q_EB.clock_s);
    for (const Problem& warning : log.warnings) text += "# " + describe(warning) + "\n";
    return text;
}

}  // namespace

Expected<ImportedTrack, Problems> readRecordings(std::span<const NamedBytes> inputs,
                                                 const Wishes& wishes) {
    PL_EXPECT(!inputs.empty());
    Expected<Inputs, Problems> ready = unpackAll(inputs);
    if (!ready) return Unexpected(std::move(ready).error());
    Wishes all = wishes;
    if (wishes.columns && !wishes.q_BI) all.q_BI = readMounting(wishes.columns->mounting);
    Expected<ImportedTrack, Problems> track = readUnpacked(ready->files, all);
    if (track)
        track->warnings.insert(track->warnings.begin(), ready->warnings.begin(),
                               ready->warnings.end());
    return track;
}

Expected<ImportedTrack, Problems> readRecording(std::string_view bytes, const std::string& file) {
    const NamedBytes input{file, bytes};
    return readRecordings(std::span(&input, 1));
}

Expected<std::string, Problems> explainRecording(const NamedBytes& input,
                                                 const ColumnMap* columns) {
    Expected<Inputs, Problems> ready = unpackAll(std::span(&input, 1));
    if (!ready) return Unexpected(std::move(ready).error());
    const NamedBytes& file = ready->files.front();
    if (looksLikePathCsv(file.bytes)) return "# " + file.file + ": a path CSV of this program\n";
    const Expected<FixLog, Problems> log = readLog(file, columns);
    if (!log) return Unexpected(log.error());
    std::string text = describeLog(*log);
    if (log->kind != "CSV") return text;
    return text + "\n" +
           explainLayout(*findCsvLayout(file.bytes, columns), file.file,
                         columns ? columns->mounting : std::string());
}

}  // namespace plumbline::record

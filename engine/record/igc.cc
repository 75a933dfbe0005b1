#include "engine/record/igc.h"

#include <algorithm>
#include <cmath>

#include "engine/record/clock_text.h"
#include "engine/record/text_lines.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

constexpr std::size_t kShortestB = 35;

/// Where in a B record an addition stands; nothing when the recorder has none.
struct Addition {
    std::size_t start = 0;
    std::size_t length = 0;
};
struct Additions {
    Addition latitude_digits, longitude_digits, second_digits;
};

/// The decimal fraction that follows a field's last digit.
double fraction(std::string_view line, const Addition& addition) {
    if (addition.length == 0 || line.size() < addition.start + addition.length) return 0;
    const std::int32_t value = digits(line.substr(addition.start, addition.length));
    return value < 0 ? 0 : value / std::pow(10.0, static_cast<double>(addition.length));
}

/// I record: count, then first byte, last byte (from 1) and three-letter code of each addition.
Additions readAdditions(std::string_view line) {
    Additions additions;
    const std::int32_t count = line.size() < 3 ? 0 : digits(line.substr(1, 2));
    for (std::int32_t i = 0; i < count; ++i) {
        const std::size_t at = 3 + 7 * static_cast<std::size_t>(i);
        if (line.size() < at + 7) break;
        const std::int32_t first = digits(line.substr(at, 2));
        const std::int32_t last = digits(line.substr(at + 2, 2));
        if (first < 36 || last < first) continue;
        const Addition addition{static_cast<std::size_t>(first - 1),
                                static_cast<std::size_t>(last - first + 1)};
        const std::string_view code = line.substr(at + 4, 3);
        if (code == "LAD") additions.latitude_digits = addition;
        if (code == "LOD") additions.longitude_digits = addition;
        if (code == "TDS") additions.second_digits = addition;
    }
    return additions;
}

/// HFDTE160701, HFDTE: 160701, HFDTEDATE:160701,01: the start of that day.
std::optional<double> readDate(std::string_view line) {
    const std::size_t at = line.find_first_of("0123456789");
    if (at == std::string_view::npos || line.size() < at + 6) return std::nullopt;
    const std::int32_t year = digits(line.substr(at + 4, 2));
    // chosen: the format is of 1995, so two digits from 80 up are of the last century.
    return year < 0 ? std::nullopt
                    : secondsOfDate(year >= 80 ? 1900 + year : 2000 + year,
                                    digits(line.substr(at + 2, 2)), digits(line.substr(at, 2)));
}

/// Five characters; below zero a minus stands in place of the first digit.
std::optional<double> readAltitude(std::string_view text) {
    const bool negative = text.front() == '-';
    const std::int32_t value = digits(negative ? text.substr(1) : text);
    if (value < 0) return std::nullopt;
    return negative ? -value : value;
}

/// Degrees, then minutes in thousandths, then the hemisphere.
std::optional<double> readAngle(std::string_view text, std::size_t degree_digits, char positive,
                                char negative, double more_thousandths, double limit_deg) {
    const std::int32_t degrees = digits(text.substr(0, degree_digits));
    const std::int32_t thousandths = digits(text.substr(degree_digits, 5));
    const char side = text[degree_digits + 5];
    if (degrees < 0 || thousandths < 0 || thousandths >= 60000) return std::nullopt;
    if (side != positive && side != negative) return std::nullopt;
    const double angle_deg = degrees + (thousandths + more_thousandths) / 60000.0;
    if (angle_deg > limit_deg) return std::nullopt;
    return (side == negative ? -angle_deg : angle_deg) * units::kDegree_rad;
}

struct Record {
    Fix fix;
    bool three_d = false;
    double pressure_altitude_m = 0;
    double gnss_altitude_m = 0;
};

std::optional<Record> readB(std::string_view line, const Additions& additions) {
    if (line.size() < kShortestB) return std::nullopt;
    const std::int32_t hours = digits(line.substr(1, 2));
    const std::int32_t minutes = digits(line.substr(3, 2));
    const std::int32_t seconds = digits(line.substr(5, 2));
    if (hours < 0 || hours > 23 || minutes < 0 || minutes > 59 || seconds < 0 || seconds > 60)
        return std::nullopt;
    const auto latitude_rad =
        readAngle(line.substr(7, 8), 2, 'N', 'S', fraction(line, additions.latitude_digits), 90);
    const auto longitude_rad =
        readAngle(line.substr(15, 9), 3, 'E', 'W', fraction(line, additions.longitude_digits), 180);
    const auto pressure_m = readAltitude(line.substr(25, 5));
    const auto gnss_m = readAltitude(line.substr(30, 5));
    if (!latitude_rad || !longitude_rad || !pressure_m || !gnss_m) return std::nullopt;
    if (line[24] != 'A' && line[24] != 'V') return std::nullopt;
    Record record;
    record.fix.clock_s =
        hours * 3600.0 + minutes * 60.0 + seconds + fraction(line, additions.second_digits);
    record.fix.place.latitude_rad = *latitude_rad;
    record.fix.place.longitude_rad = *longitude_rad;
    record.three_d = line[24] == 'A';
    record.pressure_altitude_m = *pressure_m;
    record.gnss_altitude_m = *gnss_m;
    return record;
}

/// Everything of the file that counts, before the choice of the altitude.
struct Content {
    std::optional<double> day_s;
    std::vector<Record> records;
};

Content readLines(const NamedBytes& input, Problems& warnings) {
    Content content;
    Additions additions;
    LineReader reader(input.bytes);
    double midnight_s = 0;
    std::int32_t unread = 0, first_unread = 0;
    while (reader.next()) {
        const std::string_view line = reader.line();
        if (line.substr(0, 5) == "HFDTE" && !content.day_s) content.day_s = readDate(line);
        if (line.substr(0, 1) == "I") additions = readAdditions(line);
        if (line.substr(0, 1) != "B") continue;
        std::optional<Record> record = readB(line, additions);
        if (!record) {
            if (unread++ == 0) first_unread = reader.number();
            continue;
        }
        // Midnight: the clock falls by nearly a day. A small step back is a fault, found later.
        if (!content.records.empty() &&
            record->fix.clock_s + midnight_s < content.records.back().fix.clock_s - 43200)
            midnight_s += 86400;
        record->fix.clock_s += midnight_s;
        record->fix.line = reader.number();
        content.records.push_back(*record);
    }
    if (unread > 0)
        warnings.push_back(problem(
            {input.file, first_unread, 1},
            std::to_string(unread) + " B records cannot be read and are left out, the first here",
            "look whether the file was cut or edited"));
    return content;
}

bool usesGnssAltitude(const std::vector<Record>& records) {
    std::size_t three_d = 0;
    std::size_t with_altitude = 0;
    for (const Record& record : records) {
        if (!record.three_d) continue;
        ++three_d;
        if (record.gnss_altitude_m != 0) ++with_altitude;
    }
    return with_altitude * 10 >= three_d * 9;
}

}  // namespace

bool looksLikeIgc(std::string_view bytes) {
    LineReader reader(bytes);
    while (reader.next())
        if (reader.line().substr(0, 1) == "B" && readB(reader.line(), {})) return true;
    return false;
}

Expected<FixLog, Problems> readIgc(const NamedBytes& input) {
    FixLog log;
    log.kind = "IGC";
    log.file = input.file;
    const Content content = readLines(input, log.warnings);
    log.clock = content.day_s ? Clock::Utc : Clock::TimeOfDay;
    const bool gnss = usesGnssAltitude(content.records);
    std::int32_t left_out = 0;
    for (const Record& record : content.records) {
        if (!record.three_d) {
            ++left_out;
            continue;
        }
        log.fixes.push_back(record.fix);
        log.fixes.back().clock_s += content.day_s.value_or(0);
        log.fixes.back().place.elevation_m =
            gnss ? record.gnss_altitude_m : record.pressure_altitude_m;
    }
    if (log.fixes.empty())
        return failure(problem({input.file, 0, 0}, "this IGC file has no 3-D fix",
                               "use a log of a flight with satellite reception"));
    if (left_out > 0)
        log.warnings.push_back(problem(
            {input.file, 0, 0}, std::to_string(left_out) + " fixes without a 3-D position left out",
            "expect gaps there"));
    const bool flat = std::all_of(log.fixes.begin(), log.fixes.end(),
                                  [](const Fix& fix) { return fix.place.elevation_m == 0; });
    if (flat)
        log.warnings.push_back(problem(
            {input.file, 0, 0},
            "no altitude at all, neither by satellites nor by pressure: heights are not known and "
            "all stand at 0",
            "look at the recorder's settings, or take another log of the flight"));
    else if (!gnss)
        log.warnings.push_back(problem(
            {input.file, 0, 0}, "no GNSS altitude throughout: heights are pressure altitudes",
            "heights grow off by about 3.5 % for each 10 K from the standard day"));
    return log;
}

}  // namespace plumbline::record

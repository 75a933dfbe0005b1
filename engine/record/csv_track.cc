#include "engine/record/csv_track.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/record/clock_text.h"
#include "engine/record/csv_table.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

// chosen: loggers write at most a page of notes above their table.
constexpr int kHeaderSearchLines = 60;
// chosen: 1e8 s is 1973 as Unix time and three years as anything else.
constexpr double kUnixTimeFrom_s = 1e8;
constexpr double kUnixTimeTo_s = 1e10;

enum class Kind { Length, Angle, Duration };

/// A quantity wanted and the names it goes by, the most telling first.
struct Wanted {
    Kind kind;
    std::array<std::string_view, 12> names;
};
constexpr Wanted kTime{Kind::Duration,
                       {"time", "utc", "utc_time", "gps_time", "datetime", "date_time", "timestamp",
                        "t", "seconds", "elapsed", "elapsed_time", "clock"}};
constexpr Wanted kLatitude{Kind::Angle, {"latitude", "lat", "gps_lat", "gps_latitude"}};
constexpr Wanted kLongitude{Kind::Angle,
                            {"longitude", "lon", "lng", "long", "gps_lon", "gps_longitude"}};
constexpr Wanted kAltitude{Kind::Length,
                           {"altitude", "alt", "gps_altitude", "gps_alt", "altitude_msl", "alt_msl",
                            "elevation", "ele", "height", "z"}};
constexpr Wanted kX{Kind::Length, {"x", "east", "easting"}};
constexpr Wanted kY{Kind::Length, {"y", "north", "northing"}};
constexpr Wanted kZ{Kind::Length, {"z", "up", "height", "altitude", "alt"}};

struct Column {
    std::size_t index = 0;
    std::string name;  ///< as in the header
    bool has_unit = false;
    double unit = 1;  ///< SI value of one
};

struct Header {
    char separator = ',';
    Column time;
    bool geodetic = true;
    std::array<Column, 3> place;  ///< latitude, longitude, altitude or x, y, z
};

double unitValue(Kind kind, std::string_view unit) {
    if (kind == Kind::Length) return lengthOf(unit);
    return kind == Kind::Angle ? angleOf(unit) : durationOf(unit);
}

std::optional<Column> findColumn(const CsvRow& header, const Wanted& wanted) {
    for (const std::string_view name : wanted.names) {
        if (name.empty()) break;
        for (std::size_t i = 0; i < header.size(); ++i) {
            const ColumnName column = columnName(header.cell(i));
            if (column.words != name) continue;
            if (column.unit.empty())
                return Column{i, std::string(header.cell(i)), false,
                              wanted.kind == Kind::Angle ? units::kDegree_rad : 1};
            const double unit = unitValue(wanted.kind, column.unit);
            if (unit > 0) return Column{i, std::string(header.cell(i)), true, unit};
        }
    }
    return std::nullopt;
}

std::optional<Header> readHeader(std::string_view line) {
    Header header;
    header.separator = separatorOf(line);
    CsvRow row;
    row.split(line, header.separator);
    const std::optional<Column> time = findColumn(row, kTime);
    if (!time) return std::nullopt;
    header.time = *time;
    for (const bool geodetic : {true, false}) {
        const auto first = findColumn(row, geodetic ? kLatitude : kX);
        const auto second = findColumn(row, geodetic ? kLongitude : kY);
        const auto third = findColumn(row, geodetic ? kAltitude : kZ);
        if (!first || !second || !third) continue;
        header.geodetic = geodetic;
        header.place = {*first, *second, *third};
        return header;
    }
    return std::nullopt;
}

/// Moves the reader to the header's line.
std::optional<Header> findHeader(LineReader& reader) {
    for (int i = 0; i < kHeaderSearchLines && reader.next(); ++i)
        if (std::optional<Header> header = readHeader(reader.line())) return header;
    return std::nullopt;
}

struct ClockValue {
    double clock_s = 0;
    Clock clock = Clock::Own;
};

std::optional<ClockValue> readClock(std::string_view cell, const Header& header) {
    if (const auto number = csvNumber(cell, header.separator)) {
        const double clock_s = *number * header.time.unit;
        const bool unix_time = clock_s >= kUnixTimeFrom_s && clock_s < kUnixTimeTo_s;
        return ClockValue{clock_s, unix_time ? Clock::Utc : Clock::Own};
    }
    if (const auto utc_s = parseUtc(cell)) return ClockValue{*utc_s, Clock::Utc};
    if (const auto time_s = parseTimeOfDay(cell)) return ClockValue{*time_s, Clock::TimeOfDay};
    return std::nullopt;
}

/// One row as a fix, or the column that stands in the way.
struct ReadRow {
    std::optional<Fix> fix;
    Clock clock = Clock::Own;
    const Column* bad = nullptr;
};

ReadRow readRow(const CsvRow& row, const Header& header) {
    const std::optional<ClockValue> clock = readClock(row.cell(header.time.index), header);
    if (!clock) return {std::nullopt, Clock::Own, &header.time};
    std::array<double, 3> place{};
    for (std::size_t i = 0; i < 3; ++i) {
        const auto value = csvNumber(row.cell(header.place[i].index), header.separator);
        if (!value) return {std::nullopt, Clock::Own, &header.place[i]};
        place[i] = *value * header.place[i].unit;
    }
    Fix fix;
    fix.clock_s = clock->clock_s;
    if (header.geodetic) {
        if (std::abs(place[0]) > kPi / 2) return {std::nullopt, Clock::Own, &header.place[0]};
        if (std::abs(place[1]) > 2 * kPi) return {std::nullopt, Clock::Own, &header.place[1]};
        fix.place = {place[0], place[1], place[2]};
    } else {
        fix.position_S_m = {place[0], place[1], place[2]};
    }
    return {fix, clock->clock, nullptr};
}

void warnOfUnits(const Header& header, const TextPosition& where, Problems& warnings) {
    const auto warn = [&](const Column& column, std::string_view taken_as) {
        if (column.has_unit) return;
        warnings.push_back(problem(
            where,
            "column \"" + column.name + "\" has no unit and is taken in " + std::string(taken_as),
            "write the unit into the header: \"" + column.name + " (" + std::string(taken_as) +
                ")\""));
    };
    for (std::size_t i = 0; i < 3; ++i)
        warn(header.place[i], header.geodetic && i < 2 ? "deg" : "m");
}

}  // namespace

bool looksLikeCsvTrack(std::string_view bytes) {
    LineReader reader(bytes);
    return findHeader(reader).has_value();
}

Expected<FixLog, Problems> readCsvTrack(const NamedBytes& input) {
    LineReader reader(input.bytes);
    const std::optional<Header> header = findHeader(reader);
    if (!header)
        return failure(problem({input.file, 1, 1}, "no header names columns for time and place",
                               "name them: time (s), latitude (deg), longitude (deg), "
                               "altitude (m), or time (s), x (m), y (m), z (m)"));
    FixLog log;
    log.kind = "CSV";
    log.file = input.file;
    log.geodetic = header->geodetic;
    warnOfUnits(*header, {input.file, reader.number(), 1}, log.warnings);
    std::size_t bad_rows = 0;
    bool time_without_unit = false;
    CsvRow row;
    while (reader.next()) {
        if (trimmed(reader.line()).empty() || reader.line().front() == '#') continue;
        row.split(reader.line(), header->separator);
        ReadRow read = readRow(row, *header);
        // One clock for all rows: the first good one decides.
        if (read.fix && !log.fixes.empty() && read.clock != log.clock)
            read = {{}, {}, &header->time};
        if (!read.fix) {
            ++bad_rows;
            log.warnings.push_back(
                problem({input.file, reader.number(), row.column(read.bad->index)},
                        "column \"" + read.bad->name + "\" cannot be read; row left out",
                        "a number was expected here"));
            continue;
        }
        time_without_unit |= read.clock == Clock::Own && !header->time.has_unit;
        log.clock = read.clock;
        read.fix->line = reader.number();
        log.fixes.push_back(*read.fix);
    }
    if (time_without_unit)
        log.warnings.push_back(
            problem({input.file, 0, 0},
                    "column \"" + header->time.name + "\" has no unit and is taken in s",
                    "write the unit into the header: \"" + header->time.name + " (s)\""));
    if (bad_rows > log.fixes.size() || log.fixes.empty()) {
        log.warnings.resize(std::min<std::size_t>(log.warnings.size(), 20));
        return failure(problem({input.file, 0, 0},
                               bad_rows > 0 ? "most rows of this table cannot be read"
                                            : "this table has a header and no rows",
                               "look at the rows named here, or for a log that was not cut short"),
                       log.warnings);
    }
    return log;
}

}  // namespace plumbline::record

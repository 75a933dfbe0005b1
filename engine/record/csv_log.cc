#include "engine/record/csv_log.h"

#include <algorithm>
#include <cmath>

#include "engine/record/clock_text.h"
#include "engine/record/csv_rows.h"
#include "engine/record/csv_units.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

using Q = Quantity;

// chosen: 1e8 s is 1973 as Unix time and three years as anything else.
constexpr double kUnixTimeFrom_s = 1e8;
constexpr double kUnixTimeTo_s = 1e10;

struct ClockValue {
    double clock_s = 0;
    Clock clock = Clock::Own;
};

class CsvLogReader {
public:
    CsvLogReader(const NamedBytes& input, const CsvLayout& layout)
        : input_(input), layout_(layout) {
        log_.kind = "CSV";
        log_.file = input.file;
        time_ = layout.find(Q::Time);
        time_unit_ = time_->unit.empty() ? guessTimeUnit(input.bytes, layout) : time_->unit_value;
        geodetic_ = layout.find(Q::Latitude) != nullptr && layout.find(Q::Longitude) != nullptr;
        metric_ = !geodetic_ && layout.find(Q::X) && layout.find(Q::Y) && layout.find(Q::Z);
        log_.geodetic = !metric_;
        for (const CsvColumn& column : layout.columns)
            factor_[static_cast<std::size_t>(column.quantity)] =
                column.unit_value > 0 ? column.unit_value : 1;
        has_sensors_ = layout.find(Q::RateX) || layout.find(Q::ForceX) || layout.find(Q::Qw) ||
                       layout.find(Q::Roll);
    }

    Expected<FixLog, Problems> read() {
        const CsvFaults faults =
            forEachCsvRow(input_.bytes, layout_, [this](const CsvNumbers& row) { take(row); });
        if (good_rows_ == 0 || bad_rows_ > good_rows_) {
            reportFaults(faults);
            return failure(problem({input_.file, 0, 0},
                                   bad_rows_ > 0 ? "most rows of this table cannot be read"
                                                 : "this table has a header and no rows",
                                   "look at the rows named here, or for a log that was not cut "
                                   "short; import --explain shows how its columns are read"),
                           log_.warnings);
        }
        tellUnits(layout_, time_unit_, log_);
        reportFaults(faults);
        return std::move(log_);
    }

private:
    double at(const CsvNumbers& row, Q q) const {
        return row[q] * factor_[static_cast<std::size_t>(q)];
    }
    bool hasAll(const CsvNumbers& row, Q first) const {
        const auto i = static_cast<std::size_t>(first);
        return !std::isnan(row.value[i] + row.value[i + 1] + row.value[i + 2]);
    }
    Vec3 three(const CsvNumbers& row, Q first) const {
        const auto i = static_cast<std::size_t>(first);
        return {row.value[i] * factor_[i], row.value[i + 1] * factor_[i + 1],
                row.value[i + 2] * factor_[i + 2]};
    }

    std::optional<ClockValue> clockOf(const CsvNumbers& row) {
        const bool own_date = !row.date_text.empty();
        if (row.has(Q::Time) && !own_date) {
            const double clock_s = row[Q::Time] * time_unit_;
            const bool unix_time = clock_s >= kUnixTimeFrom_s && clock_s < kUnixTimeTo_s;
            return ClockValue{clock_s, unix_time ? Clock::Utc : Clock::Own};
        }
        const std::string_view text = trimmed(row.time_text);
        if (const auto utc_s = parseUtc(text)) return ClockValue{*utc_s, Clock::Utc};
        auto time_s = parseTimeOfDay(text);
        if (!time_s && row.has(Q::Time)) time_s = row[Q::Time] * time_unit_;
        if (!time_s) return std::nullopt;
        if (own_date)
            if (const auto day_s = parseDate(row.date_text))
                return ClockValue{*day_s + *time_s, Clock::Utc};
        // Midnight: the clock falls by nearly a day.
        if (good_rows_ > 0 && log_.clock == Clock::TimeOfDay &&
            *time_s + midnight_s_ < last_clock_s_ - 43200)
            midnight_s_ += 86400;
        return ClockValue{*time_s + midnight_s_, Clock::TimeOfDay};
    }

    void take(const CsvNumbers& row) {
        const std::optional<ClockValue> clock = clockOf(row);
        // One clock for all rows: the first good one decides.
        if (!clock || (good_rows_ > 0 && clock->clock != log_.clock)) {
            ++bad_rows_;
            if (bad_times_++ == 0) first_bad_time_line_ = row.line;
            return;
        }
        const double t = clock->clock_s;
        bool any = takeFix(row, t);
        any |= takeSensors(row, t);
        if (!any) {
            ++bad_rows_;
            if (empty_rows_++ == 0) first_empty_line_ = row.line;
            return;
        }
        log_.clock = clock->clock;
        last_clock_s_ = t;
        ++good_rows_;
    }

    bool takeFix(const CsvNumbers& row, double t) {
        Fix fix;
        fix.clock_s = t;
        fix.line = row.line;
        if (geodetic_) {
            const Q height = layout_.find(Q::Altitude) ? Q::Altitude : Q::PressureHeight;
            if (!row.has(Q::Latitude) || !row.has(Q::Longitude) || !row.has(height)) return false;
            fix.place = {at(row, Q::Latitude), at(row, Q::Longitude), at(row, height)};
            // Some tables hold ten-millionths of a degree and do not say so.
            if (layout_.find(Q::Latitude)->unit.empty() && std::abs(row[Q::Longitude]) > 360) {
                fix.place.latitude_rad *= 1e-7;
                fix.place.longitude_rad *= 1e-7;
            }
            if (std::abs(fix.place.latitude_rad) > kPi / 2 ||
                std::abs(fix.place.longitude_rad) > 2 * kPi ||
                std::abs(fix.place.elevation_m) > 1e5) {
                if (out_of_range_++ == 0) first_out_of_range_line_ = row.line;
                return false;
            }
            if (fix.place.latitude_rad == 0 && fix.place.longitude_rad == 0) return false;
        } else if (metric_ && hasAll(row, Q::X)) {
            fix.position_S_m = three(row, Q::X);
            if (glm::length(fix.position_S_m) > 1e7) return false;
        } else {
            return false;
        }
        if (row.has(Q::North) && row.has(Q::East)) {
            fix.velocity_E_mps = {at(row, Q::East), at(row, Q::North), 0};
            fix.has_velocity = true;
        } else if (row.has(Q::GroundSpeed) && row.has(Q::Track)) {
            const double track = at(row, Q::Track);
            fix.velocity_E_mps =
                at(row, Q::GroundSpeed) * Vec3(std::sin(track), std::cos(track), 0);
            fix.has_velocity = true;
        }
        if (row.has(Q::Up) || row.has(Q::Down)) {
            fix.velocity_E_mps.z = row.has(Q::Up) ? at(row, Q::Up) : -at(row, Q::Down);
            fix.has_vertical_velocity = fix.has_velocity;
        }
        if (glm::length(fix.velocity_E_mps) > 1000) fix.has_velocity = false;
        if (row.has(Q::HorizontalSigma))
            fix.horizontal_sigma_m = static_cast<float>(at(row, Q::HorizontalSigma));
        if (row.has(Q::VerticalSigma))
            fix.vertical_sigma_m = static_cast<float>(at(row, Q::VerticalSigma));
        if (has_sensors_ && !log_.fixes.empty()) {
            const Fix& last = log_.fixes.back();
            if (last.place.latitude_rad == fix.place.latitude_rad &&
                last.place.longitude_rad == fix.place.longitude_rad &&
                last.place.elevation_m == fix.place.elevation_m &&
                last.position_S_m == fix.position_S_m && last.velocity_E_mps == fix.velocity_E_mps)
                return true;
        }
        log_.fixes.push_back(fix);
        return true;
    }

    template <class T>
    bool addChanged(Series<T>& series, double t, const T& value) {
        if (series.size() == 0 || !(series.values.back() == value)) series.add(t, value);
        return true;
    }

    bool takeSensors(const CsvNumbers& row, double t) {
        SensorLog& s = log_.sensors;
        bool any = false;
        if (hasAll(row, Q::RateX)) {
            s.rate_I_radps.add(t, three(row, Q::RateX));
            any = true;
        }
        if (hasAll(row, Q::ForceX)) {
            s.force_I_mps2.add(t, three(row, Q::ForceX));
            any = true;
        }
        if (hasAll(row, Q::FieldX)) any = addChanged(s.field_I, t, three(row, Q::FieldX));
        if (row.has(Q::PressureHeight))
            any = addChanged(s.pressure_height_m, t, at(row, Q::PressureHeight));
        else if (row.has(Q::Pressure))
            any = addChanged(s.pressure_height_m, t, at(row, Q::Pressure));  // as pressure still
        const Q air = layout_.find(Q::Airspeed) ? Q::Airspeed : Q::IndicatedAirspeed;
        if (row.has(air)) any = addChanged(s.airspeed_mps, t, at(row, air));
        s.airspeed_indicated = air == Q::IndicatedAirspeed;
        if (hasAll(row, Q::Qx) && row.has(Q::Qw)) {
            const Quat q(row[Q::Qw], row[Q::Qx], row[Q::Qy], row[Q::Qz]);
            const double length = glm::length(q);
            if (length > 0.5 && length < 2) {
                s.q_EB.add(t, kNorthEastDown * (q / length));
                any = true;
            }
        } else if (hasAll(row, Q::Roll)) {
            s.q_EB.add(t, attitudeFromAngles(
                              {at(row, Q::Pitch), at(row, Q::Roll), at(row, Q::Heading)}, kPi / 2));
            any = true;
        }
        return any;
    }

    void reportFaults(const CsvFaults& faults) {
        const auto say = [this](std::int32_t line, std::int32_t column, std::string what,
                                std::string remedy) {
            log_.warnings.push_back(
                problem({input_.file, line, column}, std::move(what), std::move(remedy)));
        };
        for (const CsvColumn& column : layout_.columns) {
            const CsvFaults::Column& bad = faults.bad[static_cast<std::size_t>(column.quantity)];
            if (bad.count > 0)
                say(bad.first_line, bad.first_column,
                    std::to_string(bad.count) + " cells of column \"" + column.name +
                        "\" cannot be read and are left out, the first here",
                    "a number was expected");
        }
        if (bad_times_ > 0)
            say(first_bad_time_line_, 1,
                std::to_string(bad_times_) + " rows without a usable time in \"" + time_->name +
                    "\" left out, the first here",
                "expect gaps there");
        if (out_of_range_ > 0)
            say(first_out_of_range_line_, 1,
                std::to_string(out_of_range_) +
                    " rows with a place that is nowhere on earth left "
                    "out, the first here",
                "look at the units of latitude, longitude and altitude");
        if (faults.short_rows > 0)
            say(faults.first_short_line, 1,
                std::to_string(faults.short_rows) + " rows end early, the first here",
                "the file may have been cut short");
        else if (empty_rows_ > 0)
            say(first_empty_line_, 1,
                std::to_string(empty_rows_) + " rows without any number of use, the first here",
                "expect gaps there");
    }

    /// Body to north-east-down becomes body to east-north-up.
    static inline const Quat kNorthEastDown{0, 0.70710678118654752, 0.70710678118654752, 0};

    const NamedBytes& input_;
    const CsvLayout& layout_;
    const CsvColumn* time_ = nullptr;
    double time_unit_ = 1;
    bool geodetic_ = false, metric_ = false, has_sensors_ = false;
    std::array<double, kQuantityCount> factor_{};
    FixLog log_;
    double midnight_s_ = 0, last_clock_s_ = 0;
    std::size_t good_rows_ = 0, bad_rows_ = 0;
    std::int32_t bad_times_ = 0, first_bad_time_line_ = 0;
    std::int32_t empty_rows_ = 0, first_empty_line_ = 0;
    std::int32_t out_of_range_ = 0, first_out_of_range_line_ = 0;
};

}  // namespace

bool looksLikeCsvLog(std::string_view bytes, const ColumnMap* map) {
    return findCsvLayout(bytes, map).has_value();
}

Expected<FixLog, Problems> readCsvLog(const NamedBytes& input, const ColumnMap* map) {
    const std::optional<CsvLayout> layout = findCsvLayout(input.bytes, map);
    if (!layout)
        return failure(problem({input.file, 1, 1}, "no header names columns for time and place",
                               "name them: time (s), latitude (deg), longitude (deg), "
                               "altitude (m), or time (s), x (m), y (m), z (m)"));
    return CsvLogReader(input, *layout).read();
}

}  // namespace plumbline::record

#include "engine/record/csv_units.h"

#include <algorithm>
#include <cmath>

#include "engine/earth/atmosphere.h"
#include "engine/record/csv_rows.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

using Q = Quantity;

std::string listed(const std::vector<std::string>& names) {
    std::string text;
    for (const std::string& name : names) text += (text.empty() ? "\"" : ", \"") + name + "\"";
    return text;
}

void scaleByNumbers(const CsvLayout& layout, FixLog& log) {
    SensorLog& s = log.sensors;
    const auto unitless = [&](Q q) {
        const CsvColumn* column = layout.find(q);
        return column && column->unit.empty();
    };
    const auto say = [&](Q q, const std::string& unit) {
        log.warnings.push_back(problem({log.file, layout.header_line, 1},
                                       "column \"" + layout.find(q)->name +
                                           "\" has no unit; its numbers look "
                                           "like " +
                                           unit,
                                       "write the unit into the header, or map the column"));
    };
    if (unitless(Q::RateX) && s.rate_I_radps.size() > 0) {
        double most = 0;
        for (const Vec3& v : s.rate_I_radps.values)
            most = std::max({most, std::abs(v.x), std::abs(v.y), std::abs(v.z)});
        // chosen: 35 rad/s is the end of the widest small sensor's range, 2000 deg/s
        if (most > 36)
            for (Vec3& v : s.rate_I_radps.values) v *= units::kDegree_rad;
        say(Q::RateX, most > 36 ? "deg/s" : "rad/s");
    }
    if (unitless(Q::ForceX) && s.force_I_mps2.size() > 0) {
        std::vector<double> sizes;
        for (const Vec3& v : s.force_I_mps2.values) sizes.push_back(glm::length(v));
        std::nth_element(sizes.begin(), sizes.begin() + std::ssize(sizes) / 2, sizes.end());
        const double usual = sizes[sizes.size() / 2];
        const double factor = usual > 200 ? 0.001 * kGravity_mps2 : usual < 5 ? kGravity_mps2 : 1;
        for (Vec3& v : s.force_I_mps2.values) v *= factor;
        say(Q::ForceX, factor == 1 ? "m/s2" : usual > 200 ? "mg" : "g");
    }
    if (layout.find(Q::Pressure) && !layout.find(Q::PressureHeight) &&
        s.pressure_height_m.size() > 0) {
        auto& values = s.pressure_height_m.values;
        if (unitless(Q::Pressure)) {
            const double p = values.front();
            const double factor = p > 2000  ? 1
                                  : p > 150 ? 100
                                  : p > 33  ? 1000
                                            : units::kInchOfMercury_pa;
            for (double& v : values) v *= factor;
            say(Q::Pressure, factor == 1      ? "Pa"
                             : factor == 100  ? "hPa"
                             : factor == 1000 ? "kPa"
                                              : "inHg");
        }
        Series<double> heights;
        for (std::size_t i = 0; i < values.size(); ++i)
            if (values[i] > 1e4 && values[i] < 1.2e5)  // between 16 km and a deep mine
                heights.add(s.pressure_height_m.clock_s[i], earth::pressureAltitude_m(values[i]));
        s.pressure_height_m = std::move(heights);
    }
}

void warnOfUnits(const CsvLayout& layout, double time_unit, FixLog& log) {
    std::vector<std::string> names[5];
    constexpr UnitKind kKinds[] = {UnitKind::Angle, UnitKind::Length, UnitKind::Speed,
                                   UnitKind::Time};
    for (const CsvColumn& column : layout.columns) {
        if (!column.unit.empty()) continue;
        for (std::size_t k = 0; k < 4; ++k)
            if (unitKind(column.quantity) == kKinds[k]) names[k].push_back(column.name);
    }
    const std::string time_word = time_unit == 1      ? "s"
                                  : time_unit == 1e-3 ? "ms"
                                  : time_unit == 1e-6 ? "us"
                                                      : "ns";
    const std::string words[] = {"deg", "m", "m/s", time_word};
    for (std::size_t k = 0; k < 4; ++k) {
        // a date and time, or a time of day, needs none
        if (names[k].empty() || (k == 3 && log.clock != Clock::Own)) continue;
        const bool one = names[k].size() == 1;
        log.warnings.push_back(problem(
            {log.file, layout.header_line, 1},
            (one ? "column " : "columns ") + listed(names[k]) +
                (one ? " has no unit and is taken in " : " have no unit and are taken in ") +
                words[k],
            "write the unit into the header: \"" + names[k].front() + " (" + words[k] + ")\""));
    }
}

}  // namespace

double guessTimeUnit(std::string_view bytes, const CsvLayout& layout) {
    std::vector<double> times;
    CsvLayout only_time = layout;
    only_time.columns = {*layout.find(Q::Time)};
    const std::string_view head = bytes.substr(0, layout.rows_at + 100000);
    forEachCsvRow(head, only_time, [&](const CsvNumbers& row) {
        if (row.has(Q::Time)) times.push_back(row[Q::Time]);
    });
    if (times.size() < 3) return 1;
    if (times.front() >= 1e17) return 1e-9;
    if (times.front() >= 1e14) return 1e-6;
    if (times.front() >= 1e11) return 1e-3;
    std::vector<double> steps;
    for (std::size_t i = 1; i < times.size(); ++i) steps.push_back(times[i] - times[i - 1]);
    std::nth_element(steps.begin(), steps.begin() + std::ssize(steps) / 2, steps.end());
    const double step = steps[steps.size() / 2];
    // chosen: no logger of motion is slower than one row in two seconds
    if (step >= 1500) return 1e-6;
    return step > 2 && layout.find(Q::RateX) != nullptr ? 1e-3 : 1;
}

void tellUnits(const CsvLayout& layout, double time_unit, FixLog& log) {
    scaleByNumbers(layout, log);
    warnOfUnits(layout, time_unit, log);
}

}  // namespace plumbline::record

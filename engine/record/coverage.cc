#include "engine/record/coverage.h"

#include <algorithm>
#include <cmath>

namespace plumbline::record {

StreamCoverage coverageOf(std::string name, const std::vector<double>& clock_s, double zero_s) {
    StreamCoverage out;
    out.name = std::move(name);
    if (clock_s.empty()) return out;
    std::vector<double> steps;
    steps.reserve(clock_s.size());
    for (std::size_t i = 1; i < clock_s.size(); ++i) steps.push_back(clock_s[i] - clock_s[i - 1]);
    double usual_s = 0;
    if (!steps.empty()) {
        const auto middle = steps.begin() + std::ssize(steps) / 2;
        std::nth_element(steps.begin(), middle, steps.end());
        usual_s = *middle;
    }
    // chosen: a few samples lost in a row are no hole that anybody would see
    constexpr double kSteps = 3.5, kShortest_s = 0.25;
    const double hole_s = std::max(kSteps * usual_s, kShortest_s);
    out.spans.push_back({clock_s.front() - zero_s, clock_s.front() - zero_s});
    for (std::size_t i = 1; i < clock_s.size(); ++i) {
        if (clock_s[i] - clock_s[i - 1] > hole_s)
            out.spans.push_back({clock_s[i] - zero_s, clock_s[i] - zero_s});
        out.spans.back().stop_s = clock_s[i] - zero_s;
    }
    return out;
}

namespace {

template <class T, class Numbers>
StreamNumbers thinnedBy(const std::vector<T>& values, const std::vector<double>& clock_s,
                        int components, const char* unit, double zero_s, const Numbers& numbers) {
    // chosen: several for each column of pixels of the widest window, less than a megabyte
    constexpr std::size_t kMost = 16384;
    StreamNumbers out;
    out.unit = unit;
    out.components = components;
    const std::size_t each = (values.size() + kMost - 1) / kMost;
    std::size_t taken = 0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        const Vec3 v = numbers(values[i]);
        if (!std::isfinite(v.x + v.y + v.z)) continue;
        const bool first = taken % each == 0;
        ++taken;
        if (first) out.entries.push_back({clock_s[i] - zero_s, {}, {}});
        StreamNumbers::Entry& entry = out.entries.back();
        for (int c = 0; c < components; ++c) {
            const auto number = static_cast<float>(v[c]);
            entry.low[c] = first ? number : std::min(entry.low[c], number);
            entry.high[c] = first ? number : std::max(entry.high[c], number);
        }
    }
    return out;
}

}  // namespace

std::vector<StreamCoverage> coverageOf(const std::vector<Fix>& fixes, const SensorLog& sensors,
                                       double zero_s) {
    std::vector<StreamCoverage> all;
    const auto add = [&](const char* name, const auto& values, const std::vector<double>& clock_s,
                         int components, const char* unit, const auto& numbers) {
        if (clock_s.empty()) return;
        all.push_back(coverageOf(name, clock_s, zero_s));
        all.back().numbers = thinnedBy(values, clock_s, components, unit, zero_s, numbers);
    };
    const auto itself = [](const Vec3& v) { return v; };
    const auto one = [](double v) { return Vec3(v, 0, 0); };
    std::vector<double> fix_times;
    for (const Fix& fix : fixes) fix_times.push_back(fix.clock_s);
    // a log is in one kind of position; the other's height is zero
    add("Places", fixes, fix_times, 1, "m",
        [](const Fix& fix) { return Vec3(fix.place.elevation_m + fix.position_S_m.z, 0, 0); });
    add("Attitude", sensors.q_EB.values, sensors.q_EB.clock_s, 3, "rad", [](const Quat& q) {
        const AttitudeAngles angles = attitudeAngles(q, kPi / 2, 0);
        return Vec3(angles.roll_rad, angles.pitch_rad, angles.heading_rad);
    });
    add("Rates", sensors.rate_I_radps.values, sensors.rate_I_radps.clock_s, 3, "rad/s", itself);
    add("Forces", sensors.force_I_mps2.values, sensors.force_I_mps2.clock_s, 3, "m/s2", itself);
    add("Pressure", sensors.pressure_height_m.values, sensors.pressure_height_m.clock_s, 1, "m",
        one);
    add("Airspeed", sensors.airspeed_mps.values, sensors.airspeed_mps.clock_s, 1, "m/s", one);
    add("Field", sensors.field_I.values, sensors.field_I.clock_s, 3, "", itself);
    return all;
}

void shiftTimes(StreamCoverage& stream, double by_s) {
    for (TimeSpan& span : stream.spans) {
        span.start_s += by_s;
        span.stop_s += by_s;
    }
    for (double& t : stream.rejected_s) t += by_s;
    for (StreamNumbers::Entry& entry : stream.numbers.entries) entry.time_s += by_s;
}

}  // namespace plumbline::record

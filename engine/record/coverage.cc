#include "engine/record/coverage.h"

#include <algorithm>

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

std::vector<StreamCoverage> coverageOf(const std::vector<Fix>& fixes, const SensorLog& sensors,
                                       double zero_s) {
    std::vector<StreamCoverage> all;
    const auto add = [&](const char* name, const std::vector<double>& clock_s) {
        if (!clock_s.empty()) all.push_back(coverageOf(name, clock_s, zero_s));
    };
    std::vector<double> fix_times;
    for (const Fix& fix : fixes) fix_times.push_back(fix.clock_s);
    add("Places", fix_times);
    add("Attitude", sensors.q_EB.clock_s);
    add("Rates", sensors.rate_I_radps.clock_s);
    add("Forces", sensors.force_I_mps2.clock_s);
    add("Pressure", sensors.pressure_height_m.clock_s);
    add("Airspeed", sensors.airspeed_mps.clock_s);
    add("Field", sensors.field_I.clock_s);
    return all;
}

}  // namespace plumbline::record

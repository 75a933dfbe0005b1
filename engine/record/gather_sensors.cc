#include "engine/record/gather_sensors.h"

#include <numeric>

namespace plumbline::record {

namespace {

/// In rising time, each once.
template <class T>
void putInOrder(Series<T>& series) {
    auto& t = series.clock_s;
    bool rising = true;
    for (std::size_t i = 1; i < t.size() && rising; ++i) rising = t[i] > t[i - 1];
    if (rising) return;
    std::vector<std::size_t> order(t.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&t](std::size_t a, std::size_t b) { return t[a] < t[b]; });
    Series<T> sorted;
    for (const std::size_t i : order)
        if (sorted.size() == 0 || t[i] > sorted.clock_s.back()) sorted.add(t[i], series.values[i]);
    series = std::move(sorted);
}

template <class T>
void append(Series<T>& to, Series<T>&& from) {
    if (to.size() == 0) {  // the usual case: hours of samples are not copied
        to = std::move(from);
        return;
    }
    to.clock_s.insert(to.clock_s.end(), from.clock_s.begin(), from.clock_s.end());
    to.values.insert(to.values.end(), from.values.begin(), from.values.end());
}

}  // namespace

Expected<Gathered, Problems> gatherSensors(std::vector<FixLog>& logs) {
    Gathered all;
    bool first = true;
    for (FixLog& log : logs) {
        SensorLog& s = log.sensors;
        const bool any =
            !s.empty() || s.field_I.size() + s.pressure_height_m.size() + s.airspeed_mps.size() > 0;
        if (!any) continue;
        if (first) {
            all.clock = log.clock;
            all.file = log.file;
            all.kind = log.kind;
            first = false;
        } else if (log.clock != all.clock) {
            return failure(problem({log.file, 0, 0},
                                   "its sensors cannot be joined with those of " + all.file +
                                       ": their clocks count from different moments",
                                   "import one of them with the log of positions"));
        }
        append(all.sensors.rate_I_radps, std::move(s.rate_I_radps));
        append(all.sensors.force_I_mps2, std::move(s.force_I_mps2));
        append(all.sensors.field_I, std::move(s.field_I));
        append(all.sensors.pressure_height_m, std::move(s.pressure_height_m));
        append(all.sensors.airspeed_mps, std::move(s.airspeed_mps));
        append(all.sensors.q_EB, std::move(s.q_EB));
        if (log.fixes.empty())
            all.warnings.insert(all.warnings.end(), log.warnings.begin(), log.warnings.end());
    }
    putInOrder(all.sensors.rate_I_radps);
    putInOrder(all.sensors.force_I_mps2);
    putInOrder(all.sensors.field_I);
    putInOrder(all.sensors.pressure_height_m);
    putInOrder(all.sensors.airspeed_mps);
    putInOrder(all.sensors.q_EB);
    return all;
}

}  // namespace plumbline::record

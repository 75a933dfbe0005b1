#include "engine/review/extremes.h"

#include <algorithm>
#include <cmath>

#include "engine/review/doubts.h"

namespace plumbline::review {

Extremes extremesOf(const path::Path& path, double from_s, double to_s, bool by_air) {
    Extremes e;
    const auto speedAt = [&](double time_s) {
        const path::Sample s = path::sampleAt(path, time_s);
        return by_air ? s.airspeed_mps : glm::length(s.velocity_S_mps);
    };
    e.entry_mps = speedAt(from_s);
    double most_s = from_s, least_s = from_s;
    for (std::size_t i = path::sampleIndexAt(path, from_s);
         i < path.samples.size() && path.samples[i].time_s <= to_s; ++i) {
        const path::Sample& s = path.samples[i];
        e.lowest_m = std::min(e.lowest_m, s.position_S_m.z);
        e.highest_m = std::max(e.highest_m, s.position_S_m.z);
        e.nearest_y_m = std::min(e.nearest_y_m, s.position_S_m.y);
        const double load_g = loadFactors(s.specific_force_B_mps2).normal_g;
        if (load_g > e.most_g) {
            e.most_g = load_g;
            most_s = s.time_s;
        }
        if (load_g < e.least_g) {
            e.least_g = load_g;
            least_s = s.time_s;
        }
    }
    e.place_sigma_m = placeSigma_m(path, from_s, to_s);
    e.most_sigma_g = loadSigma_g(path, most_s);
    e.least_sigma_g = loadSigma_g(path, least_s);
    if (const double own_mps = speedSigma_mps(path, from_s); own_mps > 0)
        e.entry_sigma_mps = std::hypot(own_mps, edgeSigma(speedAt, from_s));
    return e;
}

}  // namespace plumbline::review

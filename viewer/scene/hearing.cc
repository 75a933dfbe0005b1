#include "viewer/scene/hearing.h"

#include <algorithm>

#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

double madeAt(const path::Path& path, const Vec3& ear_S_m, double speed_of_sound_mps,
              double heard_s) {
    const auto arrives = [&](double made_s) {
        return made_s +
               glm::length(placeAt(path, made_s).position_S_m - ear_S_m) / speed_of_sound_mps;
    };
    // Later sound arrives later, so halving finds the one moment.
    double early_s = path.samples.front().time_s, late_s = path.samples.back().time_s;
    if (arrives(late_s) <= heard_s) return late_s;
    constexpr int kHalvings = 48;  // hours down to a nanosecond
    for (int i = 0; i < kHalvings; ++i) {
        const double middle_s = 0.5 * (early_s + late_s);
        (arrives(middle_s) > heard_s ? late_s : early_s) = middle_s;
    }
    return early_s;
}

std::vector<double> heardTimes(const path::Path& path, const Vec3& ear_S_m,
                               double speed_of_sound_mps) {
    std::vector<double> out;
    out.reserve(path.samples.size());
    for (const path::Sample& sample : path.samples) {
        const double late_s = glm::length(sample.position_S_m - ear_S_m) / speed_of_sound_mps;
        const double heard_s = sample.time_s + late_s;
        out.push_back(out.empty() ? heard_s : std::max(heard_s, out.back()));
    }
    return out;
}

}  // namespace plumbline::scene

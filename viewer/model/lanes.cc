#include "viewer/model/lanes.h"

#include <algorithm>
#include <cmath>

#include "engine/math/frames.h"

namespace plumbline::model {
namespace {

void append(Series& series, double value) {
    const auto v = static_cast<float>(value);
    const bool first = series.values.empty();
    series.values.push_back(v);
    series.lowest_so_far.push_back(first ? v : std::min(v, series.lowest_so_far.back()));
    series.highest_so_far.push_back(first ? v : std::max(v, series.highest_so_far.back()));
    series.low = series.lowest_so_far.back();
    series.high = series.highest_so_far.back();
}

}  // namespace

LaneData makeLaneData(const path::Path& path) {
    LaneData out;
    out.time_s.reserve(path.samples.size());
    for (const path::Sample& sample : path.samples) {
        out.time_s.push_back(sample.time_s);
        append(out.height_m, sample.position_S_m.z);
        append(out.airspeed_mps,
               path.known.airspeed ? sample.airspeed_mps : glm::length(sample.velocity_S_mps));
        append(out.climb_mps, sample.velocity_S_mps.z);
        append(out.load_g, loadFactors(sample.specific_force_B_mps2).normal_g);
    }
    return out;
}

Series makeApartSeries(const scene::Ghost& ghost, const std::vector<double>& time_s) {
    Series series;
    for (const double t : time_s) {
        const float apart_m = scene::keptApart(ghost, t);
        append(series, std::isfinite(apart_m) ? static_cast<double>(apart_m) : 0);
    }
    return series;
}

std::size_t indexAt(const std::vector<double>& time_s, double at_s) {
    const auto after = std::upper_bound(time_s.begin(), time_s.end(), at_s);
    return after == time_s.begin() ? 0 : static_cast<std::size_t>(after - time_s.begin()) - 1;
}

std::vector<Bin> binned(const std::vector<double>& time_s, const std::vector<float>& values,
                        std::int64_t first, std::int64_t count, double bin_s) {
    std::vector<Bin> out(static_cast<std::size_t>(std::max<std::int64_t>(count, 0)));
    if (out.empty()) return out;
    const double start_s = static_cast<double>(first) * bin_s;
    auto at = std::lower_bound(time_s.begin(), time_s.end(), start_s);
    for (; at != time_s.end(); ++at) {
        const auto bin_index = static_cast<std::int64_t>(std::floor(*at / bin_s)) - first;
        if (bin_index < 0) continue;
        if (bin_index >= count) break;
        Bin& bin = out[static_cast<std::size_t>(bin_index)];
        const float value = values[static_cast<std::size_t>(at - time_s.begin())];
        bin.low = bin.count == 0 ? value : std::min(bin.low, value);
        bin.high = bin.count == 0 ? value : std::max(bin.high, value);
        ++bin.count;
    }
    return out;
}

}  // namespace plumbline::model

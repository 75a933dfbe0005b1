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
    if ((series.values.size() - 1) % kBlock == 0) {
        series.block_low.push_back(v);
        series.block_high.push_back(v);
    } else {
        series.block_low.back() = std::min(series.block_low.back(), v);
        series.block_high.back() = std::max(series.block_high.back(), v);
    }
    series.low = series.lowest_so_far.back();
    series.high = series.highest_so_far.back();
}

}  // namespace

Series seriesOf(const std::vector<double>& values) {
    Series series;
    for (const double value : values) append(series, value);
    return series;
}

LaneData makeLaneData(const path::Path& path) {
    LaneData out;
    out.time_s.reserve(path.samples.size());
    for (const path::Sample& sample : path.samples) {
        out.time_s.push_back(sample.time_s);
        append(out.height_m, sample.position_S_m.z);
        append(out.airspeed_mps,
               path.known.airspeed ? sample.airspeed_mps : glm::length(sample.velocity_S_mps));
        append(out.climb_mps, sample.velocity_S_mps.z);
        append(out.power_frac, sample.power_frac);
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

std::vector<Bin> binned(const std::vector<double>& time_s, const Series& series, std::int64_t first,
                        std::int64_t count, double bin_s) {
    const auto indexOf = [&](double at_s) {
        return static_cast<std::size_t>(std::lower_bound(time_s.begin(), time_s.end(), at_s) -
                                        time_s.begin());
    };
    const double start_s = static_cast<double>(first) * bin_s;
    const double stop_s = static_cast<double>(first + count) * bin_s;
    const std::size_t seen = count > 0 ? indexOf(stop_s) - indexOf(start_s) : 0;
    constexpr std::size_t kFew = 16 * kBlock;  // chosen: one by one is quicker up to here, per bin
    if (seen < kFew * static_cast<std::size_t>(std::max<std::int64_t>(count, 1)) / 8) {
        return binned(time_s, series.values, first, count, bin_s);
    }
    std::vector<Bin> out(static_cast<std::size_t>(count));
    std::size_t from = indexOf(start_s);
    for (std::int64_t b = 0; b < count; ++b) {
        const std::size_t to = indexOf(static_cast<double>(first + b + 1) * bin_s);
        Bin& bin = out[static_cast<std::size_t>(b)];
        bin.count = static_cast<std::int32_t>(to - from);
        if (from < to) bin.low = bin.high = series.values[from];
        for (std::size_t i = from; i < to;) {
            const bool whole = i % kBlock == 0 && i + kBlock <= to;
            bin.low = std::min(bin.low, whole ? series.block_low[i / kBlock] : series.values[i]);
            bin.high = std::max(bin.high, whole ? series.block_high[i / kBlock] : series.values[i]);
            i += whole ? kBlock : 1;
        }
        from = to;
    }
    return out;
}

}  // namespace plumbline::model

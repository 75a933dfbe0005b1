#pragma once
// What the timeline's lanes and the strip draw from: compact series taken from a path once, and
// their decimation to pixels.

#include <cstdint>
#include <vector>

#include "engine/path/path.h"
#include "viewer/scene/ghost.h"

namespace plumbline::model {

/// Values that are looked at as one where a pixel holds very many.
inline constexpr std::size_t kBlock = 64;

/// One quantity over the path's time.
struct Series {
    std::vector<float> values;  ///< SI (g for load), one a sample
    std::vector<float> lowest_so_far;
    std::vector<float> highest_so_far;
    std::vector<float> block_low, block_high;  ///< of each kBlock values
    float low = 0;
    float high = 0;
};

/// Everything that is drawn against time. Immutable once made.
struct LaneData {
    std::vector<double> time_s;
    Series height_m;
    Series airspeed_mps;  ///< true airspeed, or speed over the ground where airspeed is not known
    Series climb_mps;
    Series load_g;
    Series power_frac;
    Series apart_m;           ///< from the ghost; empty: none
    Series planned_height_m;  ///< of a reviewed flight's plan, set as its ghost; empty: none
};
Series seriesOf(const std::vector<double>& values);
LaneData makeLaneData(const path::Path& path);
/// At the path's own times; 0 where the ghost is not there.
Series makeApartSeries(const scene::Ghost& ghost, const std::vector<double>& time_s);

/// Least and greatest value in a bin of time; count 0: no sample fell into it.
struct Bin {
    float low = 0;
    float high = 0;
    std::int32_t count = 0;
};

/// Bins [first * bin_s, (first + 1) * bin_s) and so on, `count` of them. Bins lie on a fixed grid
/// of time, so that nothing shimmers while the timeline moves.
std::vector<Bin> binned(const std::vector<double>& time_s, const std::vector<float>& values,
                        std::int64_t first, std::int64_t count, double bin_s);

/// The same from a series, quick for hours of samples as well: whole blocks are taken at once.
std::vector<Bin> binned(const std::vector<double>& time_s, const Series& series, std::int64_t first,
                        std::int64_t count, double bin_s);

/// Index of the last sample at or before the time, 0 before the first; times rising.
std::size_t indexAt(const std::vector<double>& time_s, double at_s);

}  // namespace plumbline::model

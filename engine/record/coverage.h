#pragma once
// When each of a log's streams ran, where it had holes, and what of it did not fit the rest.

#include <string>
#include <vector>

#include "engine/record/track.h"

namespace plumbline::record {

/// The stretches of a stream without holes: a hole is several times its usual step and more than a
/// quarter of a second. Times in rising order.
/// @param zero_s  the clock at the path's start
StreamCoverage coverageOf(std::string name, const std::vector<double>& clock_s, double zero_s);

/// All streams of a recording that hold something, with their numbers in at most some ten thousand
/// entries each.
std::vector<StreamCoverage> coverageOf(const std::vector<Fix>& fixes, const SensorLog& sensors,
                                       double zero_s);

/// All its times.
void shiftTimes(StreamCoverage& stream, double by_s);

}  // namespace plumbline::record

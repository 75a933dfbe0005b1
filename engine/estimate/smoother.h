#pragma once
// Attitude, velocity and position from raw sensors, looking at the whole recording at once.

#include <functional>

#include "engine/estimate/settings.h"
#include "engine/estimate/streams.h"

namespace plumbline::estimate {

/// The most probable flight given all streams (least squares on the manifold, Gauss-Newton with
/// weights that let outliers go), at each inertial sample, with its expected errors.
///
/// With fixes the frame S is theirs and heading is true; without, position and velocity have no
/// meaning (the body is taken to stay about where it is), heading is magnetic if a usable field is
/// given, else it starts at an unknown angle. States reach two seconds beyond the fixes. Long
/// recordings are done in overlapping parts.
/// @param progress  called with the share done, after each pass; the number of passes is a guess
/// @return no states when there are fewer than two seconds of inertial samples
Solution smooth(const Streams& streams, const Settings& settings = {},
                const std::function<void(double share)>& progress = {});

}  // namespace plumbline::estimate

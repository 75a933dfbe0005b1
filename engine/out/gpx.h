#pragma once
// A flight as GPX 1.1.

#include <string>

#include "engine/out/flight.h"

namespace plumbline::out {

/// One track, one segment, at most so many points a second, and a waypoint where each figure
/// begins. Elevations above mean sea level; times where the day is known.
///
/// @param flight   with an origin
/// @accuracy 1 cm and 1 ms, of a path that is not known so well
/// @source GPX 1.1 schema, www.topografix.com/GPX/1/1
std::string flightGpx(const Flight& flight, double most_hz);

}  // namespace plumbline::out

#pragma once
// A flight as KML 2.2, without extensions.

#include <string>

#include "engine/out/flight.h"
#include "engine/units/quantity.h"

namespace plumbline::out {

/// A line for each figure (thinned, at its true height above the ground), where it is second by
/// second for a time slider where the day is known, and the site's lines, box, runway and
/// obstacles.
///
/// @param flight   with an origin
/// @param units    of what people read in it
/// @accuracy lines within kKmlBound_m of the path, numbers to 1 cm and 1 ms
/// @source OGC 07-147r2, KML 2.2; its schema ogckml22.xsd
std::string flightKml(const Flight& flight, units::DisplayUnits units);

inline constexpr double kKmlBound_m = 0.1;  // chosen: less than a line's width from any distance

}  // namespace plumbline::out

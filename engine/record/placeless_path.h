#pragma once
// Sensors or an attitude without a single place.

#include "engine/record/gather_sensors.h"
#include "engine/record/wishes.h"

namespace plumbline::record {

/// The attitudes as a path that stays where it is: `known.place` is false, x and y are 0, the
/// height is the pressure's above its first where there is one, else 0 throughout. The attitude is
/// the log's, else estimated from rates and forces (estimate/smoother.h): without a magnetic field
/// its headings count from an unknown direction. Without wishes the sensors' axes are the body's.
/// @errors too few or too short sensors
Expected<ImportedTrack, Problems> pathWithoutPlace(Gathered sensors, const Wishes& wishes);

}  // namespace plumbline::record

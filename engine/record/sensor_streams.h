#pragma once
// Between a log's sensors, the smoother and a path's samples.

#include "engine/estimate/smoother.h"
#include "engine/record/track.h"

namespace plumbline::record {

constexpr double kPathStep_s = 0.0099;  // a little under 0.01, for clocks that jitter

/// All but the fixes, counted from `zero_s` of the sensors' clock; forces at the rates' times.
estimate::Streams inertialStreams(const SensorLog& sensors, double zero_s);

/// At most 100 samples a second. Loads and rates are means over what is passed over: vibration must
/// not alias into them.
void appendSamples(const estimate::Solution& solution, const Quat& q_BI,
                   std::vector<path::Sample>& samples);

/// True where a log's forces are in the axes of its attitude, as far as can be told.
bool forcesAreOfTheBody(const SensorLog& sensors);

/// Takes the attitude back, and says so, where it is too unsure for most of the flight.
void noteIfUnsure(ImportedTrack& track);

}  // namespace plumbline::record

#pragma once
// Fixes of one or several files as one series, and the frame that it gives.

#include "engine/record/track.h"

namespace plumbline::record {

/// Puts fixes a little out of order in their place; drops those whose time repeats or runs
/// backward, and says so.
void keepRisingTimes(FixLog& log);

/// Several logs of one flight in one, in the order of their times; their sensors stay behind.
/// @errors fewer than two usable fixes; logs whose clocks do not fit together
Expected<FixLog, Problems> joinFixes(std::vector<FixLog> logs);

/// East, north, up of the first fix; a log in metres keeps its own.
std::vector<Vec3> positionsOf(const FixLog& log);

/// A track with all but its samples: frame, clock, names, the log's warnings.
ImportedTrack startTrack(const FixLog& log);

/// Says so when the log does not begin at its lowest place.
void warnOfDepth(const FixLog& log, ImportedTrack& track);

}  // namespace plumbline::record

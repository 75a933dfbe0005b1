#pragma once
// From fixes to a path: frame, velocity, load and attitude as far as a position log tells them.

#include "engine/record/track.h"

namespace plumbline::record {

/// One or several position logs of one flight as a path.
///
/// Frame: origin at the first fix, x east, y north, z up (a log in metres keeps its own origin).
/// Velocity: the log's own where every fix has one, else by curve_fit.h. Attitude: x along the
/// velocity, banked where that can be told (bank_from_path.h), else wings level with a sigma that
/// says so, or not known at all; held below 1 m/s and on verticals. Load: from the curve where
/// fixes come at least every 0.25 s: along the path and the size of what acts across it, put into
/// the normal load; else not known. Air data, power and fuel are not known.
/// @errors fewer than two usable fixes; logs whose clocks do not fit together
Expected<ImportedTrack, Problems> trackFromLogs(std::vector<FixLog> logs);

/// Fills rate_B_radps from times and attitudes by central differences.
void ratesFromAttitudes(std::vector<path::Sample>& samples);

}  // namespace plumbline::record

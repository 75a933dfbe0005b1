#pragma once
// From fixes to a path: frame, velocity, load and attitude as far as a position log tells them.

#include "engine/record/track.h"

namespace plumbline::record {

/// One or several position logs of one flight as a path.
///
/// Frame: origin at the first fix, x east, y north, z up (a log in metres keeps its own origin).
/// Velocity: local least-squares cubic over five fixes or 0.4 s to either side, whichever is more,
/// never across a gap. Attitude: x along the velocity, wings level; held below 1 m/s and on
/// verticals; neither attitude nor bank count as known. Load: from the curve where fixes come at
/// least every 0.25 s: along the path and the size of what acts across it, put into the normal
/// load; else not known. Air data, power and fuel are not known.
/// @errors fewer than two usable fixes; logs whose clocks do not fit together
Expected<ImportedTrack, Problems> trackFromLogs(std::vector<FixLog> logs);

/// Fills velocity_S_mps of the samples, and specific_force_B_mps2 with the acceleration in site
/// axes where `acceleration` is not null, from times and positions.
void differentiate(std::vector<path::Sample>& samples, std::vector<Vec3>* acceleration_S_mps2);

/// Fills rate_B_radps from times and attitudes by central differences.
void ratesFromAttitudes(std::vector<path::Sample>& samples);

}  // namespace plumbline::record

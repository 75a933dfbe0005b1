#pragma once
// From logs with sensors or a solved attitude to a path.

#include "engine/record/wishes.h"

namespace plumbline::record {

/// Logs of one flight, of which at least one has sensors or an attitude, as a path.
///
/// Frame as in track_path.h. An attitude that the log brings is used as it is; else rates and
/// forces make one (estimate/smoother.h) and the way the box sits is found (estimate/mounting.h).
/// Where places come from one recorder and sensors from another their clocks are brought together.
/// At most 100 samples a second. Falls back to the places alone, and says why, when the sensors
/// tell nothing.
/// Without any place: placeless_path.h.
/// @errors clocks that cannot be brought together; fewer than two usable samples
Expected<ImportedTrack, Problems> pathFromSensors(std::vector<FixLog> logs,
                                                  const Wishes& wishes = {});

}  // namespace plumbline::record

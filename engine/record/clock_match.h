#pragma once
// Two recorders of one flight whose clocks know nothing of each other.

#include <optional>

#include "engine/record/track.h"

namespace plumbline::record {

struct ClockMatch {
    double offset_s = 0;  ///< fixes' clock less the sensors'
    double likeness = 0;  ///< correlation at it, up to 1
};

/// The offset at which the load that an accelerometer felt follows from how the fixes curve.
/// Good to about a tenth of a second: the smoother finds the rest.
/// @return nothing when no offset stands out
std::optional<ClockMatch> matchClocks(const Series<Vec3>& force_I_mps2,
                                      const std::vector<Fix>& fixes,
                                      const std::vector<Vec3>& positions_S_m);

}  // namespace plumbline::record

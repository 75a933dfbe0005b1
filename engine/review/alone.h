#pragma once
// A flight without its plan: what can be measured of it for itself.

#include <span>

#include "engine/review/known_figures.h"
#include "engine/review/review.h"

namespace plumbline::review {

/// Stretches that leave level flight and come back to it, but for plain turns, climbs and descents:
/// named as the known figure that they clearly are, else by what is in them; their lines
/// against the nearest of vertical and 45 deg (within 12 deg, else they are no such lines), their
/// rolls against the nearest quarter (within 20 deg). Numbers called planned are 0.
/// @param flight  in the site's axes, with attitude; without it only a note says so
/// @param zero_lift_rad  incidence at which the wing lifts nothing; 0 where the aircraft is unknown
/// @param span_m  0: not known, pivots are not measured
Review reviewAlone(const path::Path& flight, double zero_lift_rad, double span_m,
                   const data::Site& site, std::span<const KnownFigure> known = {});

}  // namespace plumbline::review

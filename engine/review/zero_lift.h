#pragma once
// Where the zero-lift axis points in the aircraft, told from verticals flown without load.

#include <optional>

#include "engine/data/aircraft.h"
#include "engine/earth/atmosphere.h"
#include "engine/path/path.h"

namespace plumbline::review {

struct ZeroLift {
    double aoa_rad = 0;    ///< of the recording's x axis at zero lift, as in the aircraft file
    double sigma_rad = 0;  ///< twice this holds 95 % of the errors that are told of
    int verticals = 0;     ///< stretches it was told from
    Vec3 wind_S_mps{0};    ///< found with it
};

/// Incidence of zero lift and the steady wind that fit all verticals best (least squares).
///
/// On a vertical that carries almost no normal load the air comes along the zero-lift axis: the
/// way over the ground, the wind taken off, in body axes; what load is left is reckoned with
/// the file's lift slope. A wind tilts it by wind over speed towards or away from the canopy, so
/// verticals with the canopy on different sides tell the two apart; where they do not, the wind's
/// own doubt goes into sigma.
/// simplified: thrust along x; one wind for all heights. The recorder's x axis is taken for the
/// aircraft's: how well it was aligned is not known here.
/// @param wind_S_mps  the day's, believed within 2 m/s on each axis (chosen)
/// @return nothing where there is no such vertical, or attitude, loads or places are not known
std::optional<ZeroLift> zeroLiftOf(const path::Path& flight, const data::Aircraft& aircraft,
                                   const earth::SiteAir& air, const Vec3& wind_S_mps);

}  // namespace plumbline::review

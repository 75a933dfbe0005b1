#pragma once
// How somebody on the ground follows the aircraft with a camera in the hand.

#include "engine/path/path.h"

namespace plumbline::scene {

/// Direction in which a person at the eye point looks, unit, site axes.
///
/// Model: the direction to the aircraft through a critically damped second-order filter that lags a
/// steady turn by 0.25 s, evaluated from the path's last 2 s, so that it is a function of path and
/// time only; never behind by more than a quarter of the half field; 0.4 deg ahead in the sense of
/// the motion; raised so that the horizon stays in the picture while the aircraft is below 15 deg,
/// where the field allows both (half field over 10 deg).
/// @param half_field_rad  half of the vertical field of view
Vec3 handFollow(const path::Path& path, const Vec3& eye_S_m, double time_s, double half_field_rad);

/// Elevation at which the picture's middle is held for an elevation of the aircraft.
double heldElevation(double elevation_rad, double half_field_rad);

}  // namespace plumbline::scene

#pragma once
// The wing-tip sighting frame as it is built: where its hub sits, how its bars are turned.
//
// Seen from the pilot's eye a bar lies on the horizon when the zero-lift axis stands at the bar's
// angle: so it is mounted at that angle below the axis, in the plane of symmetry.

#include <array>

#include "engine/data/aircraft.h"

namespace plumbline::data {

/// All lengths filled in, where the file leaves them open with what looks right. Left wing; the
/// right one is its mirror image.
struct FrameShape {
    Vec3 hub_B_m{0};             ///< from the centre of gravity
    double bar_m = 0;            ///< whole length of each bar
    std::array<Vec3, 3> feet_m;  ///< of its legs, from the hub, body axes
};
FrameShape frameShapeOf(const Aircraft& aircraft);

/// A bar's angle from the body x axis, front end up positive, within a quarter turn either way.
/// @param climb_rad  of the line that it is for: 0 level, pi/4, pi/2...
/// @param zero_lift_rad  incidence of the body x axis at zero lift
double barAngle_rad(double climb_rad, double zero_lift_rad);

}  // namespace plumbline::data

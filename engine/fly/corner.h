#pragma once
// Corners flown as geometry: the arc between two straight lines.

#include "engine/fly/flight.h"

namespace plumbline::fly {

/// Gives a radius arc's law its ramps, plateau and (positive) curvature.
///
/// A corner's curvature rises and falls by smooth steps over half a radius each, or a third of the
/// arc where that is less. Its tangent length (corner to where the arc begins) is that of the plain
/// circle, R tan(angle/2), so that corners of a polygon close: the peak curvature is that much
/// above 1/R. From 150 deg on the radius itself is kept.
void shapeCorner(double radius_m, double angle_rad, Law& law);

/// Radius at which a plain circle begun here reads this load, in an arc's sense (+1 pull).
double radiusForLoad(const Flight& flight, double load_g, double sense);

}  // namespace plumbline::fly

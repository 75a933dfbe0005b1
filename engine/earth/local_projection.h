#pragma once
// Latitude and longitude to site axes and back.

#include <GeographicLib/LocalCartesian.hpp>

#include "engine/earth/geo_point.h"
#include "engine/math/frames.h"

namespace plumbline::earth {

/// Site axes at an origin on WGS 84: x along a true bearing, y to its left, both in the plane that
/// touches the ellipsoid there; z is the height over the level surface through the origin, which is
/// what every altimeter and every limit means. (Over the plane itself a place ten kilometres away
/// would stand eight metres too low.)
///
/// simplified: elevations above mean sea level are taken as heights above the ellipsoid; only
/// differences count, and the geoid changes by centimetres over a site.
/// simplified: across the plane's edges, 100 km away, x and y are short by 0.01 %, and z is not
/// quite at right angles to them.
/// @accuracy nanometres against published local frames; tested in literature LocalFrame
class LocalProjection {
public:
    /// @param origin         latitude within -90..90 deg
    /// @param x_bearing_rad  true bearing of +x: that of the show line; pi/2 gives east, north, up
    LocalProjection(const GeoPoint& origin, double x_bearing_rad);

    /// NaN for a latitude beyond the poles.
    Vec3 toSite(const GeoPoint& place) const;
    GeoPoint toGeodetic(const Vec3& position_S_m) const;

private:
    GeographicLib::LocalCartesian east_north_up_;
    double origin_elevation_m_;
    double sin_bearing_, cos_bearing_;
};

/// Shortest way over the ellipsoid [m] (C. F. F. Karney, J. Geod. 87, 2013, by GeographicLib).
double groundDistance_m(const GeoPoint& a, const GeoPoint& b);

}  // namespace plumbline::earth

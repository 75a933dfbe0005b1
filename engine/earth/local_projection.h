#pragma once
// Latitude and longitude to site axes and back.

#include <GeographicLib/LocalCartesian.hpp>

#include "engine/earth/geo_point.h"
#include "engine/math/frames.h"

namespace plumbline::earth {

/// Right-handed plane axes that touch WGS 84 at an origin: z up there, x along a true bearing.
///
/// simplified: elevations above mean sea level are taken as heights above the ellipsoid; only
/// differences count, and the geoid changes by centimetres over a site.
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
    double sin_bearing_, cos_bearing_;
};

}  // namespace plumbline::earth

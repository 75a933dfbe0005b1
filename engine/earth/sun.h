#pragma once
// Where the sun stands.

#include "engine/earth/geo_point.h"
#include "engine/math/frames.h"

namespace plumbline::earth {

struct SunPosition {
    double azimuth_rad = 0;             ///< true bearing, clockwise from north, [0, 2 pi)
    double elevation_rad = 0;           ///< of the centre, as if there were no air
    double apparent_elevation_rad = 0;  ///< as seen through the air
};

/// Position of the sun as seen from a place.
///
/// Valid for: 1950 to 2050 (TT - UTC is taken as 69 s; a wrong second moves the sun by 0.00001
/// deg). Refraction by Saemundsson's formula, only above -1 deg: good to 0.1 arcmin in mean air,
/// but near the horizon real air differs by far more.
/// @param utc_s          seconds since 1970 (parseUtc)
/// @param pressure_pa    of the air there, for refraction
/// @param temperature_k  of the air there, for refraction
/// @accuracy 0.01 deg; tested in literature Sun
/// @source J. Meeus, Astronomical Algorithms, 2nd ed. 1998: (25.2)-(25.8) sun, (12.4) sidereal
///   time, (22.2) obliquity, (13.5), (13.6) horizon, (16.4) refraction
SunPosition sunPosition(double utc_s, const GeoPoint& place, double pressure_pa,
                        double temperature_k);

/// Unit vector towards the apparent sun, site axes.
Vec3 directionToSun(const SunPosition& sun, double show_line_bearing_rad);

}  // namespace plumbline::earth

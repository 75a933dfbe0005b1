#pragma once

namespace plumbline::earth {

/// A place on WGS 84.
struct GeoPoint {
    double latitude_rad = 0;
    double longitude_rad = 0;
    double elevation_m = 0;  ///< above mean sea level
};

}  // namespace plumbline::earth

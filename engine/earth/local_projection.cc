#include "engine/earth/local_projection.h"

#include <cmath>

#include <GeographicLib/Geodesic.hpp>

#include "engine/base/check.h"
#include "engine/units/units.h"

namespace plumbline::earth {
namespace {}  // namespace

LocalProjection::LocalProjection(const GeoPoint& origin, double x_bearing_rad)
    : east_north_up_(origin.latitude_rad / units::kDegree_rad,
                     origin.longitude_rad / units::kDegree_rad, origin.elevation_m),
      origin_elevation_m_(origin.elevation_m),
      sin_bearing_(std::sin(x_bearing_rad)),
      cos_bearing_(std::cos(x_bearing_rad)) {
    PL_EXPECT(std::fabs(origin.latitude_rad) <= 0.5 * kPi * (1 + 1e-15));
}

Vec3 LocalProjection::toSite(const GeoPoint& place) const {
    double east, north, up;
    east_north_up_.Forward(place.latitude_rad / units::kDegree_rad,
                           place.longitude_rad / units::kDegree_rad, place.elevation_m, east, north,
                           up);
    return Vec3(sin_bearing_ * east + cos_bearing_ * north,
                sin_bearing_ * north - cos_bearing_ * east,
                place.elevation_m - origin_elevation_m_);
}

GeoPoint LocalProjection::toGeodetic(const Vec3& position_S_m) const {
    const Vec3& p = position_S_m;
    const double east = sin_bearing_ * p.x - cos_bearing_ * p.y;
    const double north = cos_bearing_ * p.x + sin_bearing_ * p.y;
    double latitude = 0, longitude = 0, elevation = 0;
    // The height over the plane that gives this height over the level surface: each step leaves a
    // hundredth of the error at 100 km, a ten thousandth at 1 km.
    double up = p.z;
    for (int step = 0; step < 5; ++step) {
        east_north_up_.Reverse(east, north, up, latitude, longitude, elevation);
        up += p.z - (elevation - origin_elevation_m_);
    }
    return {latitude * units::kDegree_rad, longitude * units::kDegree_rad, elevation};
}

double groundDistance_m(const GeoPoint& a, const GeoPoint& b) {
    double distance_m = 0;
    GeographicLib::Geodesic::WGS84().Inverse(
        a.latitude_rad / units::kDegree_rad, a.longitude_rad / units::kDegree_rad,
        b.latitude_rad / units::kDegree_rad, b.longitude_rad / units::kDegree_rad, distance_m);
    return distance_m;
}

}  // namespace plumbline::earth

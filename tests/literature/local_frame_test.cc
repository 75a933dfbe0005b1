#include <gtest/gtest.h>

#include "engine/earth/local_projection.h"
#include "engine/units/units.h"

namespace plumbline::earth {
namespace {

Vec3 eastNorthUp(const GeoPoint& origin, const GeoPoint& place) {
    return LocalProjection(origin, kPi / 2).toSite(place);
}

/// The published frames' third axis is straight up from the plane; ours counts heights from the
/// level surface through the origin, so that only the first two are theirs.
void expectNear(const Vec3& a, const Vec3& b, double tolerance_m) {
    EXPECT_NEAR(a.x, b.x, tolerance_m);
    EXPECT_NEAR(a.y, b.y, tolerance_m);
    EXPECT_NEAR(a.z, b.z, tolerance_m);
}

TEST(LocalFrame, MatchesTheCartConvertManual) {
    // GeographicLib, CartConvert manual page: printed 37288.97 33374.29 5783.64, not rounded.
    expectNear(eastNorthUp({33 * units::kDegree_rad, 44 * units::kDegree_rad, 20},
                           {33.3 * units::kDegree_rad, 44.4 * units::kDegree_rad, 6000}),
               Vec3(37288.97, 33374.29, 6000 - 20), 0.01);
}

TEST(LocalFrame, MatchesAnIndependentGeodesyPackage) {
    // pymap3d (BSD-2), tests/test_aer.py: origin 42 N 82 W 200 m, point at ECEF 660930.19276,
    // -4701424.22296, 4246579.60463, east north up 186.2775 286.8422 939.6926.
    const LocalProjection projection({42 * units::kDegree_rad, -82 * units::kDegree_rad, 200},
                                     kPi / 2);
    // The level surface lies d^2 / 2R under the plane, R the radius of curvature there.
    const double under_m = (186.2775 * 186.2775 + 286.8422 * 286.8422) / (2 * 6.376e6);
    const GeoPoint place = projection.toGeodetic(Vec3(186.2775, 286.8422, 939.6926 + under_m));
    // WGS 84 (NGA.STND.0036), geodetic to Earth-centred by the textbook formula.
    const double a = 6378137, f = 1 / 298.257223563, e2 = f * (2 - f);
    const double N = a / std::sqrt(1 - e2 * std::pow(std::sin(place.latitude_rad), 2));
    const double level = (N + place.elevation_m) * std::cos(place.latitude_rad);
    expectNear(Vec3(level * std::cos(place.longitude_rad), level * std::sin(place.longitude_rad),
                    (N * (1 - e2) + place.elevation_m) * std::sin(place.latitude_rad)),
               Vec3(660930.19276, -4701424.22296, 4246579.60463), 1e-4);
}

TEST(LocalFrame, MatchesClosedFormsInFortyDigits) {
    // Geodetic to Earth-centred to local axes, evaluated with 40-digit arithmetic.
    expectNear(eastNorthUp({44 * units::kDegree_rad, -88.5 * units::kDegree_rad, 250},
                           {44.005 * units::kDegree_rad, -88.495 * units::kDegree_rad, 550}),
               Vec3(401.031808060673, 555.621605503269, 300), 1e-8);
    expectNear(eastNorthUp(
                   {(48 + 50.0 / 60) * units::kDegree_rad, (2 + 20.0 / 60) * units::kDegree_rad, 0},
                   {50.9 * units::kDegree_rad, 1.8 * units::kDegree_rad, 0}),
               Vec3(-37518.639041414, 229949.653451204, 0), 1e-7);
}

}  // namespace
}  // namespace plumbline::earth

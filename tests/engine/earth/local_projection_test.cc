#include "engine/earth/local_projection.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"

namespace plumbline::earth {
namespace {

TEST(LocalProjection, XPointsAlongTheBearingAndYToItsLeft) {
    const GeoPoint origin{52 * units::kDegree_rad, 9 * units::kDegree_rad, 120};
    const GeoPoint north{52.001 * units::kDegree_rad, 9 * units::kDegree_rad, 120},
        east{52 * units::kDegree_rad, 9.001 * units::kDegree_rad, 120};
    const LocalProjection along_north(origin, 0);
    EXPECT_GT(along_north.toSite(north).x, 100);
    EXPECT_NEAR(along_north.toSite(north).y, 0, 1e-6);
    EXPECT_LT(along_north.toSite(east).y, -60);
    const LocalProjection along_east(origin, kPi / 2);
    EXPECT_GT(along_east.toSite(east).x, 60);
    EXPECT_GT(along_east.toSite(north).y, 100);
    // On a show line of 070, what lies due north has a true bearing of 0.
    const LocalProjection show_line(origin, 70 * units::kDegree_rad);
    EXPECT_NEAR(
        std::remainder(headingOf(show_line.toSite(north), 70 * units::kDegree_rad), 2 * kPi), 0,
        1e-9);
}

TEST(LocalProjection, ComesBack) {
    const LocalProjection projection({-33.9 * units::kDegree_rad, 179.999 * units::kDegree_rad, 40},
                                     200 * units::kDegree_rad);
    const Vec3 position(1234, -567, 890);
    const Vec3 back = projection.toSite(projection.toGeodetic(position));
    EXPECT_NEAR(glm::distance(back, position), 0, 1e-7);
    const Vec3 far(80e3, 60e3, 3000);
    EXPECT_NEAR(glm::distance(projection.toSite(projection.toGeodetic(far)), far), 0, 1e-4);
}

TEST(LocalProjection, HeightIsWhatAnAltimeterMeans) {
    const LocalProjection projection({48 * units::kDegree_rad, 11 * units::kDegree_rad, 500},
                                     kPi / 2);
    EXPECT_EQ(projection.toSite({48.2 * units::kDegree_rad, 11.3 * units::kDegree_rad, 650}).z,
              150);
    EXPECT_NEAR(projection.toGeodetic({20e3, -10e3, 150}).elevation_m, 650, 1e-6);
}

}  // namespace
}  // namespace plumbline::earth

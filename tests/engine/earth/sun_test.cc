#include "engine/earth/sun.h"

#include <gtest/gtest.h>

#include "engine/earth/utc_time.h"
#include "engine/units/units.h"

namespace plumbline::earth {
namespace {

TEST(Sun, DirectionFollowsTheShowLine) {
    const SunPosition sun{270 * units::kDegree_rad, 30 * units::kDegree_rad,
                          30 * units::kDegree_rad};
    // Show line due east: the west is at -x.
    EXPECT_NEAR(
        glm::distance(directionToSun(sun, kPi / 2), Vec3(-std::cos(30 * units::kDegree_rad), 0,
                                                         std::sin(30 * units::kDegree_rad))),
        0, 1e-15);
    // Show line due south, crowd to the west of it looking east: the west is behind the crowd.
    EXPECT_NEAR(directionToSun(sun, kPi).y, -std::cos(30 * units::kDegree_rad), 1e-15);
}

TEST(Sun, RefractionLiftsTheSettingSunByHalfADegree) {
    const GeoPoint place{52 * units::kDegree_rad, 9 * units::kDegree_rad, 0};
    double utc_s = *parseUtc("2026-06-27T18:00:00Z");
    while (sunPosition(utc_s, place, 101325, 288.15).elevation_rad > 0) utc_s += 10;
    const SunPosition set = sunPosition(utc_s, place, 101325, 288.15);
    // Mean refraction at the true horizon, 29 arcmin (Meeus, chapter 16).
    EXPECT_NEAR((set.apparent_elevation_rad - set.elevation_rad) / units::kDegree_rad * 60, 29, 1);
}

}  // namespace
}  // namespace plumbline::earth

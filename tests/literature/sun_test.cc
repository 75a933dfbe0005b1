#include "engine/earth/sun.h"

#include <gtest/gtest.h>

#include "engine/earth/utc_time.h"
#include "engine/units/units.h"

namespace plumbline::earth {
namespace {

TEST(Sun, MatchesTheNrelExample) {
    // I. Reda, A. Andreas, Solar Position Algorithm, NREL/TP-560-34302 (rev. 2008), table A5.1:
    // 2003-10-17 12:30:30 UTC-7, 39.742476 N, 105.1786 W, 820 mbar, 11 degC.
    const SunPosition sun = sunPosition(
        *parseUtc("2003-10-17T12:30:30-07:00"),
        {39.742476 * units::kDegree_rad, -105.1786 * units::kDegree_rad, 1830.14}, 82000, 284.15);
    EXPECT_NEAR(sun.azimuth_rad / units::kDegree_rad, 194.34024, 0.01);
    EXPECT_NEAR(90 - sun.apparent_elevation_rad / units::kDegree_rad, 50.11162, 0.01);
    EXPECT_NEAR((sun.apparent_elevation_rad - sun.elevation_rad) / units::kDegree_rad, 0.016332,
                0.0005);
}

TEST(Sun, MatchesAnEphemerisOverTheWorld) {
    // Airless elevation and azimuth computed with two ephemeris libraries that agree to 0.0004 deg.
    const struct {
        const char* utc;
        double latitude_deg, longitude_deg, elevation_deg, azimuth_deg;
    } rows[] = {{"2026-06-21T12:00:00Z", 51.4779, 0.0, 61.9566, 179.1132},
                {"2026-07-22T20:00:00Z", 43.9844, -88.557, 55.6125, 235.7426},
                {"2026-12-21T18:00:00Z", 34.0, -118.0, 26.869, 151.596},
                {"2026-03-20T16:00:00Z", -33.9, 18.6, 10.9502, 277.4972}};
    for (const auto& row : rows) {
        const SunPosition sun = sunPosition(
            *parseUtc(row.utc),
            {row.latitude_deg * units::kDegree_rad, row.longitude_deg * units::kDegree_rad, 0},
            101325, 288.15);
        EXPECT_NEAR(sun.elevation_rad / units::kDegree_rad, row.elevation_deg, 0.01) << row.utc;
        // A degree of azimuth is narrower the higher the sun.
        EXPECT_NEAR(std::remainder(sun.azimuth_rad / units::kDegree_rad - row.azimuth_deg, 360) *
                        std::cos(sun.elevation_rad),
                    0, 0.01)
            << row.utc;
    }
}

}  // namespace
}  // namespace plumbline::earth

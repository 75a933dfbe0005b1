#include "engine/earth/atmosphere.h"

#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::earth {
namespace {

TEST(StandardAir, IsContinuousAtTheTropopause) {
    const AirState below = standardAir(kTropopause_m - 1e-6),
                   above = standardAir(kTropopause_m + 1e-6);
    EXPECT_NEAR(below.pressure_pa / above.pressure_pa, 1, 1e-9);
    EXPECT_NEAR(below.density_kgpm3 / above.density_kgpm3, 1, 1e-9);
}

TEST(StandardAir, IsHydrostatic) {
    // dp/dH = -rho g0 by central difference.
    for (double H : {-4000.0, 0.0, 3000.0, 10500.0, 15000.0}) {
        const double e = 0.5;
        const double slope =
            (standardAir(H + e).pressure_pa - standardAir(H - e).pressure_pa) / (2 * e);
        EXPECT_NEAR(slope / (-standardAir(H).density_kgpm3 * 9.80665), 1, 1e-8) << H;
    }
}

TEST(StandardAir, AltitudesComeBack) {
    for (double H : {-4000.0, 0.0, 120.0, 10999.0, 11001.0, 19000.0}) {
        EXPECT_NEAR(pressureAltitude_m(standardAir(H).pressure_pa), H, 1e-7);
        EXPECT_NEAR(densityAltitude_m(standardAir(H).density_kgpm3), H, 1e-7);
    }
}

TEST(SiteAir, OnAStandardDayIsTheStandardAtmosphere) {
    const SiteAir air(120, 288.15 - 0.0065 * 120, 101325);
    for (double height : {0.0, 500.0, 2000.0, 12000.0}) {
        EXPECT_NEAR(air.at(height).pressure_pa / standardAir(120 + height).pressure_pa, 1, 1e-13);
        EXPECT_NEAR(air.at(height).temperature_k, standardAir(120 + height).temperature_k, 1e-9);
    }
}

TEST(SiteAir, KeepsItsTemperatureOffsetAndIsHydrostatic) {
    const SiteAir air(800, 308.15, 99500);
    EXPECT_NEAR(air.at(0).temperature_k, 308.15, 1e-12);
    EXPECT_NEAR(air.at(1000).temperature_k, 308.15 - 6.5, 1e-12);
    for (double height : {0.0, 700.0, 11000.0}) {
        const double e = 0.5;
        const double slope =
            (air.at(height + e).pressure_pa - air.at(height - e).pressure_pa) / (2 * e);
        EXPECT_NEAR(slope / (-air.at(height).density_kgpm3 * 9.80665), 1, 1e-8) << height;
    }
}

TEST(SiteAir, AnAltimeterSetToQnhReadsTheElevation) {
    // An altimeter shows pressure altitude less the pressure altitude of its setting.
    const SiteAir air(450, 301, 100200);
    EXPECT_NEAR(pressureAltitude_m(air.at(0).pressure_pa) - pressureAltitude_m(100200), 450, 1e-8);
}

}  // namespace
}  // namespace plumbline::earth

// Notation of ICAO Doc 7488/3: H geopotential altitude, T temperature, p pressure, L lapse,
// R gas constant; in the troposphere p ~ T^n with n = g0 / (R L).
#include "engine/earth/atmosphere.h"

#include <algorithm>
#include <cmath>

#include "engine/base/check.h"
#include "engine/math/frames.h"

namespace plumbline::earth {
namespace {

constexpr double kExponent = kGravity_mps2 / (kGasConstant_jpkgk * kLapse_kpm);
constexpr double kTropopauseTemperature_k = kStandardTemperature_k - kLapse_kpm * kTropopause_m;

double standardTemperature_k(double H) {
    return kStandardTemperature_k - kLapse_kpm * std::min(H, kTropopause_m);
}

/// p(to) / p(from) in hydrostatic air with the standard lapse, warmer than standard by an offset.
double pressureRatio(double from_H, double to_H, double offset_k) {
    const auto below = [](double H) { return std::min(H, kTropopause_m); };
    const auto above = [](double H) { return std::max(H, kTropopause_m); };
    const double T_from = standardTemperature_k(from_H) + offset_k;
    const double T_to = standardTemperature_k(to_H) + offset_k;
    double ratio = 1;
    if (below(from_H) != below(to_H)) ratio = std::pow(T_to / T_from, kExponent);
    if (above(from_H) != above(to_H))
        ratio *= std::exp(-kGravity_mps2 * (above(to_H) - above(from_H)) /
                          (kGasConstant_jpkgk * (kTropopauseTemperature_k + offset_k)));
    return ratio;
}

AirState airState(double temperature_k, double pressure_pa) {
    return {temperature_k, pressure_pa, pressure_pa / (kGasConstant_jpkgk * temperature_k),
            std::sqrt(kHeatRatio * kGasConstant_jpkgk * temperature_k)};
}

/// Altitude where standard air has `ratio` of a sea-level quantity that goes as T^exponent below
/// the tropopause and falls by exp(-g0 dH / R T) above.
double altitudeOf(double ratio, double exponent) {
    const double T_ratio = kTropopauseTemperature_k / kStandardTemperature_k;
    const double at_tropopause = std::pow(T_ratio, exponent);
    if (ratio >= at_tropopause)
        return kStandardTemperature_k / kLapse_kpm * (1 - std::pow(ratio, 1 / exponent));
    return kTropopause_m - kGasConstant_jpkgk * kTropopauseTemperature_k / kGravity_mps2 *
                               std::log(ratio / at_tropopause);
}

}  // namespace

AirState standardAir(double geopotential_altitude_m) {
    return airState(standardTemperature_k(geopotential_altitude_m),
                    kStandardPressure_pa * pressureRatio(0, geopotential_altitude_m, 0));
}

double standardDensity_kgpm3() {
    return kStandardPressure_pa / (kGasConstant_jpkgk * kStandardTemperature_k);
}

double pressureAltitude_m(double pressure_pa) {
    return altitudeOf(pressure_pa / kStandardPressure_pa, kExponent);
}

double densityAltitude_m(double density_kgpm3) {
    return altitudeOf(density_kgpm3 / standardDensity_kgpm3(), kExponent - 1);
}

SiteAir::SiteAir(double elevation_m, double temperature_k, double qnh_pa)
    : elevation_m_(elevation_m),
      offset_k_(temperature_k - standardTemperature_k(elevation_m)),
      surface_pressure_pa_(standardAir(pressureAltitude_m(qnh_pa) + elevation_m).pressure_pa) {
    PL_EXPECT(temperature_k > 0 && qnh_pa > 0);
}

AirState SiteAir::at(double height_m) const {
    const double H = elevation_m_ + height_m;
    return airState(standardTemperature_k(H) + offset_k_,
                    surface_pressure_pa_ * pressureRatio(elevation_m_, H, offset_k_));
}

}  // namespace plumbline::earth

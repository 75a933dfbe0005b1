// Notation of Meeus: T Julian centuries from J2000, L0 mean longitude, M mean anomaly, C equation
// of the centre, Omega the moon's node, lambda apparent longitude, epsilon obliquity, alpha and
// delta right ascension and declination, H hour angle, h elevation. Degrees where the source has
// them.
#include "engine/earth/sun.h"

#include <cmath>

#include "engine/units/units.h"

namespace plumbline::earth {
namespace {

constexpr double kTerrestrialMinusUniversal_s = 69;  // chosen: 2017 to 2026 within 0.5 s (IERS)
constexpr double kParallax_deg = 8.794 / 3600;       // Meeus (40.1), at one astronomical unit

double sinDeg(double x) { return std::sin(x * units::kDegree_rad); }
double cosDeg(double x) { return std::cos(x * units::kDegree_rad); }

/// Meeus (16.4): what to add to the airless elevation, degrees.
double refraction_deg(double h, double pressure_pa, double temperature_k) {
    if (h < -1) return 0;
    const double arcmin = 1.02 / std::tan((h + 10.3 / (h + 5.11)) * units::kDegree_rad);
    return arcmin / 60 * (pressure_pa / 101000) * (283 / temperature_k);
}

}  // namespace

SunPosition sunPosition(double utc_s, const GeoPoint& place, double pressure_pa,
                        double temperature_k) {
    const double days = utc_s / 86400 - 10957.5;  // since J2000, 2000-01-01T12:00
    const double T = (days + kTerrestrialMinusUniversal_s / 86400) / 36525;
    const double L0 = 280.46646 + T * (36000.76983 + T * 0.0003032);
    const double M = 357.52911 + T * (35999.05029 - T * 0.0001537);
    const double C = (1.914602 - T * (0.004817 + T * 0.000014)) * sinDeg(M) +
                     (0.019993 - T * 0.000101) * sinDeg(2 * M) + 0.000289 * sinDeg(3 * M);
    const double Omega = 125.04 - 1934.136 * T;
    const double lambda = L0 + C - 0.00569 - 0.00478 * sinDeg(Omega);
    const double epsilon = 23.0 + 26.0 / 60 + 21.448 / 3600 -
                           T * (46.8150 + T * (0.00059 - T * 0.001813)) / 3600 +
                           0.00256 * cosDeg(Omega);
    const double alpha =
        std::atan2(cosDeg(epsilon) * sinDeg(lambda), cosDeg(lambda)) / units::kDegree_rad;
    const double sin_delta = sinDeg(epsilon) * sinDeg(lambda);
    const double cos_delta = std::sqrt(1 - sin_delta * sin_delta);

    const double centuries = days / 36525;
    const double sidereal = 280.46061837 + 360.98564736629 * days +
                            centuries * centuries * (0.000387933 - centuries / 38710000) -
                            0.00478 * sinDeg(Omega) * cosDeg(epsilon);
    const double H = std::fmod(sidereal - alpha, 360) * units::kDegree_rad + place.longitude_rad;

    const double sin_phi = std::sin(place.latitude_rad), cos_phi = std::cos(place.latitude_rad);
    const double south = sin_phi * cos_delta * std::cos(H) - cos_phi * sin_delta;
    const double west = cos_delta * std::sin(H);
    const double up = sin_phi * sin_delta + cos_phi * cos_delta * std::cos(H);
    const double h_geocentric = std::atan2(up, std::hypot(south, west)) / units::kDegree_rad;
    const double h = h_geocentric - kParallax_deg * cosDeg(h_geocentric);

    SunPosition sun;
    sun.azimuth_rad = std::fmod(std::atan2(-west, -south) + 2 * kPi, 2 * kPi);
    sun.elevation_rad = h * units::kDegree_rad;
    sun.apparent_elevation_rad =
        (h + refraction_deg(h, pressure_pa, temperature_k)) * units::kDegree_rad;
    return sun;
}

Vec3 directionToSun(const SunPosition& sun, double show_line_bearing_rad) {
    const double angle = show_line_bearing_rad - sun.azimuth_rad;  // about z_S
    const double level = std::cos(sun.apparent_elevation_rad);
    return Vec3(level * std::cos(angle), level * std::sin(angle),
                std::sin(sun.apparent_elevation_rad));
}

}  // namespace plumbline::earth

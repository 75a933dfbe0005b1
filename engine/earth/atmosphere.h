#pragma once
// Standard and site air: temperature, pressure, density by height.

namespace plumbline::earth {

inline constexpr double kSeaLevelDensity_kgpm3 = 1.225;  ///< ICAO Doc 7488, as printed

struct AirState {
    double temperature_k = 0;
    double pressure_pa = 0;
    double density_kgpm3 = 0;
    double speed_of_sound_mps = 0;
};

inline constexpr double kStandardTemperature_k = 288.15;  ///< sea level
inline constexpr double kStandardPressure_pa = 101325;    ///< sea level
inline constexpr double kLapse_kpm = 0.0065;              ///< temperature lost by metre
inline constexpr double kGasConstant_jpkgk = 287.05287;   ///< dry air
inline constexpr double kHeatRatio = 1.4;                 ///< dry air
inline constexpr double kTropopause_m = 11000;            ///< geopotential

/// The standard atmosphere.
///
/// Valid for -5 to 20 km; outside, the law of the nearest layer goes on. Dry air.
/// @param geopotential_altitude_m  above mean sea level
/// @accuracy the printed digits of the ICAO table; tested in literature Atmosphere
/// @source ICAO Doc 7488/3 (1993), section 2; ISO 2533:1975
AirState standardAir(double geopotential_altitude_m);

/// Geopotential altitude at which the standard atmosphere has this pressure.
double pressureAltitude_m(double pressure_pa);

/// Geopotential altitude at which the standard atmosphere has this density.
/// @source definition: FAA-H-8083-25, chapter 11; formula: standardAir turned round
double densityAltitude_m(double density_kgpm3);

/// Sea level density of the standard atmosphere.
double standardDensity_kgpm3();

/// The air over a site on its day.
///
/// Model: the pressure at show centre is what makes an altimeter set to QNH read the elevation; the
/// temperature's difference from standard stays the same aloft; pressure is hydrostatic in that
/// temperature.
/// simplified: dry air (a humid day is up to 1 % thinner); heights are taken as geopotential
/// (0.2 m short at 1 km).
class SiteAir {
public:
    /// @param elevation_m    of show centre above mean sea level
    /// @param temperature_k  at show centre
    /// @param qnh_pa         altimeter setting
    SiteAir(double elevation_m, double temperature_k, double qnh_pa);

    /// @param height_m  above show centre
    AirState at(double height_m) const;

    double temperatureOffset_k() const { return offset_k_; }

private:
    double elevation_m_;
    double offset_k_;  ///< above standard
    double surface_pressure_pa_;
};

}  // namespace plumbline::earth

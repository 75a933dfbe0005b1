#pragma once
// Conversion factors from their exact definitions: multiply by one to get SI, divide to go back.

#include "engine/base/constants.h"

namespace plumbline::units {

// International yard and pound agreement, 1959.
inline constexpr double kFoot_m = 0.3048;
inline constexpr double kInch_m = kFoot_m / 12;
inline constexpr double kStatuteMile_m = 5280 * kFoot_m;
inline constexpr double kPound_kg = 0.45359237;

// International nautical mile, Monaco 1929.
inline constexpr double kNauticalMile_m = 1852;
inline constexpr double kHour_s = 3600;
inline constexpr double kMinute_s = 60;
inline constexpr double kKnot_mps = kNauticalMile_m / kHour_s;
inline constexpr double kKilometrePerHour_mps = 1000 / kHour_s;
inline constexpr double kMilePerHour_mps = kStatuteMile_m / kHour_s;
inline constexpr double kFootPerMinute_mps = kFoot_m / kMinute_s;

inline constexpr double kDegree_rad = kPi / 180;
inline constexpr double kLitre_m3 = 0.001;
inline constexpr double kUsGallon_m3 = 231 * kInch_m * kInch_m * kInch_m;
inline constexpr double kKilowattHour_j = 1000 * kHour_s;

inline constexpr double kHectopascal_pa = 100;
/// Conventional inch of mercury (0 degC, standard gravity): 25.4 mm of 13 595.1 kg/m3.
inline constexpr double kInchOfMercury_pa = kInch_m * 13595.1 * kGravity_mps2;

/// Metric and mechanical horsepower: 75 kgf m/s, 550 ft lbf/s.
inline constexpr double kMetricHorsepower_w = 75 * kGravity_mps2;
inline constexpr double kHorsepower_w = 550 * kFoot_m * kPound_kg * kGravity_mps2;

inline constexpr double kCelsiusZero_k = 273.15;
inline constexpr double kFahrenheit_k = 5.0 / 9;                                  ///< one step
inline constexpr double kFahrenheitZero_k = kCelsiusZero_k - 32 * kFahrenheit_k;  ///< of 0 degF

}  // namespace plumbline::units

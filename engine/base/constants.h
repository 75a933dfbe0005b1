#pragma once

namespace plumbline {

inline constexpr double kPi = 3.14159265358979323846;
inline constexpr double kGravity_mps2 =
    9.80665;  ///< standard gravity, exact by definition (CGPM 1901)

}  // namespace plumbline

#pragma once
// The day: temperature, pressure, wind by height.

#include <string>
#include <vector>

#include "engine/math/frames.h"

namespace plumbline::data {

/// Wind at one height: where it blows FROM, true bearing.
struct WindLayer {
    double height_m = 0;  ///< above show centre
    double from_rad = 0;
    double speed_mps = 0;
};

struct Weather {
    std::string name;
    double temperature_k = 288.15;  ///< at show centre
    double qnh_pa = 101325;
    std::vector<WindLayer> wind;  ///< rising height; empty: calm
    double visibility_m = 10000;
    double cloud_base_m = 0;  ///< above show centre; 0: none
    double cloud_cover_frac = 0;
};

}  // namespace plumbline::data

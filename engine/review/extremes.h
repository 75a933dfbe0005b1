#pragma once
// The heights, speeds and loads of a stretch of a path, and how surely they are known.

#include "engine/path/path.h"

namespace plumbline::review {

/// @accuracy each sigma as review/doubts.h has it
struct Extremes {
    double lowest_m = 1e9, highest_m = -1e9, most_g = -1e9, least_g = 1e9;
    double nearest_y_m = 1e9;  ///< least y
    double place_sigma_m = 0;  ///< of heights and places
    double entry_mps = 0, entry_sigma_mps = 0;
    double most_sigma_g = 0, least_sigma_g = 0;
};

/// @param by_air  the entry speed is through the air, else over the ground
Extremes extremesOf(const path::Path& path, double from_s, double to_s, bool by_air);

}  // namespace plumbline::review

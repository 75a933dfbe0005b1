#pragma once
// A figure as a ribbon of wings, as its small pictures show it on paper and in the window.

#include <vector>

#include "engine/path/path.h"

namespace plumbline::brief {

/// The wings at a moment, metres in the picture: x to the right, y down; depth away from the eye.
struct Rung {
    double left_x = 0, left_y = 0, right_x = 0, right_y = 0, x = 0, y = 0, depth = 0;
    bool canopy = false;  ///< that side is seen
};

/// Seen from 19 deg to the right of the crowd and 12 deg above; lines up and down are parted by a
/// drift along the way in.
/// @param span_m  of the wings, which are drawn wider than they are
std::vector<Rung> rungsOf(const path::Path& path, double start_s, double stop_s, double span_m,
                          int steps);

}  // namespace plumbline::brief

#pragma once
// Keys of the animation that flies the aircraft along its path.

#include <cstddef>
#include <vector>

#include "engine/path/path.h"

namespace plumbline::out {

/// The samples that are keys.
struct MotionKeys {
    std::vector<std::size_t> places;     ///< straight lines between these are near enough
    std::vector<std::size_t> attitudes;  ///< of samples whose attitude may be shown; empty: none
    /// First samples of stretches where the attitude is shown, then not, then shown...
    std::vector<std::size_t> changes;
    bool shown_first = false;  ///< whether it is at the first sample
};

/// Times as glTF has them, in single precision, strictly increasing along each list.
MotionKeys motionKeys(const path::Path& path, double place_m, double attitude_rad);

}  // namespace plumbline::out

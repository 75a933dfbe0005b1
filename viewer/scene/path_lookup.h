#pragma once
// Quick looks at a path: place and velocity only, and walks forward without a new search.

#include <cstddef>

#include "engine/path/path.h"

namespace plumbline::scene {

struct Place {
    Vec3 position_S_m{0};
    Vec3 velocity_S_mps{0};
    std::size_t index = 0;  ///< of the sample at or before
};

/// Position (cubic, as path::sampleAt) and velocity (linear) at a time, clamped to the path's ends.
/// The path must not be empty.
Place placeAt(const path::Path& path, double time_s);

/// Looks up rising times faster than one by one.
class PathWalker {
public:
    explicit PathWalker(const path::Path& path) : path_(path) {}
    /// @param time_s  not before the last one asked for
    Place at(double time_s);

private:
    const path::Path& path_;
    std::size_t index_ = 0;
    bool started_ = false;
};

}  // namespace plumbline::scene

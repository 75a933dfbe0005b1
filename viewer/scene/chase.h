#pragma once
// The eye that flies behind the aircraft.

#include "engine/path/path.h"

namespace plumbline::scene {

/// Where a chasing pilot would be: behind along these two angles.
struct ChaseHeading {
    double heading_rad = 0;  ///< about z_S from +x
    double climb_rad = 0;    ///< of the smoothed path
};

/// Model: two critically damped followers of the course and of the climb angle with bounded rates,
/// stepped from 25 s back on a fixed grid of 0.1 s, so that the result is a function of path and
/// time only. A vertical line gives no course: the heading is held there. A course that turns right
/// round is followed past the side from which the picture looks away from the crowd.
ChaseHeading chaseHeading(const path::Path& path, double time_s);

}  // namespace plumbline::scene

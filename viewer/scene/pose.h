#pragma once
// The aircraft as it is drawn at a moment.

#include "engine/data/aircraft.h"
#include "engine/path/path.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::scene {

/// Place and attitude from the path; surfaces as they would be held for the rates of the moment.
///
/// Without a known attitude: nose along the velocity, wings level, and `attitude_known` false.
/// simplified: surface angles and blade angle are for the eye only, not the model's.
/// The path must not be empty.
AircraftPose poseAt(const path::Path& path, const data::Aircraft& aircraft, double time_s);

/// Attitude with the nose along a velocity and the wings level; on a vertical the wings lie along
/// x.
Quat attitudeAlong(const Vec3& velocity_S_mps);

}  // namespace plumbline::scene

#pragma once
// What is heard on the ground: everything arrives late by the sound's way.
//
// simplified: the speed of sound of the air at show centre all the way, no wind, nothing of how
// loud it is.

#include <vector>

#include "engine/path/path.h"

namespace plumbline::scene {

/// When the sound that arrives at `heard_s` was made: t with t + distance(t) / c = heard_s. Before
/// the path's start: its start. The path must not be empty and stay below the speed of sound.
double madeAt(const path::Path& path, const Vec3& ear_S_m, double speed_of_sound_mps,
              double heard_s);

/// When each sample's sound arrives; never falling.
std::vector<double> heardTimes(const path::Path& path, const Vec3& ear_S_m,
                               double speed_of_sound_mps);

}  // namespace plumbline::scene

#pragma once
// What a plan has in hand, in the picture: gates at the tops, the ground in gliding reach.

#include <vector>

#include "engine/check/gates.h"
#include "engine/check/glide.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::scene {

/// The gates of tops that are flown within some seconds of the moment: a cross at the least height
/// to complete, tied to the top, and both heights said.
void addGates(const std::vector<check::Gate>& gates, double time_s, DrawList& list);

/// The outline of what can be reached on the ground should the engine stop now, and of the strips
/// none where the outline is empty.
void addReach(const check::Glide& glide, const path::Sample& now, DrawList& list);

}  // namespace plumbline::scene

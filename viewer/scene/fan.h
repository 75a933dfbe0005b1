#pragma once
// The ways of some imperfect flights beside the plan, as thin lines.

#include <memory>
#include <vector>

#include "engine/margins/margins.h"
#include "engine/path/path.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::scene {

/// The first flights' ways, as `margins` keeps them.
using Fan = std::vector<std::shared_ptr<const margins::Way>>;

/// Of the figure that the plan is in at the moment, the whole way of each flight: matched by
/// figure, not by the clock.
void addFan(const Fan& fan, const path::Path& plan, double time_s, DrawList& list);

}  // namespace plumbline::scene

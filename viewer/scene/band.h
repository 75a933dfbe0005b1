#pragma once
// The path as a strip a wing wide.

#include "viewer/scene/build.h"

namespace plumbline::scene {

/// Band behind the aircraft (filled, coloured) and ladder ahead of it, as the marks ask.
/// @param source  with its shape
/// @param width_m  across: a wing's span
void addBands(const SceneSource& source, const Marks& marks, double time_s, double width_m,
              DrawList& list);

/// Both edges of the ghost's path and a rung each second, between two times of its own.
void addLadder(const SceneSource& source, double from_s, double to_s, double width_m,
               const glm::vec4& colour, DrawList& list);

}  // namespace plumbline::scene

#pragma once
// The path as a strip a wing wide.

#include "viewer/scene/build.h"

namespace plumbline::scene {

/// Band behind the aircraft (filled, coloured) and ladder ahead of it, as the marks ask.
/// @param source  with its shape
/// @param width_m  across: a wing's span
void addBands(const SceneSource& source, const Marks& marks, double time_s, double width_m,
              DrawList& list);

}  // namespace plumbline::scene

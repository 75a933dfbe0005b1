#pragma once
// Smoke that hangs, drifts with the wind and thins.

#include "viewer/scene/build.h"

namespace plumbline::scene {

inline constexpr std::size_t kMostPuffs = 1000;

/// Diameter of a puff [m] at an age: grows fast at first.
double puffDiameter(double age_s);
/// Opacity of one puff: 0.5 exp(-2 age/life), drawn to nothing over the last half of its life.
double puffOpacity(double age_s, double life_s);

/// Puffs of the smoke that hangs in the air, oldest first.
///
/// Model: three puffs are left every 40 ms where the exhaust leaves the aircraft; each drifts with
/// the wind at its height and lives 8 to 14 s. Old ones that overlap are merged into one of the
/// same density, and there are never more than kMostPuffs. simplified: no sinking, no propeller
/// wash.
void addSmoke(const SceneSource& source, double time_s, DrawList& list);

}  // namespace plumbline::scene

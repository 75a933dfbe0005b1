#pragma once
// The sighting frame on the wing tips: bars that lie on the horizon when the zero-lift axis stands
// at their angle.
//
// The frame is a hub abeam of the pilot's eye, at its height, on three legs on each wing; through
// it run four bars in the plane across the wing's axis. Seen from the eye, the bar for an angle
// lies in the plane through the eye that is horizontal when the zero-lift axis is at that angle, so
// it covers the horizon then (or stands parallel above it by the horizon's dip).

#include <optional>

#include "engine/data/aircraft.h"
#include "viewer/scene/build.h"

namespace plumbline::scene {

/// "level", "vertical", "45 deg"
const char* barWord(Bar bar);

/// How far below the horizontal the true horizon is seen: acos(R / (R + h)), R = 6371 km.
/// simplified: no refraction, which lifts it by about a twelfth.
double horizonDip(double eye_height_m);

/// Reading of the bar that is nearest to the horizon; nothing while the wings point too far up and
/// down for any.
/// @param right  read at the right wing's frame
/// @param wind_S_mps  at the aircraft
std::optional<SightingReading> readSighting(const data::Aircraft& aircraft,
                                            const path::Sample& sample, const Vec3& wind_S_mps,
                                            bool right);

/// Less off than this is called right.
inline constexpr double kSightingGood_rad = 0.5 * kPi / 180;

/// True where the reading says which way it is off, or that it is right: not when the attitude is
/// less sure than what is judged.
/// @param within_rad  twice the attitude's expected error; 0: a plan, or not told
bool sightingJudged(const SightingReading& reading, double within_rad);

/// Place of a hub from the centre of gravity, body axes.
Vec3 sightingHub(const data::Aircraft& aircraft, bool right);
/// Direction of a bar in body axes, unit.
Vec3 barDirection(const data::Aircraft& aircraft, Bar bar);

/// Both frames; horizon, arrow and reading where the head is turned to a wing.
void addSighting(const SceneSource& source, const ViewSettings& view, double time_s,
                 DrawList& list);

}  // namespace plumbline::scene

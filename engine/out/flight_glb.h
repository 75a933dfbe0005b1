#pragma once
// A flight as binary glTF 2.0: the aircraft's model animated along its path, the path as a line and
// a ribbon for each figure, the site's lines and runway.

#include <string>

#include "engine/base/expected.h"
#include "engine/out/flight.h"

namespace plumbline::out {

// Greatest differences, at every sample of the path, between it and what a viewer interpolates.
// chosen: a hand's breadth and less than anybody sees
inline constexpr double kGlbPlace_m = 0.05;
inline constexpr double kGlbAttitude_rad = 0.2 * kPi / 180;

/// Axes of gltf_frames.h: origin at show centre, y up, the crowd at positive z. The animation
/// "flight" moves the node "flight" and turns its child "aircraft", by straight lines and great
/// arcs between keys; nothing else moves. Where the attitude is not known there is no rotation: a
/// plain mark takes the aircraft's place. Nodes of figures tell their times in their extras, the
/// asset what the bounds are.
///
/// @param files  where the aircraft's model comes from
/// @errors what is wrong with the model, a sentence
/// @source Khronos glTF 2.0 specification; KHR_materials_unlit
Expected<std::string, std::string> flightGlb(const Flight& flight,
                                             const load::FileSource& files = load::diskFiles());

}  // namespace plumbline::out

#pragma once
// From a flown routine to everything that is shown of it.

#include <memory>

#include "viewer/model/document.h"

namespace plumbline::model {

inline constexpr double kSampleRate_hz = 100;

/// "2026-06-27T17:40:00Z" -> "27 June 17:40 UTC"; empty for anything else.
std::string dayAndTime(const std::string& utc);

/// Lanes and outline of the path.
void fillFromPath(Shown& shown);

/// Findings, scene, lanes, outline.
/// @param path    samples of the flown solution, not empty
/// @param before  of the same site, weather and aircraft, whose world goes on; null: made anew
std::shared_ptr<Shown> showRoutine(variant::Flown flown, std::shared_ptr<const path::Path> path,
                                   std::uint64_t revision, const Shown* before);

/// The same without checking anything: findings and gates are those of the path before, moved in
/// time with their figures. For the moment until showRoutine is through.
std::shared_ptr<Shown> draftRoutine(variant::Flown flown, std::shared_ptr<const path::Path> path,
                                    std::uint64_t revision, const Shown* before);

}  // namespace plumbline::model

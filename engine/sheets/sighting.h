#pragma once
// The sheet for the workshop: how to build and mount the wing-tip sighting frame.

#include <optional>

#include "engine/base/expected.h"
#include "engine/review/zero_lift.h"
#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// Length of the scale bar on the sheet.
inline constexpr double kScaleBar_mm = 100;

/// As PDF, 1:1: angles and lengths, a template of the hub, a scale bar, and what the bar looks like
/// when the line is right and 2 deg off either way.
/// @param told  of a flight; nothing: the aircraft file's zero-lift incidence
Expected<std::string, std::string> sightingPdf(const data::Aircraft& aircraft,
                                               const std::optional<review::ZeroLift>& told,
                                               const std::string& revision, const Print& print);

}  // namespace plumbline::sheets

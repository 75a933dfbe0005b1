#pragma once
// The narrator's cue sheet.

#include "engine/brief/narration.h"
#include "engine/page/document.h"

namespace plumbline::brief {

/// What is read aloud stands at this size: at half a metre by hand, outdoors (chosen).
inline constexpr double kSay_pt = 11;

/// Draws all pages. @return how many
int drawCueSheet(page::Document& document, const Outline& outline, const Narration& narration,
                 const variant::Flown& flown, units::DisplayUnits units);

}  // namespace plumbline::brief

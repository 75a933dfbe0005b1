#pragma once
// The pilot's kneeboard card.

#include "engine/brief/outline.h"
#include "engine/data/site.h"
#include "engine/page/document.h"

namespace plumbline::brief {

// What is read in flight: its capitals, 0.73 of the size, are at least a 250th of 0.65 m, from the
// eye to the knee (the rule that texts on screens keep; chosen).
inline constexpr double kInFlight_pt = 10.2;
inline constexpr double kGate_pt = 12.5;

/// Draws all pages, evenly filled. @return how many
int drawCard(page::Document& document, const Outline& outline, const variant::Flown& flown,
             units::DisplayUnits units);

}  // namespace plumbline::brief

#pragma once
// The display director's sheet: where the aircraft will be, how low, how fast, pointing where.

#include "engine/brief/outline.h"
#include "engine/page/document.h"

namespace plumbline::brief {

/// Draws it on one page, however many figures there are up to 80; more are counted, not listed.
/// @return 1
int drawDirectorSheet(page::Document& document, const Outline& outline, const variant::Flown& flown,
                      units::DisplayUnits units);

/// The field from above with what is flown over it, and below it the heights as the crowd sees
/// them, on the same scale along the show line.
/// @param most_mm  height that there is for both
/// @return the height that they took
double drawField(page::Document& document, page::Point top_left, double width_mm, double most_mm,
                 const Outline& outline, const data::Site& site, units::DisplayUnits units);

}  // namespace plumbline::brief

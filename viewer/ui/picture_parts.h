#pragma once
// Where things lie over the picture: for those who draw them and those who tell what they are.

#include <optional>

#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// Of the path's colours: lower left, above the strip.
Rect legendRect(const PanelInput& in);
/// Right, below the insets; empty: there is none.
Rect sightingCardRect(const PanelInput& in);
void drawSightingCard(const PanelInput& in);

/// The moment of the path under the pointer, in the picture (0) or the second view (1).
std::optional<double> pointedMoment(const PanelInput& in, int which);
/// Its mark and time.
void drawPointed(const PanelInput& in, double time_s, int which);
/// Where on the path the sound was made that the seat hears now.
void drawHeardMark(const PanelInput& in);

}  // namespace plumbline::ui

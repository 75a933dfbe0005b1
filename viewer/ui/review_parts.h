#pragma once
// A reviewed flight in the window: the column of what is worth mending, the open figure's table.

#include <string>

#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// Of a row of the sheet: "8 m" off the plan, "not flown"; a time without a plan.
std::string reviewRowText(const PanelInput& in, const model::SheetRow& row);

/// What was measured of a row's figure beside its plan; returns the height used.
/// @param draw  false: measures only
float drawFigureTable(const PanelInput& in, UiState& state, const model::SheetRow& row, float y,
                      float right, bool draw);

inline constexpr float kColumnSide = 20;  ///< of what is worth mending, units

/// What coach and pilot said of what is shown, and the way to say more; returns where it ends.
/// @param region  of the column that is in sight
float drawSaid(const PanelInput& in, UiState& state, const Rect& region, float y);

}  // namespace plumbline::ui

#pragma once
// What rows, the open figure and the whole of the sheet share.

#include <string>

#include "viewer/ui/ui.h"

namespace plumbline::ui {

// Places in the sheet, in units of the writing's scale.
inline constexpr float kThread = 22;
inline constexpr float kTextLeft = 40;
inline constexpr float kNameLeft = 90;
inline constexpr float kMargin = 16;
inline constexpr float kTextLine = 22;

/// A row's place on the thread.
void drawBead(const PanelInput& in, const model::OutlineRow& row, float y, bool now);

Mark markOf(check::Grade grade);
Colour markColour(const Theme& theme, check::Grade grade);
std::string capitalised(std::string words);

/// "+3 kt, -12 m": what the changes since it was saved do to a figure's entry; empty: nothing.
std::string entryWords(const PanelInput& in, const std::string& name);

/// A finding in words; returns the height used.
float drawFinding(const Canvas& c, const check::Finding& finding, units::DisplayUnits units,
                  float x, float y, float right, bool draw);

/// Of the routine flown imperfectly; nothing where it is not. In a row: how often something of the
/// figure is unsafe. In the open figure: its numbers. Above all: how many were flown.
void drawMarginBar(const PanelInput& in, const std::string& figure, float y, float right);
float drawFigureMargins(const PanelInput& in, const model::SheetRow& row, float y, float right,
                        bool draw);
float drawMarginsHead(const PanelInput& in, float y, float right, bool draw);

/// What the open figure holds below its row: its text, sliders, findings; returns the height.
/// @param number  of its row
/// @param draw    false: measures only
float drawOpen(const PanelInput& in, UiState& state, int number, float y, float right, bool draw);

}  // namespace plumbline::ui

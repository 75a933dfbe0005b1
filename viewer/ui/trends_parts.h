#pragma once
// The panel of how the season goes and its plots.

#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// Over the whole window while it is open: figures, measures, plots.
void drawTrends(const PanelInput& in, UiState& state);

/// One trend: discs with their bars, the plan dashed, a line where a course is said; what is under
/// the pointer in words.
void drawTrendPlot(const PanelInput& in, const season::Trend& trend, const Rect& rect);

/// "−2.1°", "14 m": a measure in the person's units.
std::string trendValueText(const season::Trend& trend, double value, std::optional<double> sigma,
                           model::UnitChoice units);

}  // namespace plumbline::ui

#pragma once
// The timeline's lane of a recording: when each of its streams ran, and what it gave.

#include "viewer/model/time_axis.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// A thin bar for each stream, open where nothing was logged, ticks where samples were let go; the
/// one under the pointer is named on a plate that shows its numbers as logged. The lane has the
/// height of its bars.
void drawRecordedLane(const PanelInput& in, const Rect& lane, const model::TimeAxis& axis);

}  // namespace plumbline::ui

#pragma once
// How dragging and the wheel change a view.

#include "viewer/scene/views.h"

namespace plumbline::model {

inline constexpr double kShortestLens_mm = 24;
inline constexpr double kLongestLens_mm = 400;

/// Turns the head or the eye; x right, y down, 1 for 100 px.
void turnView(scene::ViewSettings& view, double x, double y);
/// Moves the seat, the map or what is looked at.
void panView(scene::ViewSettings& view, double x, double y);
/// Lens or distance; notches, positive nearer.
void zoomView(scene::ViewSettings& view, double notches);
/// The view as it is at first; the other views keep what was set.
void resetView(scene::ViewSettings& view);

}  // namespace plumbline::model

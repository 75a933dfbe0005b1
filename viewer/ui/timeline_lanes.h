#pragma once
// The timeline's parts; timeline.cc puts them together.

#include <string>

#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// Tops and heights of the lanes, pixels; height 0: not shown.
struct Lanes {
    Rect ruler, figures, height, load, speed, smoke, music, findings;
    model::TimeAxis axis;
    float bottom = 0;
};

/// Left of a lane: its name, and its unit and range where there is room.
void drawGutter(const PanelInput& in, const Rect& lane, const char* name, const std::string& unit,
                const std::string& range);

/// Each draws nothing where its lane is not shown.
void drawHeightLane(const PanelInput& in, const Lanes& lanes);
void drawLoadLane(const PanelInput& in, const Lanes& lanes);
/// Speed, or with a ghost how far the two are apart.
void drawSpeedLane(const PanelInput& in, const Lanes& lanes);
void drawSmokeLane(const PanelInput& in, const Lanes& lanes);
void drawMusicLane(const PanelInput& in, const Lanes& lanes);

/// Play, step, time, speed, loop: above the lanes.
void drawTransport(const PanelInput& in, UiState& state);

}  // namespace plumbline::ui

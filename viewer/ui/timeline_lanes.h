#pragma once
// The timeline's parts; timeline.cc puts them together.

#include <array>
#include <string>

#include "viewer/ui/ui.h"

namespace plumbline::ui {

/// Where the lanes lie, pixels; height 0: not shown.
struct Lanes {
    Rect ruler, figures;
    std::array<Rect, model::kLaneCount> rects;
    model::TimeAxis axis;
    float bottom = 0;

    const Rect& of(model::Lane lane) const { return rects[static_cast<std::size_t>(lane)]; }
};

/// As they are in this frame.
Lanes timelineLanes(const PanelInput& in);

/// Left of a lane: its name, and its unit and range where there is room.
void drawGutter(const PanelInput& in, const Rect& lane, const char* name, const std::string& unit,
                const std::string& range);

/// Each draws nothing where its lane is not shown.
void drawHeightLane(const PanelInput& in, const Lanes& lanes);
void drawLoadLane(const PanelInput& in, const Lanes& lanes);
void drawSpeedLane(const PanelInput& in, const Lanes& lanes);
void drawPowerLane(const PanelInput& in, const Lanes& lanes);
/// How far the ghost is away.
void drawApartLane(const PanelInput& in, const Lanes& lanes);
/// Power as the crowd's seat hears it.
void drawHeardLane(const PanelInput& in, const Lanes& lanes, UiState& state);
void drawSmokeLane(const PanelInput& in, const Lanes& lanes);
/// Where no landing strip could be reached without the engine.
void drawReachLane(const PanelInput& in, const Lanes& lanes, UiState& state);
void drawMusicLane(const PanelInput& in, const Lanes& lanes);
/// What coach and pilot said.
void drawRemarksLane(const PanelInput& in, const Lanes& lanes, UiState& state);
void drawFindingsLane(const PanelInput& in, const Lanes& lanes, UiState& state);
/// The narrator's cues: ticks under the figures, with words in their lane or under the pointer.
void drawCues(const PanelInput& in, const Lanes& lanes, UiState& state);

/// Play, step, time, speed, loop: above the lanes.
void drawTransport(const PanelInput& in, UiState& state);

}  // namespace plumbline::ui

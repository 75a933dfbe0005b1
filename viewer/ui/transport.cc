// The timeline's upper row: play, step, time, speed, loop.

#include <algorithm>
#include <array>
#include <cmath>

#include "viewer/ui/quantity_text.h"
#include "viewer/ui/timeline_lanes.h"

namespace plumbline::ui {

using model::ActionKind;

namespace {

/// One line on what lies under the pointer, where there is room for all of it.
void drawHint(const PanelInput& in, UiState& state, float free_from, float right, float middle) {
    const Canvas& c = in.canvas;
    if (!state.hint.empty() && right - c.textWidth(kNote, state.hint) > free_from) {
        c.textRight(right, middle - c.px(8), kNote, c.theme().ink3, state.hint);
    }
    state.hint.clear();  // said anew by whatever is still under the pointer
}

}  // namespace

void drawTransport(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& region = in.layout.timeline;
    const model::PlaybackClock& clock = in.model.clock;
    const float middle = region.y + c.px(17);
    const auto button = [&](const char* id, float x, float width, const char* hint) {
        const Rect rect{x - width / 2, middle - c.px(12), width, c.px(24)};
        const Press pressed = press(id, rect);
        if (pressed.hovered) {
            state.wants_hand = true;
            state.hint = hint;
            c.fill(rect, pressed.held ? theme.line : theme.raised);
        }
        return pressed.clicked;
    };
    if (button("to start", c.px(26), c.px(28), "To the start (Home)"))
        in.actions.push(ActionKind::ToStart);
    c.icon(Icon::ToStart, c.px(26), middle, theme.ink);
    if (button("play", c.px(56), c.px(28), "Play, pause (Space)"))
        in.actions.push(ActionKind::TogglePlay);
    const bool playing = clock.playing() || (state.scrubbing && state.was_playing);
    c.icon(playing ? Icon::Pause : Icon::Play, c.px(56), middle, theme.ink);
    if (button("step", c.px(86), c.px(28), "One frame on (.), back (,)"))
        in.actions.push(ActionKind::StepFrames, 1.0);
    c.icon(Icon::ToNext, c.px(86), middle, theme.ink);

    float x = c.text(c.px(116), middle - c.px(10), kHead, theme.ink, timeText(clock.time_s()));
    // Hundredths are for standing still; while time runs they would only flicker.
    if (!playing) {
        c.text(x, middle - c.px(10), kSubhead, theme.ink2, hundredthsText(clock.time_s()));
    }
    const float of_x = c.px(194);
    x = c.text(of_x, middle - c.px(9), kBody, theme.ink3, "of " + timeText(clock.duration_s()));

    constexpr std::array<const char*, model::kSpeedCount> kWords{
        "1/8\u00D7", "1/4\u00D7", "1/2\u00D7", "1\u00D7", "2\u00D7", "4\u00D7", "8\u00D7"};
    const float speed_x = c.px(274);
    if (button("speed", speed_x, c.px(44), "Speed of the replay (- =)")) {
        in.actions.pushIndex(ActionKind::SetSpeed, (clock.speedIndex() + 1) % model::kSpeedCount);
    }
    const char* speed = kWords[static_cast<std::size_t>(clock.speedIndex())];
    c.text(std::round(speed_x - c.textWidth(kBody, speed) / 2), middle - c.px(9), kBody,
           clock.speedIndex() == model::kNormalSpeed ? theme.ink2 : theme.ink, speed);

    std::string loop_words = "off";
    if (clock.loop()) {
        loop_words = timeText(clock.loop()->start_s) + "\u2013" + timeText(clock.loop()->stop_s);
    }
    const float loop_width = c.textWidth(kBody, loop_words) + c.px(44);
    if (button("loop", c.px(298) + loop_width / 2, loop_width,
               "Loop this figure, or no loop (L); from here (I), to here (O)")) {
        in.actions.push(ActionKind::ToggleLoop);
    }
    c.icon(Icon::Loop, c.px(314), middle, clock.loop() ? theme.now : theme.ink2);
    const float free_from = c.text(c.px(330), middle - c.px(9), kBody, theme.ink2, loop_words);

    const model::LaneSituation situation = model::laneSituation(in.model);
    const model::LaneSet shown = model::shownLanes(in.model.session.lane_wishes, situation);
    int offered = 0;
    for (int i = 0; i < model::kLaneCount; ++i) {
        offered += model::laneOffered(static_cast<model::Lane>(i), situation) ? 1 : 0;
    }
    const std::string lanes = "Lanes " +
                              std::to_string(std::count(shown.begin(), shown.end(), true)) +
                              " of " + std::to_string(offered);
    const float lanes_width = c.textWidth(kBody, lanes) + c.px(16);
    const float lanes_x = region.right() - c.px(8) - lanes_width;
    if (lanes_x < free_from + c.px(16)) {
        drawHint(in, state, free_from + c.px(16), region.right() - c.px(16), middle);
        return;
    }
    if (button("lanes", lanes_x + lanes_width / 2, lanes_width, "Choose the lanes (Shift L)")) {
        in.actions.pushIndex(ActionKind::ShowList, static_cast<int>(model::ListKind::Lanes));
    }
    c.text(lanes_x + c.px(8), middle - c.px(9), kBody, theme.ink2, lanes);
    drawHint(in, state, free_from + c.px(16), lanes_x - c.px(12), middle);
}

}  // namespace plumbline::ui

// The timeline: transport, ruler and lanes over one time axis; the thread of now through all.

#include <algorithm>
#include <cmath>

#include "viewer/ui/quantity_text.h"
#include "viewer/ui/recorded_lane.h"
#include "viewer/ui/timeline_lanes.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;
using model::TimeAxis;

void drawRuler(const PanelInput& in, const Lanes& lanes) {
    const Canvas& c = in.canvas;
    const TimeAxis& axis = lanes.axis;
    const double step_s = model::tickStep(axis, static_cast<double>(c.px(84)));
    const double half_s = step_s / 2;
    const auto first = static_cast<std::int64_t>(std::ceil(axis.start_s / half_s - 1e-9));
    for (std::int64_t i = first; static_cast<double>(i) * half_s <= axis.stop_s() + 1e-9; ++i) {
        const double time_s = static_cast<double>(i) * half_s;
        const float x = std::floor(static_cast<float>(axis.xOf(time_s)));
        const bool named = i % 2 == 0;
        c.down(x, lanes.ruler.y + c.px(2), lanes.ruler.y + c.px(named ? 7 : 5), c.theme().edge);
        if (!named) continue;
        std::string words = timeText(time_s);
        if (step_s < 1) words += hundredthsText(time_s).substr(0, 2);
        const float width = c.textWidth(kSmall, words);
        if (x + c.px(4) + width > lanes.ruler.right() + c.px(14)) continue;
        c.text(x + c.px(4), lanes.ruler.y, kSmall, c.theme().ink3, words);
    }
}

void drawFigures(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const auto& rows = in.model.shown->outline;
    const std::int32_t now = rowAt(rows, in.model.clock.time_s());
    const Clip clip(c, lanes.figures);
    const bool small_type = lanes.figures.height < c.px(20);
    for (std::size_t i = 0; i < rows.size(); ++i) {
        const auto x0 = std::floor(static_cast<float>(lanes.axis.xOf(rows[i].start_s)));
        const auto x1 = std::floor(static_cast<float>(lanes.axis.xOf(rows[i].stop_s)));
        if (x1 < lanes.figures.x || x0 > lanes.figures.right()) continue;
        const Rect block{x0, lanes.figures.y, std::max(x1 - x0 - 1, 1.0F), lanes.figures.height};
        const bool chosen = static_cast<std::int32_t>(i) == now;
        // A block whose start is out of sight shows its name all the same.
        const float left = std::max(block.x, lanes.figures.x);
        const Rect seen{left, block.y, std::min(block.right(), lanes.figures.right()) - left,
                        block.height};
        ImGui::PushID(static_cast<int>(i));
        const Press pressed = press("figure", seen);
        ImGui::PopID();
        if (pressed.hovered) {
            state.wants_hand = true;
            state.hint = "Go to " + rows[i].name + " (Page up, down)";
        }
        if (pressed.clicked) in.actions.pushIndex(ActionKind::GoToFigure, static_cast<int>(i));
        c.fill(block, chosen ? theme.fill : theme.raised);
        if (!chosen || theme.light) c.frame(block, chosen ? theme.now : theme.line);
        const std::string number = std::to_string(i + 1);
        const bool room_for_name = seen.width >= c.px(34);
        if (seen.width < c.px(14)) continue;
        const float pad = room_for_name ? c.px(7) : c.px(3);
        const Type type =
            small_type ? kSmall : (chosen ? kNoteStrong : Type{12, 16, Weight::Medium});
        const float y = block.y + (block.height - c.lineHeight(type)) / 2;
        c.textClipped(left + pad, y, seen.right() - c.px(3), type,
                      chosen ? theme.on_fill : theme.ink,
                      room_for_name ? number + " " + rows[i].name : number);
    }
}

void drawNow(const PanelInput& in, const Lanes& lanes) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float left = static_cast<float>(lanes.axis.left_px);
    const float right = left + static_cast<float>(lanes.axis.width_px);
    const auto x = static_cast<float>(lanes.axis.xOf(in.model.clock.time_s()));
    if (x < left - 1 || x > right + 1) return;
    const float w = std::max(1.0F, std::round(1.5F * c.scale()));
    const float bob_top = lanes.bottom - c.px(16);
    const bool short_lanes = in.layout.timeline_short;
    const float bottom = short_lanes ? lanes.figures.bottom() + c.px(4) : bob_top + c.px(1);
    c.fill(Rect{std::round(x - w / 2), lanes.ruler.y, w, bottom - lanes.ruler.y}, theme.now);
    if (!short_lanes) c.bob(std::round(x), bob_top, theme.fill);
}

void drawLoop(const PanelInput& in, const Lanes& lanes) {
    const auto& loop = in.model.clock.loop();
    if (!loop) return;
    const Canvas& c = in.canvas;
    const float left = static_cast<float>(lanes.axis.left_px);
    const float right = left + static_cast<float>(lanes.axis.width_px);
    const auto x0 = static_cast<float>(lanes.axis.xOf(loop->start_s));
    const auto x1 = static_cast<float>(lanes.axis.xOf(loop->stop_s));
    const float from = std::clamp(x0, left, right);
    const float to = std::clamp(x1, left, right);
    c.fill(Rect{from, lanes.ruler.y, to - from, c.px(2)}, c.theme().now);
    for (float x : {x0, x1}) {
        if (x < left || x > right) continue;
        for (float y = lanes.ruler.y; y < lanes.bottom; y += c.px(4)) {
            c.fill(Rect{std::floor(x), y, 1, c.px(2)}, c.theme().now);
        }
    }
}

void handleLanes(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Canvas& c = in.canvas;
    const float left = static_cast<float>(lanes.axis.left_px);
    const Rect area{left - c.px(8), lanes.ruler.y,
                    static_cast<float>(lanes.axis.width_px) + c.px(16),
                    in.layout.timeline.bottom() - lanes.ruler.y};
    const Press pressed = press("lanes", area);
    const ImGuiIO& io = ImGui::GetIO();
    if (pressed.hovered && state.hint.empty())
        state.hint = "Drag: go there. Wheel: zoom, with Shift move";
    if (pressed.held) {
        const double wish_s = lanes.axis.timeOf(static_cast<double>(io.MousePos.x));
        in.actions.push(ActionKind::Seek, wish_s);
    }
    // Playing waits while the thread is held.
    if (pressed.began) {
        state.scrubbing = true;
        state.was_playing = in.model.clock.playing();
        if (state.was_playing) in.actions.push(ActionKind::TogglePlay);
    } else if (state.scrubbing && !pressed.held) {
        state.scrubbing = false;
        if (state.was_playing) in.actions.push(ActionKind::TogglePlay);
    }
    const bool over = ImGui::IsMouseHoveringRect(ImVec2(area.x, area.y),
                                                 ImVec2(area.right(), area.bottom()), false);
    if (!over) return;
    if (io.MouseWheel != 0 && !io.KeyShift) {
        model::Action zoom;
        zoom.kind = ActionKind::ZoomLanes;
        zoom.value = std::pow(0.85, static_cast<double>(io.MouseWheel));
        zoom.x = lanes.axis.timeOf(static_cast<double>(io.MousePos.x));
        in.actions.push(std::move(zoom));
    }
    const float pan = io.MouseWheelH + (io.KeyShift ? io.MouseWheel : 0);
    if (pan != 0) {
        in.actions.push(ActionKind::PanLanes, -0.1 * static_cast<double>(pan) * lanes.axis.span_s);
    }
}

}  // namespace

Lanes timelineLanes(const PanelInput& in) {
    const Canvas& c = in.canvas;
    const Rect& region = in.layout.timeline;
    Lanes lanes;
    lanes.axis.start_s = in.model.session.lanes.start_s;
    lanes.axis.span_s = std::max(model::kLeastSpan_s, in.model.session.lanes.span_s);
    lanes.axis.left_px = static_cast<double>(c.px(kGutter));
    lanes.axis.width_px =
        static_cast<double>(std::max(1.0F, region.width - c.px(kGutter) - c.px(16)));
    const float x = static_cast<float>(lanes.axis.left_px);
    const float width = static_cast<float>(lanes.axis.width_px);
    lanes.bottom = region.bottom() - c.px(8);
    const auto lane = [&](float top, float height) {
        return Rect{x, region.y + c.px(top), width, c.px(height)};
    };
    lanes.ruler = lane(30, kRulerHeight);
    lanes.figures = lane(48, in.layout.timeline_short ? 14 : 22);
    if (in.layout.timeline_short) {
        lanes.ruler = lane(30, kRulerHeight);
        return lanes;
    }
    const model::LaneSet shown =
        model::shownLanes(in.model.session.lane_wishes, model::laneSituation(in.model));
    const model::LanePlan plan = model::planLanes(
        shown, in.model.session.low_timeline, region.height / c.scale() - kLanesTop - kLanesFoot);
    for (std::size_t i = 0; i < plan.height.size(); ++i) {
        if (plan.height[i] > 0) lanes.rects[i] = lane(kLanesTop + plan.top[i], plan.height[i]);
    }
    return lanes;
}

void drawTimeline(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Rect& region = in.layout.timeline;
    c.fill(region, c.theme().surface);
    c.across(0, region.right(), region.y, c.theme().line);
    if (!in.model.shown) return;
    const Lanes lanes = timelineLanes(in);
    drawRuler(in, lanes);
    const char* figures =
        in.model.shown->recording() && !in.model.shown->review ? "Recording" : "Figures";
    drawGutter(in, lanes.figures, figures, "", "");
    drawFigures(in, lanes, state);
    if (!in.layout.timeline_short) {
        drawCues(in, lanes, state);
        drawHeightLane(in, lanes);
        drawLoadLane(in, lanes);
        drawSpeedLane(in, lanes);
        drawPowerLane(in, lanes);
        drawApartLane(in, lanes);
        drawHeardLane(in, lanes, state);
        drawSmokeLane(in, lanes);
        drawReachLane(in, lanes, state);
        drawRecordedLane(in, lanes.of(model::Lane::Logged), lanes.axis);
        drawMusicLane(in, lanes);
        drawFindingsLane(in, lanes, state);
        drawRemarksLane(in, lanes, state);
    }
    drawLoop(in, lanes);
    drawNow(in, lanes);
    handleLanes(in, lanes, state);
    drawTransport(in, state);
}

}  // namespace plumbline::ui

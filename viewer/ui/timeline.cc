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

Lanes lanesOf(const PanelInput& in) {
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
    // What is left beyond the lanes' own heights goes to height and load.
    const float units = region.height / c.scale();
    const bool music = in.model.music != nullptr;
    const float spare = std::max(
        0.0F, units - (in.layout.small_lanes ? 176.0F : 208.0F) - (music ? kMusicLane : 0.0F));
    const float tall = 30 + std::floor(spare / 2);
    float top = 78;
    lanes.height = lane(top, tall);
    top += tall + 8;
    lanes.load = lane(top, tall);
    top += tall + 8;
    if (!in.layout.small_lanes) {
        lanes.speed = lane(top, 16);
        top += 24;
        lanes.smoke = lane(top, 5);
        top += 8;
    }
    if (music) {
        lanes.music = lane(top, kMusicLane - 8);
        top += kMusicLane;
    }
    lanes.findings = lane(top, 16);
    return lanes;
}

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

void drawFindingsLane(const PanelInput& in, const Lanes& lanes, UiState& state) {
    if (lanes.findings.height <= 0) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    drawGutter(in, lanes.findings, "Findings", "", "");
    const auto& findings = in.model.shown->findings;
    if (findings.empty()) {
        c.text(lanes.findings.x, lanes.findings.y + c.px(1), kSmall, theme.ink3, "None");
        return;
    }
    const Clip clip(c, Rect{lanes.findings.x - c.px(8), lanes.findings.y,
                            lanes.findings.width + c.px(16), lanes.findings.height});
    const float middle = lanes.findings.y + lanes.findings.height / 2;
    float free_from = lanes.findings.x - c.px(20);  // labels of one moment do not cover each other
    for (std::size_t i = 0; i < findings.size(); ++i) {
        const check::Finding& finding = findings[i];
        const auto x = static_cast<float>(lanes.axis.xOf(finding.time_s));
        if (x < lanes.findings.x - c.px(8) || x > lanes.findings.right() + c.px(8)) continue;
        const bool note = finding.grade == check::Grade::Note;
        const Mark mark = note                                   ? Mark::Dot
                          : finding.grade == check::Grade::Tight ? Mark::Open
                                                                 : Mark::Filled;
        c.mark(mark, x, middle, note ? theme.ink3 : theme.alarm, 11);
        float room = lanes.findings.right();
        for (std::size_t j = i + 1; j < findings.size(); ++j) {
            const auto next = static_cast<float>(lanes.axis.xOf(findings[j].time_s)) - c.px(10);
            if (next > x + c.px(1)) {
                room = std::min(room, next);
                break;
            }
        }
        const std::string words =
            finding.value.empty() ? finding.kind : finding.kind + " " + finding.value;
        const float width = c.textWidth(kSmall, words);
        ImGui::PushID(static_cast<int>(i));
        const Press pressed =
            press("finding", Rect{x - c.px(8), lanes.findings.y, c.px(18), lanes.findings.height});
        ImGui::PopID();
        if (pressed.hovered) {
            state.wants_hand = true;
            state.hint = "Go to this finding (F8)";
        }
        if (pressed.clicked) in.actions.push(ActionKind::Seek, finding.time_s);
        // A label is shown whole or not at all.
        if (x + c.px(10) + width > room || x < free_from) continue;
        free_from = c.text(x + c.px(10), middle - c.px(7), kSmall, theme.ink2, words) + c.px(8);
    }
}

/// The narrator's cues as ticks under the figures; the words show under the pointer.
void drawCues(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float y = lanes.figures.bottom() + c.px(2);
    const std::vector<path::Cue>& cues = in.model.shown->path().cues;
    for (std::size_t i = 0; i < cues.size(); ++i) {
        const auto x = std::round(static_cast<float>(lanes.axis.xOf(cues[i].time_s)));
        if (x < lanes.figures.x || x > lanes.figures.right()) continue;
        ImGui::PushID(static_cast<int>(i));
        const Press pressed = press("cue", Rect{x - c.px(4), y - c.px(1), c.px(9), c.px(7)});
        ImGui::PopID();
        c.fill(Rect{x, y, c.px(2), c.px(5)}, pressed.hovered ? theme.ink : theme.ink2);
        if (pressed.clicked) {
            in.actions.push(ActionKind::Seek, cues[i].time_s);
            if (!in.model.clock.playing()) in.actions.push(ActionKind::TogglePlay);
        }
        if (!pressed.hovered) continue;
        state.wants_hand = true;
        state.hint = "Play from this cue";
        const float width = c.textWidth(kNote, cues[i].words) + c.px(16);
        const float left =
            std::clamp(x - width / 2, lanes.figures.x, lanes.figures.right() - width);
        const Rect box{left, in.layout.timeline.y - c.px(26), width, c.px(22)};
        c.fill(box, theme.veil);
        c.text(box.x + c.px(8), box.y + c.px(3), kNote, theme.ink, cues[i].words);
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
    if (pressed.hovered) state.hint = "Drag: go there. Wheel: zoom, with Shift move";
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

void drawTimeline(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Rect& region = in.layout.timeline;
    c.fill(region, c.theme().surface);
    c.across(0, region.right(), region.y, c.theme().line);
    if (!in.model.shown) return;
    const Lanes lanes = lanesOf(in);
    drawRuler(in, lanes);
    const char* figures = in.model.shown->recording() ? "Recording" : "Figures";
    drawGutter(in, lanes.figures, figures, "", "");
    drawFigures(in, lanes, state);
    if (!in.layout.timeline_short) {
        drawCues(in, lanes, state);
        drawHeightLane(in, lanes);
        drawLoadLane(in, lanes);
        drawSpeedLane(in, lanes);
        if (in.model.shown->recording()) {  // no smoke, no findings: what was logged when
            const Rect& top = lanes.smoke.height > 0 ? lanes.smoke : lanes.findings;
            drawRecordedLane(in, Rect{top.x, top.y, top.width, lanes.findings.bottom() - top.y},
                             lanes.axis);
        } else {
            drawSmokeLane(in, lanes);
            drawMusicLane(in, lanes);
            drawFindingsLane(in, lanes, state);
        }
    }
    drawLoop(in, lanes);
    drawNow(in, lanes);
    handleLanes(in, lanes, state);
    drawTransport(in, state);
}

}  // namespace plumbline::ui

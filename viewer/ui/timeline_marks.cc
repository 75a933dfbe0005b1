// What stands at single moments of the timeline: the narrator's cues, the findings.

#include <algorithm>
#include <cmath>

#include "viewer/ui/quantity_text.h"
#include "viewer/ui/timeline_lanes.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;

/// Words on a plate above the timeline, under the pointer.
void drawCueWords(const PanelInput& in, const Lanes& lanes, float x, const std::string& words) {
    const Canvas& c = in.canvas;
    const float width = c.textWidth(kNote, words) + c.px(16);
    const float left = std::clamp(x - width / 2, lanes.figures.x,
                                  std::max(lanes.figures.x, lanes.figures.right() - width));
    const Rect box{left, in.layout.timeline.y - c.px(26), width, c.px(22)};
    c.fill(box, c.theme().veil);
    c.text(box.x + c.px(8), box.y + c.px(3), kNote, c.theme().ink, words);
}

}  // namespace

void drawCues(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& lane = lanes.of(model::Lane::Cues);
    const bool with_words = lane.height > 0;
    drawGutter(in, lane, "Cues", "", "");
    const std::vector<path::Cue>& cues = in.model.shown->path().cues;
    for (std::size_t i = 0; i < cues.size(); ++i) {
        const auto x = std::round(static_cast<float>(lanes.axis.xOf(cues[i].time_s)));
        if (x < lanes.figures.x || x > lanes.figures.right()) continue;
        // In a lane of its own the words last until the next cue.
        float right = lanes.figures.right();
        if (i + 1 < cues.size()) {
            right =
                std::min(right, static_cast<float>(lanes.axis.xOf(cues[i + 1].time_s)) - c.px(6));
        }
        const Rect tick = with_words ? Rect{x, lane.y, c.px(2), lane.height}
                                     : Rect{x, lanes.figures.bottom() + c.px(2), c.px(2), c.px(5)};
        const Rect target =
            with_words ? Rect{x - c.px(2), lane.y, std::max(c.px(9), right - x), lane.height}
                       : Rect{x - c.px(4), tick.y - c.px(1), c.px(9), c.px(7)};
        ImGui::PushID(static_cast<int>(i));
        const Press pressed = press("cue", target);
        ImGui::PopID();
        c.fill(tick, pressed.hovered ? theme.ink : theme.ink2);
        if (with_words) {
            c.textClipped(x + c.px(6), lane.y + c.px(1), right, kSmall,
                          pressed.hovered ? theme.ink : theme.ink2, cues[i].words);
        }
        if (pressed.clicked) {
            in.actions.push(ActionKind::Seek, cues[i].time_s);
            if (!in.model.clock.playing()) in.actions.push(ActionKind::TogglePlay);
        }
        if (!pressed.hovered) continue;
        state.wants_hand = true;
        state.hint = "Play from this cue";
        drawCueWords(in, lanes, x, cues[i].words);
    }
}

void drawReachLane(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Rect& lane = lanes.of(model::Lane::Reach);
    if (lane.height <= 0) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    drawGutter(in, lane, "Reach", "", "");
    const Clip clip(c, lane);
    const model::Shown& shown = *in.model.shown;
    const auto fill = [&](double from_s, double to_s, Colour colour) {
        const auto x0 = static_cast<float>(lanes.axis.xOf(from_s));
        const auto x1 = static_cast<float>(lanes.axis.xOf(to_s));
        c.fill(Rect{x0, lane.y, std::max(x1 - x0, c.px(1)), lane.height}, colour);
    };
    fill(0, shown.path().duration_s(), theme.line);
    for (const check::Spell& s : check::outOfReach(shown.reaches))
        fill(s.from_s, s.to_s, theme.alarm);
    const ImVec2 mouse = ImGui::GetIO().MousePos;
    if (!lane.contains(mouse.x, mouse.y)) return;
    const double at_s = lanes.axis.timeOf(static_cast<double>(mouse.x));
    for (const check::Reach& reach : shown.reaches) {
        if (reach.time_s > at_s || reach.time_s + check::kReachEvery_s <= at_s) continue;
        const std::string metres =
            heightText(std::round(std::abs(reach.spare_m) / 10) * 10, in.model.session.units)
                .joined();
        state.hint = "Engine stopped here: " + reach.strip +
                     (reach.spare_m < 0 ? " missed by " : " with about ") + metres +
                     (reach.spare_m < 0 ? " of height" : " to spare");
    }
}

void drawRemarksLane(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Rect& lane = lanes.of(model::Lane::Remarks);
    if (lane.height <= 0) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    drawGutter(in, lane, "Remarks", "", "");
    const std::vector<season::Remark>& remarks = in.model.remarks.list;
    const float middle = lane.y + lane.height / 2;
    for (std::size_t i = 0; i < remarks.size(); ++i) {
        const auto x = std::round(static_cast<float>(lanes.axis.xOf(remarks[i].time_s)));
        if (x < lane.x - c.px(2) || x > lane.right()) continue;
        float right = lane.right();
        if (i + 1 < remarks.size()) {
            right = std::min(right, static_cast<float>(lanes.axis.xOf(remarks[i + 1].time_s)));
        }
        const float end =
            std::min(right - c.px(4), x + c.px(8) + c.textWidth(kSmall, remarks[i].words));
        ImGui::PushID(static_cast<int>(i));
        const Press pressed =
            press("remark", Rect{x - c.px(2), lane.y, std::max(c.px(9), end - x), lane.height});
        ImGui::PopID();
        c.fill(Rect{x, lane.y, c.px(2), lane.height}, pressed.hovered ? theme.ink : theme.ink2);
        c.textClipped(x + c.px(6), middle - c.px(7), right - c.px(4), kSmall,
                      pressed.hovered ? theme.ink : theme.ink2, remarks[i].words);
        if (pressed.clicked) in.actions.push(ActionKind::Seek, remarks[i].time_s);
        if (!pressed.hovered) continue;
        state.wants_hand = true;
        state.hint = "Go to what the " + remarks[i].by + " said (Shift N changes it)";
        drawCueWords(in, lanes, x, remarks[i].by + ": " + remarks[i].words);
    }
}

void drawFindingsLane(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Rect& lane = lanes.of(model::Lane::Findings);
    if (lane.height <= 0) return;
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    drawGutter(in, lane, "Findings", "", "");
    const auto& findings = in.model.shown->findings;
    if (findings.empty()) {
        c.text(lane.x, lane.y + c.px(1), kSmall, theme.ink3, "None");
        return;
    }
    const Clip clip(c, Rect{lane.x - c.px(8), lane.y, lane.width + c.px(16), lane.height});
    const float middle = lane.y + lane.height / 2;
    const units::DisplayUnits units = displayUnits(in.model.session.units);
    float free_from = lane.x - c.px(20);  // labels of one moment do not cover each other
    for (std::size_t i = 0; i < findings.size(); ++i) {
        const check::Finding& finding = findings[i];
        const auto x = static_cast<float>(lanes.axis.xOf(finding.time_s));
        if (x < lane.x - c.px(8) || x > lane.right() + c.px(8)) continue;
        const bool note = finding.grade == check::Grade::Note;
        const Mark mark = note                                   ? Mark::Dot
                          : finding.grade == check::Grade::Tight ? Mark::Open
                                                                 : Mark::Filled;
        c.mark(mark, x, middle, note ? theme.ink3 : theme.alarm, 11);
        float room = lane.right();
        for (std::size_t j = i + 1; j < findings.size(); ++j) {
            const auto next = static_cast<float>(lanes.axis.xOf(findings[j].time_s)) - c.px(10);
            if (next > x + c.px(1)) {
                room = std::min(room, next);
                break;
            }
        }
        const std::string words =
            finding.value.empty()
                ? finding.kind
                : finding.kind + " " + check::inUnits(finding, finding.value, units);
        const float width = c.textWidth(kSmall, words);
        ImGui::PushID(static_cast<int>(i));
        const Press pressed = press("finding", Rect{x - c.px(8), lane.y, c.px(18), lane.height});
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

}  // namespace plumbline::ui

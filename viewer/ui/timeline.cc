// The timeline: transport, ruler and lanes over one time axis; the thread of now through all.

#include <algorithm>
#include <array>
#include <cmath>

#include "viewer/scene/quantity_map.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/recorded_lane.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

using model::ActionKind;
using model::TimeAxis;

/// Tops and heights of the lanes, pixels; height 0: not shown.
struct Lanes {
    Rect ruler, figures, height, load, speed, smoke, findings;
    TimeAxis axis;
    float bottom = 0;
};

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
    const float spare = std::max(0.0F, units - (in.layout.small_lanes ? 176.0F : 208.0F));
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
    lanes.findings = lane(top, 16);
    return lanes;
}

void drawGutter(const PanelInput& in, const Rect& lane, const char* name, const std::string& unit,
                const std::string& range) {
    if (lane.height <= 0) return;
    const Canvas& c = in.canvas;
    const bool two_lines = lane.height >= c.px(28);
    const float y = two_lines ? lane.y : lane.y + lane.height / 2 - c.px(7);
    const float right = lane.x - c.px(8);
    c.text(c.px(16), y, kSmall, c.theme().ink2, name);
    c.textRight(right, y, kSmall, c.theme().ink3, unit);
    if (two_lines) c.textRight(right, y + c.px(15), kSmall, c.theme().ink3, range);
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
        if (pressed.hovered) state.wants_hand = true;
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

/// A line through the middle of each pixel's bin, with its extremes: never more than two a pixel.
std::vector<ImVec2> curveOf(const PanelInput& in, const Lanes& lanes, const Rect& lane,
                            const model::Series& series, double low, double high) {
    const TimeAxis& axis = lanes.axis;
    const double bin_s = axis.secondsPerPixel();
    const auto first = static_cast<std::int64_t>(std::floor(axis.start_s / bin_s));
    const auto count = static_cast<std::int64_t>(axis.width_px) + 2;
    const std::vector<model::Bin> bins =
        model::binned(in.model.shown->lanes.time_s, series, first, count, bin_s);
    const float inset = in.canvas.px(1);
    const auto y_of = [&](float value) {
        const double t = (static_cast<double>(value) - low) / (high - low);
        return lane.bottom() - inset -
               static_cast<float>(std::clamp(t, 0.0, 1.0)) * (lane.height - 2 * inset);
    };
    std::vector<ImVec2> points;
    for (std::size_t i = 0; i < bins.size(); ++i) {
        if (bins[i].count == 0) continue;
        const double middle_s = (static_cast<double>(first) + static_cast<double>(i) + 0.5) * bin_s;
        const auto x = std::clamp(static_cast<float>(axis.xOf(middle_s)), lane.x, lane.right());
        const float y_low = y_of(bins[i].low);
        const float y_high = y_of(bins[i].high);
        if (y_low - y_high < 1.5F) {
            points.emplace_back(x, (y_low + y_high) / 2);
        } else {
            const bool falling = !points.empty() && points.back().y < (y_low + y_high) / 2;
            points.emplace_back(x, falling ? y_high : y_low);
            points.emplace_back(x, falling ? y_low : y_high);
        }
    }
    return points;
}

void fillUnder(const Canvas& c, const std::vector<ImVec2>& points, float bottom, Colour colour) {
    for (std::size_t i = 0; i + 1 < points.size(); ++i) {
        const ImVec2& a = points[i];
        const ImVec2& b = points[i + 1];
        if (b.x <= a.x) continue;
        c.list()->PrimReserve(6, 4);
        c.list()->PrimQuadUV(ImVec2(a.x, bottom), a, b, ImVec2(b.x, bottom),
                             ImGui::GetFontTexUvWhitePixel(), ImGui::GetFontTexUvWhitePixel(),
                             ImGui::GetFontTexUvWhitePixel(), ImGui::GetFontTexUvWhitePixel(),
                             colour);
    }
}

Colour dataColour(const PanelInput& in) {
    return in.model.shown->recording() ? in.canvas.theme().flight : in.canvas.theme().ink;
}

void drawHeightLane(const PanelInput& in, const Lanes& lanes) {
    const Canvas& c = in.canvas;
    const model::Series& series = in.model.shown->lanes.height_m;
    const double low_m = std::min(0.0, static_cast<double>(series.low));
    const double high_m = std::max(10.0, static_cast<double>(series.high)) * 1.04;
    const model::UnitChoice units = in.model.session.units;
    drawGutter(
        in, lanes.height, "Height", heightUnit(units),
        wholeText(heightInUnit(low_m, units)) + "\u2013" +
            wholeText(std::round(heightInUnit(static_cast<double>(series.high), units) / 10) * 10));
    const Clip clip(
        c, Rect{lanes.height.x, lanes.height.y - 1, lanes.height.width, lanes.height.height + 2});
    const std::vector<ImVec2> points = curveOf(in, lanes, lanes.height, series, low_m, high_m);
    fillUnder(c, points, lanes.height.bottom(), faded(c.theme().ink, 0.12));
    c.across(lanes.height.x, lanes.height.right(), lanes.height.bottom() - 1, c.theme().line);
    const double floor_m = in.model.shown->source.world->site.floor_m;
    if (!in.model.shown->recording() && floor_m > 0) {
        const double t = (floor_m - low_m) / (high_m - low_m);
        const float y = lanes.height.bottom() - c.px(1) -
                        static_cast<float>(t) * (lanes.height.height - c.px(2));
        c.dotted(lanes.height.x, lanes.height.right(), y, c.theme().alarm, 2, 3);
    }
    c.stroke(points, dataColour(in), 1.5F);
}

void drawLoadLane(const PanelInput& in, const Lanes& lanes) {
    const Canvas& c = in.canvas;
    const model::Shown& shown = *in.model.shown;
    const Rect& lane = lanes.load;
    if (!shown.path().known.load) {
        drawGutter(in, lane, "Load", "g", kUnknown);
        c.text(lane.x + c.px(7), lane.y + lane.height / 2 - c.px(7), kSmall, c.theme().ink3,
               "Not known from this recording");
        return;
    }
    const double low_g = std::min(-1.0, std::floor(static_cast<double>(shown.lanes.load_g.low)));
    const double high_g = std::max(2.0, std::ceil(static_cast<double>(shown.lanes.load_g.high)));
    drawGutter(in, lane, "Load", "g", wholeText(low_g) + " to " + wholeText(high_g));
    const auto y_of = [&](double load_g) {
        const double t = (load_g - low_g) / (high_g - low_g);
        return std::round(lane.bottom() - static_cast<float>(t) * lane.height);
    };
    const float zero = y_of(0);
    const float pitch = c.px(5);
    const double bin_s = lanes.axis.secondsPerPixel() * static_cast<double>(pitch);
    const auto first = static_cast<std::int64_t>(std::floor(lanes.axis.start_s / bin_s));
    const auto count = static_cast<std::int64_t>(lane.width / pitch) + 2;
    const std::vector<model::Bin> bins =
        model::binned(shown.lanes.time_s, shown.lanes.load_g, first, count, bin_s);
    const scene::QuantityRange range =
        shown.source.shape->ranges[static_cast<std::size_t>(scene::Quantity::Load)];
    const Clip clip(c, lane);
    for (std::size_t i = 0; i < bins.size(); ++i) {
        if (bins[i].count == 0) continue;
        // The extreme that is further from zero, so that no peak hides in a bin.
        const float value = -bins[i].low > bins[i].high ? bins[i].low : bins[i].high;
        const double start_s = (static_cast<double>(first) + static_cast<double>(i)) * bin_s;
        const auto x = std::round(static_cast<float>(lanes.axis.xOf(start_s)));
        float y = y_of(static_cast<double>(value));
        if (std::abs(y - zero) < 1) y = zero - 1;
        const glm::vec3 rgb = scene::mapColour(
            scene::Quantity::Load, range, static_cast<double>(value), in.model.session.marks.grey);
        c.fill(Rect{x, std::min(y, zero), pitch - c.px(1), std::abs(y - zero)},
               ImGui::ColorConvertFloat4ToU32(ImVec4(rgb.r, rgb.g, rgb.b, 1)));
    }
    c.across(lane.x, lane.right(), zero, c.theme().edge);
}

/// Speed, or with a ghost how far the two are apart.
void drawSpeedLane(const PanelInput& in, const Lanes& lanes) {
    if (lanes.speed.height <= 0) return;
    const Canvas& c = in.canvas;
    const model::Series& apart = in.model.shown->lanes.apart_m;
    if (!apart.values.empty()) {
        drawGutter(in, lanes.speed, "Apart", "m", "");
        const Clip within(c, lanes.speed);
        const double high_m = in.model.shown->source.ghost->apart_range.high;
        c.stroke(curveOf(in, lanes, lanes.speed, apart, 0, high_m), c.theme().flight, 1.5F);
        return;
    }
    drawGutter(in, lanes.speed, "Speed", speedUnit(in.model.session.units), "");
    const model::Series& series = in.model.shown->lanes.airspeed_mps;
    const Clip clip(c, lanes.speed);
    c.stroke(
        curveOf(in, lanes, lanes.speed, series, 0, std::max(1.0, static_cast<double>(series.high))),
        dataColour(in), 1.5F);
}

void drawSmokeLane(const PanelInput& in, const Lanes& lanes) {
    if (lanes.smoke.height <= 0) return;
    const Canvas& c = in.canvas;
    drawGutter(in, lanes.smoke, "Smoke", "", "");
    const Clip clip(c, lanes.smoke);
    for (const path::Smoke& smoke : in.model.shown->path().smoke) {
        const auto x0 = static_cast<float>(lanes.axis.xOf(smoke.start_s));
        const auto x1 = static_cast<float>(lanes.axis.xOf(smoke.stop_s));
        c.fill(Rect{x0, lanes.smoke.y, x1 - x0, lanes.smoke.height}, c.theme().ink3);
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
        if (pressed.hovered) state.wants_hand = true;
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
        if (pressed.clicked) in.actions.push(ActionKind::Seek, cues[i].time_s);
        if (!pressed.hovered) continue;
        state.wants_hand = true;
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

void drawTransport(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const Rect& region = in.layout.timeline;
    const model::PlaybackClock& clock = in.model.clock;
    const float middle = region.y + c.px(17);
    const auto button = [&](const char* id, float x, float width) {
        const Rect rect{x - width / 2, middle - c.px(12), width, c.px(24)};
        const Press pressed = press(id, rect);
        if (pressed.hovered) {
            state.wants_hand = true;
            c.fill(rect, pressed.held ? theme.line : theme.raised);
        }
        return pressed.clicked;
    };
    if (button("to start", c.px(26), c.px(28))) in.actions.push(ActionKind::ToStart);
    c.icon(Icon::ToStart, c.px(26), middle, theme.ink);
    if (button("play", c.px(56), c.px(28))) in.actions.push(ActionKind::TogglePlay);
    const bool playing = clock.playing() || (state.scrubbing && state.was_playing);
    c.icon(playing ? Icon::Pause : Icon::Play, c.px(56), middle, theme.ink);
    if (button("step", c.px(86), c.px(28))) in.actions.push(ActionKind::StepFrames, 1.0);
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
    if (button("speed", speed_x, c.px(44))) {
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
    if (button("loop", c.px(298) + loop_width / 2, loop_width)) {
        in.actions.push(ActionKind::ToggleLoop);
    }
    c.icon(Icon::Loop, c.px(314), middle, clock.loop() ? theme.now : theme.ink2);
    c.text(c.px(330), middle - c.px(9), kBody, theme.ink2, loop_words);
}

}  // namespace

void drawTimeline(const PanelInput& in, UiState& state) {
    const Canvas& c = in.canvas;
    const Rect& region = in.layout.timeline;
    c.fill(region, c.theme().surface);
    c.across(0, region.right(), region.y, c.theme().line);
    if (!in.model.shown) return;
    const Lanes lanes = lanesOf(in);
    drawTransport(in, state);
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
            drawFindingsLane(in, lanes, state);
        }
    }
    drawLoop(in, lanes);
    drawNow(in, lanes);
    handleLanes(in, lanes, state);
}

}  // namespace plumbline::ui

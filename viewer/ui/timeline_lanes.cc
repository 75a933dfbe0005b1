// The lanes of what was flown: height, load, speed, smoke, and the music beside them.

#include "viewer/ui/timeline_lanes.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/scene/hearing.h"
#include "viewer/scene/quantity_map.h"
#include "viewer/ui/quantity_text.h"

namespace plumbline::ui {
namespace {

using model::Lane;
using model::TimeAxis;

/// Leaves out what lies on the line between its neighbours, to a quarter of a pixel: most of a
/// smooth curve, each point of which costs four corners. x must not fall.
std::vector<ImVec2> withoutNeedless(const std::vector<ImVec2>& points) {
    constexpr float kOff_px = 0.25F;  // chosen: nobody sees it
    if (points.size() < 3) return points;
    std::vector<ImVec2> out{points.front()};
    float steepest = 1e9F, flattest = -1e9F;  // slopes from the last point kept that miss none
    const auto slope = [](const ImVec2& from, const ImVec2& to, float off) {
        return (to.y + off - from.y) / (to.x - from.x);
    };
    for (std::size_t i = 1; i < points.size(); ++i) {
        const ImVec2 from = out.back();
        const bool upright = points[i].x - from.x < 0.5F;
        const float wish = upright ? 0 : slope(from, points[i], 0);
        if (upright || wish > steepest || wish < flattest) {
            if (points[i - 1].x - from.x >= 0.5F) out.push_back(points[i - 1]);
            steepest = 1e9F;
            flattest = -1e9F;
            if (points[i].x - out.back().x < 0.5F) {
                out.push_back(points[i]);
                continue;
            }
        }
        const ImVec2 kept = out.back();
        steepest = std::min(steepest, slope(kept, points[i], kOff_px));
        flattest = std::max(flattest, slope(kept, points[i], -kOff_px));
    }
    out.push_back(points.back());
    return out;
}

/// A line through the middle of each pixel's bin, with its extremes: never more than two a pixel.
/// @param time_s  of the series' values
std::vector<ImVec2> curveOf(const PanelInput& in, const Lanes& lanes, const Rect& lane,
                            const std::vector<double>& time_s, const model::Series& series,
                            double low, double high) {
    const TimeAxis& axis = lanes.axis;
    const double bin_s = axis.secondsPerPixel();
    const auto first = static_cast<std::int64_t>(std::floor(axis.start_s / bin_s));
    const auto count = static_cast<std::int64_t>(axis.width_px) + 2;
    const std::vector<model::Bin> bins = model::binned(time_s, series, first, count, bin_s);
    const float inset = in.canvas.px(1);
    const auto y_of = [&](float value) {
        const double t = (static_cast<double>(value) - low) / (high - low);
        return lane.bottom() - inset -
               static_cast<float>(std::clamp(t, 0.0, 1.0)) * (lane.height - 2 * inset);
    };
    std::vector<ImVec2> points;
    points.reserve(2 * bins.size());
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
    return withoutNeedless(points);
}

std::vector<ImVec2> curveOf(const PanelInput& in, const Lanes& lanes, const Rect& lane,
                            const model::Series& series, double low, double high) {
    return curveOf(in, lanes, lane, in.model.shown->lanes.time_s, series, low, high);
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

}  // namespace

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

void drawHeightLane(const PanelInput& in, const Lanes& lanes) {
    const Rect& lane = lanes.of(Lane::Height);
    if (lane.height <= 0) return;
    const Canvas& c = in.canvas;
    const model::Series& series = in.model.shown->lanes.height_m;
    const double low_m = std::min(0.0, static_cast<double>(series.low));
    const double high_m = std::max(10.0, static_cast<double>(series.high)) * 1.04;
    const model::UnitChoice units = in.model.session.units;
    drawGutter(
        in, lane, "Height", heightUnit(units),
        wholeText(heightInUnit(low_m, units)) + "\u2013" +
            wholeText(std::round(heightInUnit(static_cast<double>(series.high), units) / 10) * 10));
    const Clip clip(c, Rect{lane.x, lane.y - 1, lane.width, lane.height + 2});
    const std::vector<ImVec2> points = curveOf(in, lanes, lane, series, low_m, high_m);
    fillUnder(c, points, lane.bottom(), faded(c.theme().ink, 0.12));
    c.across(lane.x, lane.right(), lane.bottom() - 1, c.theme().line);
    const double floor_m = in.model.shown->source.world->site.floor_m;
    const model::Series& planned = in.model.shown->lanes.planned_height_m;
    if (!planned.values.empty())
        c.stroke(curveOf(in, lanes, lane, planned, low_m, high_m), c.theme().ink3, 1.2F);
    if ((!in.model.shown->recording() || in.model.shown->review) && floor_m > 0) {
        const double t = (floor_m - low_m) / (high_m - low_m);
        const float y = lane.bottom() - c.px(1) - static_cast<float>(t) * (lane.height - c.px(2));
        c.dotted(lane.x, lane.right(), y, c.theme().alarm, 2, 3);
    }
    c.stroke(points, dataColour(in), 1.5F);
}

void drawLoadLane(const PanelInput& in, const Lanes& lanes) {
    const Canvas& c = in.canvas;
    const model::Shown& shown = *in.model.shown;
    const Rect& lane = lanes.of(Lane::Load);
    if (lane.height <= 0) return;
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

void drawSpeedLane(const PanelInput& in, const Lanes& lanes) {
    const Rect& lane = lanes.of(Lane::Speed);
    if (lane.height <= 0) return;
    drawGutter(in, lane, "Speed", speedUnit(in.model.session.units), "");
    const model::Series& series = in.model.shown->lanes.airspeed_mps;
    const Clip clip(in.canvas, lane);
    const double high_mps = std::max(1.0, static_cast<double>(series.high));
    in.canvas.stroke(curveOf(in, lanes, lane, series, 0, high_mps), dataColour(in), 1.5F);
}

void drawPowerLane(const PanelInput& in, const Lanes& lanes) {
    const Rect& lane = lanes.of(Lane::Power);
    if (lane.height <= 0) return;
    drawGutter(in, lane, "Power", "%", "");
    const Clip clip(in.canvas, lane);
    in.canvas.stroke(curveOf(in, lanes, lane, in.model.shown->lanes.power_frac, 0, 1),
                     dataColour(in), 1.5F);
}

void drawApartLane(const PanelInput& in, const Lanes& lanes) {
    const Rect& lane = lanes.of(Lane::Apart);
    if (lane.height <= 0) return;
    drawGutter(in, lane, "Apart", "m", "");
    const Clip clip(in.canvas, lane);
    const double high_m = in.model.shown->source.ghost->apart_range.high;
    in.canvas.stroke(curveOf(in, lanes, lane, in.model.shown->lanes.apart_m, 0, high_m),
                     in.canvas.theme().flight, 1.5F);
}

void drawHeardLane(const PanelInput& in, const Lanes& lanes, UiState& state) {
    const Rect& lane = lanes.of(Lane::Heard);
    if (lane.height <= 0) return;
    const model::Shown& shown = *in.model.shown;
    const scene::World& world = *shown.source.world;
    const Vec3 ear_S_m = scene::seatOf(in.model.session.view, world.site);
    if (state.heard.revision != shown.revision || state.heard.ear_S_m != ear_S_m) {
        state.heard.revision = shown.revision;
        state.heard.ear_S_m = ear_S_m;
        state.heard.time_s = scene::heardTimes(shown.path(), ear_S_m, world.speed_of_sound_mps);
    }
    const double late_s =
        in.model.clock.time_s() -
        scene::madeAt(shown.path(), ear_S_m, world.speed_of_sound_mps, in.model.clock.time_s());
    drawGutter(in, lane, "Heard", formatFixed(late_s, 1) + " s", "");
    const Clip clip(in.canvas, lane);
    const std::vector<ImVec2> points =
        curveOf(in, lanes, lane, state.heard.time_s, shown.lanes.power_frac, 0, 1);
    fillUnder(in.canvas, points, lane.bottom(), faded(in.canvas.theme().ink, 0.22));
}

void drawSmokeLane(const PanelInput& in, const Lanes& lanes) {
    const Rect& lane = lanes.of(Lane::Smoke);
    if (lane.height <= 0) return;
    const Canvas& c = in.canvas;
    drawGutter(in, lane, "Smoke", "", "");
    const Clip clip(c, lane);
    for (const path::Smoke& smoke : in.model.shown->path().smoke) {
        const auto x0 = static_cast<float>(lanes.axis.xOf(smoke.start_s));
        const auto x1 = static_cast<float>(lanes.axis.xOf(smoke.stop_s));
        c.fill(Rect{x0, lane.y, x1 - x0, lane.height}, c.theme().ink3);
    }
}

void drawMusicLane(const PanelInput& in, const Lanes& lanes) {
    const Rect& lane = lanes.of(Lane::Music);
    if (!in.model.music || lane.height <= 0) return;
    const Canvas& c = in.canvas;
    drawGutter(in, lane, "Music", in.model.session.music_off ? "off" : "", "");
    const Clip clip(c, lane);
    const Colour colour = in.model.session.music_off ? c.theme().edge : c.theme().ink3;
    const double start_s = in.model.shown->music_start_s;
    const float pitch = std::max(2.0F, std::round(c.px(2)));
    // Bars lie on a fixed grid of time, so that nothing shimmers while the timeline moves.
    const double bar_s = lanes.axis.secondsPerPixel() * static_cast<double>(pitch);
    const auto first = static_cast<std::int64_t>(std::floor(lanes.axis.start_s / bar_s));
    const auto count = static_cast<std::int64_t>(lane.width / pitch) + 2;
    const float middle = std::round(lane.y + lane.height / 2);
    for (std::int64_t i = first; i < first + count; ++i) {
        const double from_s = static_cast<double>(i) * bar_s - start_s;
        if (from_s + bar_s < 0 || from_s > in.model.music->duration_s()) continue;
        const float peak = model::peakWithin(*in.model.music, from_s, from_s + bar_s);
        const float loud = peak / std::max(in.model.music->greatest, 0.01F);
        const float half = std::max(0.5F, std::round(loud * lane.height / 2));
        const auto x = std::round(static_cast<float>(lanes.axis.xOf(from_s + start_s)));
        c.fill(Rect{x, middle - half, pitch - 1, 2 * half}, colour);
    }
}

}  // namespace plumbline::ui

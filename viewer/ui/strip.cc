// The numbers of the moment over the picture's lower edge, each with its scale.

#include <algorithm>
#include <cmath>
#include <optional>

#include "engine/base/measured_text.h"
#include "engine/base/number_text.h"
#include "engine/review/doubts.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

/// One cell: a value on a scale from `low` to `high`.
struct Cell {
    std::string label;
    std::string short_label;  ///< where the number leaves no room for the label
    NumberText value;
    bool known = true;
    double now = 0;
    double low = 0, high = 1;
    double origin = 0;                            ///< the bar runs from here to now
    std::optional<double> held_low, held_high;    ///< ticks
    std::optional<double> limit_low, limit_high;  ///< raspberry beyond
};

void drawCell(const Canvas& c, const Cell& cell, float x, const Rect& strip) {
    const Theme& theme = c.theme();
    const float width = c.px(kCellWidth - 24);
    const bool low_strip = strip.height < c.px(50);
    const float top = strip.y + c.px(low_strip ? 2 : 7);
    const float scale_y = strip.y + c.px(low_strip ? 32 : 37);
    const float unit_x = c.textRight(x + width, top + c.px(8), kSmall, theme.ink2,
                                     cell.known ? cell.value.unit : std::string());
    const float value_x =
        c.textRight(unit_x - c.px(cell.known && !cell.value.unit.empty() ? 5 : 0), top, kValue,
                    theme.ink, cell.known ? cell.value.number : std::string(kUnknown));
    const float label_end = value_x - c.px(3);
    const bool fits = cell.short_label.empty() || x + c.textWidth(kNote, cell.label) <= label_end;
    c.textClipped(x, top + c.px(7), label_end, kNote, theme.ink2,
                  fits ? cell.label : cell.short_label);

    const float bar = c.px(3);
    c.fill(Rect{x, scale_y, width, bar}, theme.line);
    if (!cell.known) return;
    const auto at = [&](double value) {
        const double t = std::clamp((value - cell.low) / (cell.high - cell.low), 0.0, 1.0);
        return x + static_cast<float>(t) * width;
    };
    const float from = std::min(at(cell.origin), at(cell.now));
    const float to = std::max(at(cell.origin), at(cell.now));
    c.fill(Rect{from, scale_y, std::max(to - from, c.px(2)), bar}, theme.ink);
    if (cell.limit_low) c.fill(Rect{x, scale_y, at(*cell.limit_low) - x, bar}, theme.alarm);
    if (cell.limit_high) {
        const float limit = at(*cell.limit_high);
        c.fill(Rect{limit, scale_y, x + width - limit, bar}, theme.alarm);
    }
    for (const std::optional<double>& held : {cell.held_low, cell.held_high}) {
        if (!held) continue;
        const float w = std::max(1.0F, std::round(1.5F * c.scale()));
        c.fill(Rect{std::round(at(*held)), scale_y - c.px(2), w, c.px(7)}, theme.ink2);
    }
}

double latest(const model::Series& series, const std::vector<float>& so_far, std::size_t i) {
    return i < so_far.size() ? static_cast<double>(so_far[i]) : static_cast<double>(series.low);
}

std::vector<Cell> flightCells(const PanelInput& in, const path::Sample& now, std::size_t i) {
    const model::Shown& shown = *in.model.shown;
    const path::Known& known = shown.path().known;
    const model::UnitChoice units = in.model.session.units;
    const data::AircraftLimits& limits = shown.source.aircraft->limits;
    const model::LaneData& lanes = shown.lanes;

    std::vector<Cell> cells(4);
    Cell& height = cells[0];
    height.label = "Height";
    if (now.position_sigma_m > 0) {
        height.short_label =
            "\u00B1" + doubtText(heightInUnit(2 * review::placeSigma_m(now), units), 0);
        height.label += " " + height.short_label;
    }
    height.value = heightText(now.position_S_m.z, units);
    height.now = now.position_S_m.z;
    height.high = std::max(1.0, static_cast<double>(lanes.height_m.high));

    Cell& speed = cells[1];
    const double shown_mps = known.airspeed ? now.airspeed_mps : glm::length(now.velocity_S_mps);
    speed.label = known.airspeed ? "Airspeed" : "Ground speed";
    speed.short_label = known.airspeed ? "Air" : "Ground";
    speed.value = speedText(shown_mps, units);
    speed.known = known.airspeed || known.place;
    speed.now = shown_mps;
    speed.high = std::max(1.0, 1.05 * static_cast<double>(lanes.airspeed_mps.high));
    if (limits.never_exceed_mps > 0) {
        speed.high = std::max(speed.high, limits.never_exceed_mps * 1.1);
        speed.limit_high = limits.never_exceed_mps;
    }
    speed.held_high = latest(lanes.airspeed_mps, lanes.airspeed_mps.highest_so_far, i);

    Cell& climb = cells[2];
    climb.label = units == model::UnitChoice::Feet ? "V/S" : "Vertical";  // ft/min takes room
    climb.value = climbText(now.velocity_S_mps.z, units);
    climb.now = now.velocity_S_mps.z;
    climb.high = std::max({5.0, static_cast<double>(lanes.climb_mps.high),
                           -static_cast<double>(lanes.climb_mps.low)});
    climb.low = -climb.high;

    Cell& load = cells[3];
    load.label = "Load";
    load.known = known.load;
    load.now = loadFactors(now.specific_force_B_mps2).normal_g;
    load.value = loadText(load.now);
    load.low = -6;
    load.high = 10;
    if (limits.load_max_g > 0) {
        load.low = limits.load_min_g - 1;
        load.high = limits.load_max_g + 1;
        load.limit_low = limits.load_min_g;
        load.limit_high = limits.load_max_g;
    }
    load.held_low = latest(lanes.load_g, lanes.load_g.lowest_so_far, i);
    load.held_high = latest(lanes.load_g, lanes.load_g.highest_so_far, i);
    return cells;
}

std::vector<Cell> engineCells(const PanelInput& in, const path::Sample& now) {
    const model::Shown& shown = *in.model.shown;
    const path::Known& known = shown.path().known;
    const data::Aircraft& aircraft = *shown.source.aircraft;

    std::vector<Cell> cells(4);
    Cell& power = cells[0];
    power.label = "Power";
    power.known = known.power;
    power.value.number = wholeText(now.power_frac * 100);
    power.value.unit = "%";
    power.now = now.power_frac;

    Cell& fuel = cells[1];
    fuel.label = "Fuel";
    fuel.known = known.fuel;
    const double l_per_kg = 1000 / std::max(1.0, aircraft.mass.fuel_density_kgpm3);
    fuel.now = now.fuel_kg * l_per_kg;
    fuel.value.number = wholeText(fuel.now);
    fuel.value.unit = "l";
    fuel.high = std::max(1.0, aircraft.mass.fuel_capacity_kg * l_per_kg);
    if (shown.workspace && shown.workspace->routine.reserve_l > 0) {
        fuel.held_low = shown.workspace->routine.reserve_l;
    }

    constexpr double kIce_k = 273.15;
    Cell& head = cells[2];
    head.label = "Head";
    head.known = known.power && now.head_temperature_k > 0;
    head.now = now.head_temperature_k - kIce_k;
    // The model is a lumped one: no finer than 5 degrees.
    head.value.number = wholeText(std::round(head.now / 5) * 5);
    head.value.unit = "\u00B0C";
    head.high = 260;
    if (aircraft.power.head_limit_k > 0) {
        head.limit_high = aircraft.power.head_limit_k - kIce_k;
        head.high = *head.limit_high * 1.1;
    }

    Cell& slot = cells[3];
    const double slot_s = shown.workspace ? shown.workspace->routine.slot_s : 0;
    slot.label = "Slot";
    slot.known = slot_s > 0;
    slot.now = slot_s - now.time_s;
    slot.value.number = timeText(slot.now);
    slot.value.unit = slot.now < 0 ? "over" : "left";
    slot.high = std::max(1.0, slot_s);
    return cells;
}

/// How far the shown path and its ghost are apart, and which comes later.
std::vector<Cell> ghostCells(const PanelInput& in, double time_s) {
    const scene::Ghost* ghost = in.model.shown->source.ghost.get();
    if (ghost == nullptr) return {};
    const scene::Apart apart = scene::apartAt(in.model.shown->path(), *ghost, time_s);
    std::vector<Cell> cells(2);
    cells[0].label = "Apart";
    cells[0].known = apart.known;
    cells[0].now = apart.distance_m;
    cells[0].value.number = wholeText(apart.distance_m);
    cells[0].value.unit = "m";
    cells[0].high = ghost->apart_range.high;
    if (in.model.shown->review) {
        cells[0].label = "Off plan";
        cells[1].label = "On time";
        // It is the plan that comes later: the flight is early.
        cells[1].value.unit = apart.late_s > 0 ? "s early" : "s late";
        cells[1].now = -apart.late_s;
        cells[1].known = apart.known;
        cells[1].value.number = formatFixed(std::abs(apart.late_s), 1);
        cells[1].low = -6;
        cells[1].high = 6;
        return cells;
    }
    cells[1].label = ghost->path->origin == path::Origin::Recording ? "Flown" : "Second";
    cells[1].known = apart.known;
    cells[1].now = apart.late_s;
    cells[1].value.number = formatFixed(std::abs(apart.late_s), 1);
    cells[1].value.unit = apart.late_s < 0 ? "s early" : "s late";
    cells[1].low = -6;
    cells[1].high = 6;
    return cells;
}

}  // namespace

void drawStrip(const PanelInput& in) {
    if (!in.model.shown || in.layout.strip_cells <= 0) return;
    const Canvas& c = in.canvas;
    const Rect& strip = in.layout.strip;
    c.fill(strip, c.theme().veil);
    const model::Shown& shown = *in.model.shown;
    const double time_s = in.model.clock.time_s();
    const path::Sample now = path::sampleAt(shown.path(), time_s);
    std::vector<Cell> cells = flightCells(in, now, model::indexAt(shown.lanes.time_s, time_s));
    const std::vector<Cell> engine = engineCells(in, now);
    // Cells drop from the right as room shrinks.
    cells.insert(cells.end(), engine.begin(), engine.end());
    // With a ghost the two come after height and speed.
    const std::vector<Cell> ghost = ghostCells(in, time_s);
    cells.insert(cells.begin() + 2, ghost.begin(), ghost.end());
    float x = strip.x + c.px(16);
    for (int i = 0; i < in.layout.strip_cells && i < static_cast<int>(cells.size()); ++i) {
        drawCell(c, cells[static_cast<std::size_t>(i)], x, strip);
        x += c.px(kCellWidth);
    }
}

}  // namespace plumbline::ui

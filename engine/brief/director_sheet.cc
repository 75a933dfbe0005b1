#include "engine/brief/director_sheet.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/brief/head.h"
#include "engine/check/check.h"
#include "engine/page/table.h"

namespace plumbline::brief {
namespace {

using page::Align;
using page::Document;
using page::Point;

constexpr std::size_t kMostListed = 80;

struct Extremes {
    path::Sample lowest, fastest, nearest;
    double nearest_m = 1e9;
};

/// Way along the ground to the crowd line.
double toCrowd_m(const data::Site& site, const Vec3& at) {
    const double x = std::clamp(at.x, site.crowd_x_min_m, site.crowd_x_max_m);
    return std::hypot(at.x - x, at.y - site.crowd_line_y_m);
}

Extremes extremesOf(const path::Path& path, const data::Site& site) {
    Extremes e;
    if (path.samples.empty()) return e;
    e.lowest = e.fastest = e.nearest = path.samples.front();
    for (const path::Sample& s : path.samples) {
        if (s.position_S_m.z < e.lowest.position_S_m.z) e.lowest = s;
        if (s.airspeed_mps > e.fastest.airspeed_mps) e.fastest = s;
        const double away_m = toCrowd_m(site, s.position_S_m);
        if (away_m >= e.nearest_m) continue;
        e.nearest = s;
        e.nearest_m = away_m;
    }
    return e;
}

/// "0:24 Half Cuban".
std::string whenWords(const Outline& outline, const path::Sample& s) {
    const auto figure = static_cast<std::size_t>(path::figureOf(outline.path, s));
    return units::formatTime(s.time_s) +
           (figure < outline.acts.size() ? " in " + outline.acts[figure].name : "");
}

page::Text summary(const Outline& outline, const data::Site& site, units::DisplayUnits units) {
    const Extremes e = extremesOf(outline.path, site);
    page::Text text;
    const auto say = [&](const std::string& value, const std::string& words) {
        text.push_back({value, strong(8.6)});
        text.push_back({words, plain(8.6)});
    };
    say("Lowest " + units::formatHeight(e.lowest.position_S_m.z, units),
        " at " + whenWords(outline, e.lowest) +
            (site.floor_m > 0 ? " (floor " + units::formatHeight(site.floor_m, units) + ").  "
                              : ".  "));
    say("Fastest " + units::formatSpeed(e.fastest.airspeed_mps, units),
        " at " + whenWords(outline, e.fastest) + ".  ");
    say("Nearest the crowd line " + units::formatDistance(e.nearest_m),
        " at " + whenWords(outline, e.nearest) +
            (site.show_line_offset_m > 0
                 ? " (least allowed " + units::formatDistance(site.show_line_offset_m) + ").  "
                 : ".  "));
    const double right_rad = outline.path.show_line_bearing_rad;
    const auto way = [&](double true_rad) {
        return outline.declination_rad ? bearingWords(outline, true_rad, true) + " magnetic (" +
                                             bearingWords(outline, true_rad, false) + " true)"
                                       : bearingWords(outline, true_rad, false) + " true";
    };
    say("To the right ", "is " + way(right_rad) + ", ");
    say("to the left ", way(right_rad + kPi) + ".  ");
    say("Ends " + units::formatTime(outline.path.duration_s()),
        " after the first call, as planned.");
    return text;
}

/// Where along the line the lowest point is.
std::string placeOfLowest(const Outline& outline, const Act& act) {
    path::Sample lowest = path::sampleAt(outline.path, act.start_s);
    for (std::size_t i = path::sampleIndexAt(outline.path, act.start_s);
         i < outline.path.samples.size() && outline.path.samples[i].time_s <= act.stop_s; ++i)
        if (outline.path.samples[i].position_S_m.z < lowest.position_S_m.z)
            lowest = outline.path.samples[i];
    constexpr double kFinest_m = 50;
    const double x_m = kFinest_m * std::round(lowest.position_S_m.x / kFinest_m);
    if (x_m == 0) return "centre";
    return formatFixed(std::abs(x_m), 0) + (x_m < 0 ? " m l" : " m r");
}

std::string digits(const std::string& quantity) { return quantity.substr(0, quantity.find(' ')); }

double drawTable(Document& document, const Outline& outline, Point at, double width_mm,
                 std::size_t from, std::size_t to, double row_mm, units::DisplayUnits units) {
    const std::string height = units == units::DisplayUnits::Feet ? "ft" : "m";
    const std::string speed = units == units::DisplayUnits::Metric ? "km/h" : "kt";
    constexpr double kNumber = 5.5, kTime = 10, kWay = 7.5, kFast = 11, kLow = 11, kWhere = 13,
                     kTop = 9;
    const double name = width_mm - kNumber - kTime - kWay - kFast - kLow - kWhere - kTop;
    page::Table table(document, at,
                      {{"", kNumber, Align::Left},
                       {"figure", name, Align::Left},
                       {"from", kTime, Align::Right},
                       {"", kWay, Align::Centre},
                       {"to " + speed, kFast, Align::Right},
                       {"low, " + height, kLow, Align::Right},
                       {"where", kWhere, Align::Right},
                       {"top", kTop, Align::Right}},
                      {row_mm, 7.2, kLeast_pt});
    table.head();
    for (std::size_t i = from; i < to; ++i) {
        const Act& act = outline.acts[i];
        const page::Style style = table.style(), bold = table.style(page::Weight::SemiBold);
        table.row({{{std::to_string(act.number), bold}},
                   {{fitted(document, act.name, style, name - 1.5), style}},
                   {{units::formatTime(act.start_s), style}},
                   {},
                   {{digits(units::formatSpeed(act.fastest_mps, units)), style}},
                   {{digits(units::formatHeight(act.lowest_m, units)), bold}},
                   {{placeOfLowest(outline, act), style}},
                   {{digits(units::formatHeight(act.top_m, units)), style}}});
        const page::Box cell = table.cell(3);
        drawWay(document, act,
                {cell.x_mm + 0.5 * cell.width_mm + 0.6, cell.y_mm + 0.5 * cell.height_mm}, 4,
                0.72 * row_mm);
    }
    return table.bottom_mm() - at.y_mm;
}

/// Lines to write on, each behind its name; what is known stands on them, whole.
class Form {
public:
    Form(std::string title, std::vector<std::pair<std::string, std::string>> rows)
        : title_(std::move(title)), rows_(std::move(rows)) {}

    double height_mm(const Document& document, double width_mm) const {
        double height_mm = kTitle_mm;
        for (const auto& row : rows_) height_mm += rowHeight_mm(document, row, width_mm);
        return height_mm;
    }

    void draw(Document& document, Point at, double width_mm) const {
        document.words({at.x_mm, at.y_mm + 3.4}, {{title_, strong(9.5)}});
        double y_mm = at.y_mm + 9;
        for (const auto& row : rows_) {
            document.words({at.x_mm, y_mm}, {{row.first, plain(8)}});
            const double from_mm = at.x_mm + label_mm(document, row.first);
            const double room_mm = at.x_mm + width_mm - from_mm;
            constexpr double kBaseLine_mm = 2.935;  // of a paragraph's first line, at 8 pt
            if (row.second.empty())
                document.line({from_mm, y_mm + 0.5}, {at.x_mm + width_mm, y_mm + 0.5},
                              {0.4, page::kInk});
            else
                document.paragraph({from_mm, y_mm - kBaseLine_mm}, room_mm,
                                   {{row.second, strong(8)}});
            y_mm += rowHeight_mm(document, row, width_mm);
        }
    }

private:
    static constexpr double kTitle_mm = 6;

    static double label_mm(const Document& document, const std::string& name) {
        return std::max(24.0, document.widthOf_mm({{name, plain(8)}}) + 2);
    }
    static double rowHeight_mm(const Document& document,
                               const std::pair<std::string, std::string>& row, double width_mm) {
        constexpr double kLeast_mm = 5.6, kGap_mm = 1.76;
        const double room_mm = width_mm - label_mm(document, row.first);
        return std::max(kLeast_mm,
                        kGap_mm + document.heightOf_mm(room_mm, {{row.second, strong(8)}}));
    }

    std::string title_;
    std::vector<std::pair<std::string, std::string>> rows_;
};

std::string fieldsWords(const data::Site& site) {
    std::string words;
    if (site.runway)
        words = "runway " + site.runway->low_mark + "/" + site.runway->high_mark + ", " +
                units::formatDistance(site.runway->length_m);
    for (const data::LandingStrip& strip : site.strips)
        words +=
            (words.empty() ? "" : "; ") + strip.name + ", " + units::formatDistance(strip.length_m);
    return words;
}

}  // namespace

int drawDirectorSheet(Document& document, const Outline& outline, const variant::Flown& flown,
                      units::DisplayUnits units) {
    const data::Site& site = flown.workspace.site;
    const double left_mm = marginOf(document), width_mm = widthOf(document);
    const std::string page = pageWords(1, 1);
    double y_mm = drawHead(document, outline, "Display director\u2019s sheet", "", page);
    const std::string foot =
        "Heights above show centre, true airspeeds, times from the first radio call, as planned; l "
        "and "
        "r: left and right of centre as the crowd sees it. " +
        outline.magnetic;
    const Form radio("Radio", {{"Frequency", site.radio.frequency},
                               {"First call", site.radio.first_call},
                               {"Stop call", site.radio.stop_call},
                               {"Last call", site.radio.last_call},
                               {"Spare frequency", site.radio.spare_frequency}});
    const Form emergencies("Emergencies", {{"Break-off", site.emergency.break_off},
                                           {"To land on", fieldsWords(site)},
                                           {"Fire, rescue", site.emergency.fire_rescue},
                                           {"Other field", site.emergency.other_field},
                                           {"Crowd", site.emergency.crowd}});
    const double half_mm = 0.5 * (width_mm - 8);
    const double form_mm = 1.5 + std::max(radio.height_mm(document, half_mm),
                                          emergencies.height_mm(document, half_mm));
    const double form_top_mm = footTop(document, outline, foot) - form_mm;
    y_mm += 2;
    y_mm += document.paragraph({left_mm, y_mm}, width_mm, summary(outline, site, units)) + 3;

    const std::size_t listed = std::min(outline.acts.size(), kMostListed);
    constexpr std::size_t kOneTable = 12;
    constexpr double kBetween_mm = 5, kMostRow_mm = 5.2, kLeastRow_mm = 2.85;
    const std::size_t columns = listed > kOneTable ? 2 : 1;
    const std::size_t rows = (listed + columns - 1) / columns;
    const double least_mm = kLeastRow_mm * static_cast<double>(rows + 1) + 5;
    y_mm += drawField(document, {left_mm, y_mm}, width_mm, form_top_mm - y_mm - least_mm, outline,
                      site, units) +
            3;
    const double row_mm =
        std::min(kMostRow_mm, (form_top_mm - y_mm - 2) / static_cast<double>(rows + 1));
    const double table_mm =
        (width_mm - kBetween_mm * static_cast<double>(columns - 1)) / static_cast<double>(columns);
    for (std::size_t c = 0; c < columns; ++c)
        drawTable(document, outline,
                  {left_mm + static_cast<double>(c) * (table_mm + kBetween_mm), y_mm}, table_mm,
                  c * rows, std::min(listed, (c + 1) * rows), row_mm, units);

    document.line({left_mm, form_top_mm}, {left_mm + width_mm, form_top_mm}, {0.8, page::kInk});
    radio.draw(document, {left_mm, form_top_mm + 1.5}, half_mm);
    emergencies.draw(document, {left_mm + half_mm + 8, form_top_mm + 1.5}, half_mm);
    drawFoot(document, outline, foot, page);
    return 1;
}

}  // namespace plumbline::brief

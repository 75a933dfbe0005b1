#include "engine/brief/card.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/brief/head.h"
#include "engine/brief/small_picture.h"

namespace plumbline::brief {
namespace {

using page::Align;
using page::Document;
using page::Point;

constexpr double kLeastRow_mm = 7.3, kMostRow_mm = 15;
constexpr double kStrip_mm = 9.6;    ///< below the figures
constexpr double kColumns_mm = 5.2;  ///< their names

/// Where the columns begin or, of numbers, end.
struct Columns {
    double left, picture, name, arrow, heading_end, entry_end, gate_end;
    explicit Columns(const Document& document) {
        left = marginOf(document);
        gate_end = left + widthOf(document);
        entry_end = gate_end - 29;
        heading_end = entry_end - 14;
        arrow = heading_end - 19;
        picture = left + 9;
        name = picture + 19;
    }
};

/// Digits of a quantity without its unit, which stands over the column.
std::string digits(const std::string& quantity) { return quantity.substr(0, quantity.find(' ')); }
std::string unitOf(const std::string& quantity) {
    const std::size_t blank = quantity.find(' ');
    return blank == std::string::npos ? "" : quantity.substr(blank + 1);
}

std::string leastHeight(double height_m, units::DisplayUnits units) {
    // Rounded to the safe side in either unit.
    if (units != units::DisplayUnits::Feet)
        return units::formatHeight(check::shownLeast_m(height_m), units);
    constexpr double kFoot_m = 0.3048, kFinest_ft = 20;
    return formatFixed(std::ceil(height_m / kFoot_m / kFinest_ft) * kFinest_ft, 0) + " ft";
}

void drawColumnNames(Document& document, const Outline& outline, const Columns& x, double y_mm,
                     units::DisplayUnits units) {
    const page::Style style = quiet(kLeast_pt);
    const std::string height = unitOf(units::formatHeight(0, units));
    document.words({x.left, y_mm}, {{"time", style}});
    document.words({x.name, y_mm}, {{"figure", style}});
    document.words({x.heading_end, y_mm},
                   {{outline.declination_rad ? "heading mag" : "heading true", style}},
                   Align::Right);
    document.words({x.entry_end, y_mm}, {{"in, " + unitOf(units::formatSpeed(0, units)), style}},
                   Align::Right);
    document.words({x.gate_end, y_mm}, {{"top gate, " + height, strong(kLeast_pt)}}, Align::Right);
}

void drawRow(Document& document, const Outline& outline, const Columns& x, const Act& act,
             double top_mm, double row_mm, units::DisplayUnits units) {
    const double first_mm = top_mm + 0.5 * row_mm + 0.1, second_mm = first_mm + 2.95;
    constexpr double kUnderArrow_mm = 6;
    const page::Style small = quiet(kLeast_pt);
    document.words({x.left, first_mm}, {{std::to_string(act.number), heavy(kInFlight_pt)}});
    document.words({x.left, second_mm}, {{units::formatTime(act.start_s), small}});
    drawSmallPicture(document, {x.picture, top_mm + 0.3, 18, row_mm - 0.6}, outline.path,
                     act.start_s, act.stop_s, outline.span_m);
    const double name_mm = x.arrow - x.name - 1.5;
    page::Style name = strong(kInFlight_pt);
    // A long name is set a little smaller before it is cut.
    while (name.size_pt > 8.2 && document.widthOf_mm({{act.name, name}}) > name_mm)
        name.size_pt -= 0.2;
    document.words({x.name, first_mm}, {{fitted(document, act.name, name, name_mm), name}});
    document.words({x.name, second_mm},
                   {{fitted(document, act.note, small, name_mm + kUnderArrow_mm), small}});

    drawWay(document, act, {x.arrow + 3, first_mm - 1.3}, 6, 0.62 * row_mm);
    document.words({x.heading_end, first_mm},
                   {{bearingWords(outline, act.heading_rad, true), strong(kInFlight_pt)}},
                   Align::Right);
    if (outline.declination_rad)
        document.words({x.heading_end, second_mm},
                       {{bearingWords(outline, act.heading_rad, false) + " true", small}},
                       Align::Right);
    document.words({x.entry_end, first_mm},
                   {{digits(units::formatSpeed(act.entry_mps, units)), strong(kInFlight_pt)}},
                   Align::Right);
    document.words({x.entry_end, second_mm},
                   {{"at " + units::formatHeight(act.entry_m, units), small}}, Align::Right);
    if (!act.gate) {
        document.words({x.gate_end, first_mm}, {{"\u2013", quiet(kInFlight_pt)}}, Align::Right);
        document.words({x.gate_end, second_mm},
                       {{"lowest " + units::formatHeight(act.lowest_m, units), small}},
                       Align::Right);
        return;
    }
    const check::Gate& gate = *act.gate;
    document.words({x.gate_end, first_mm},
                   {{digits(leastHeight(gate.complete_m, units)), heavy(kGate_pt)}}, Align::Right);
    const std::string escape =
        gate.vertical ? "" : ", escape " + digits(leastHeight(gate.escape_m, units));
    document.words(
        {x.gate_end, second_mm},
        {{"top " + digits(units::formatHeight(gate.position_S_m.z, units)) + escape, small}},
        Align::Right);
}

void drawStrip(Document& document, const variant::Flown& flown, const Outline& outline,
               double top_mm, units::DisplayUnits units) {
    const data::Site& site = flown.workspace.site;
    page::Text text;
    const auto say = [&](const std::string& name, const std::string& words) {
        text.push_back({(text.empty() ? "" : "     ") + name + " ", strong(8)});
        text.push_back({words, plain(8)});
    };
    if (site.floor_m > 0) say("Floor", units::formatHeight(site.floor_m, units));
    if (site.show_line_offset_m > 0)
        say("Line", units::formatDistance(site.show_line_offset_m) + " from the crowd");
    say("Fuel", formatFixed(outline.fuel_in_l, 0) + " l in, about " +
                    formatFixed(outline.fuel_left_l, 0) + " l left");
    document.words({marginOf(document), top_mm + 3.6}, text);
    const double x_mm = marginOf(document), right_mm = x_mm + widthOf(document);
    const double base_mm = top_mm + 8.2;
    document.words({x_mm, base_mm}, {{"Break-off", strong(8)}});
    const double after_mm = x_mm + document.widthOf_mm({{"Break-off", strong(8)}}) + 2;
    const std::string& words = site.emergency.break_off;
    if (words.empty()) {
        document.line({after_mm, base_mm + 0.4}, {right_mm, base_mm + 0.4}, {0.4, page::kInk});
    } else {
        const page::Style style = plain(8);
        document.words({after_mm, base_mm},
                       {{fitted(document, words, style, right_mm - after_mm), style}});
    }
}

/// Lines to write on, where there is room.
void drawNotes(Document& document, double top_mm, double bottom_mm) {
    constexpr double kLine_mm = 8;
    if (bottom_mm - top_mm < 3 * kLine_mm) return;
    const double left_mm = marginOf(document), right_mm = left_mm + widthOf(document);
    document.words({left_mm, top_mm + 6}, {{"Notes", strong(8)}});
    for (double y_mm = top_mm + 6 + kLine_mm; y_mm < bottom_mm - 2; y_mm += kLine_mm)
        document.line({left_mm, y_mm}, {right_mm, y_mm}, {0.4, page::kHairline});
}

std::string footWords(const Outline& outline) {
    return "Gate: least height at the top to come round, rounded up; nothing added for reaction or "
           "altimeter. Escape: by half a roll. " +
           outline.magnetic;
}

double rowsHeight(const Document& document, const Outline& outline, double head_mm,
                  const std::string& foot) {
    return footTop(document, outline, foot) - kStrip_mm - head_mm - kColumns_mm;
}

/// Where the head of a small sheet ends.
constexpr double kHead_mm = 22.2;

}  // namespace

int drawCard(Document& document, const Outline& outline, const variant::Flown& flown,
             units::DisplayUnits units) {
    const int count = static_cast<int>(outline.acts.size());
    const std::string foot = footWords(outline);
    const int most =
        std::max(1, static_cast<int>(rowsHeight(document, outline, kHead_mm, foot) / kLeastRow_mm));
    const int pages = std::max(1, (count + most - 1) / most);
    const int on_page = (count + pages - 1) / pages;
    const Columns x(document);
    for (int page = 0; page < pages; ++page) {
        if (page > 0) document.newPage();
        const double head_mm = drawHead(document, outline, "Card", "", pageWords(page + 1, pages));
        drawColumnNames(document, outline, x, head_mm + kColumns_mm - 1.7, units);
        double y_mm = head_mm + kColumns_mm;
        const double row_mm = std::min(
            kMostRow_mm, rowsHeight(document, outline, head_mm, foot) / std::max(1, on_page));
        document.line({x.left, y_mm}, {x.gate_end, y_mm}, {0.7, page::kInk});
        for (int i = page * on_page; i < std::min(count, (page + 1) * on_page); ++i) {
            drawRow(document, outline, x, outline.acts[static_cast<std::size_t>(i)], y_mm, row_mm,
                    units);
            y_mm += row_mm;
            const bool third = (i + 1 - page * on_page) % 3 == 0;
            document.line({x.left, y_mm}, {x.gate_end, y_mm},
                          {third ? 0.8 : 0.4, third ? page::kInk : page::kHairline});
        }
        document.line({x.left, y_mm}, {x.gate_end, y_mm}, {1.8, page::kInk});
        drawStrip(document, flown, outline, y_mm, units);
        drawNotes(document, y_mm + kStrip_mm, footTop(document, outline, foot));
        drawFoot(document, outline, foot, pageWords(page + 1, pages));
    }
    return pages;
}

}  // namespace plumbline::brief

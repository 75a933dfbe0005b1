#include "engine/sheets/debrief_tables.h"

#include <algorithm>
#include <cmath>

#include "engine/base/measured_text.h"
#include "engine/base/number_text.h"
#include "engine/page/table.h"
#include "engine/review/line_words.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/scenes.h"
#include "engine/sheets/wording.h"
#include "engine/units/units.h"

namespace plumbline::sheets {

using page::Align;
using page::Box;
using page::Column;
using page::Document;
using page::Point;
using page::Table;
using page::TableForm;
using page::Text;
using page::Weight;

namespace {

constexpr double kJudged_rad = 2.5 * units::kDegree_rad;  // half a point: what a line is judged by
/// The number of a figure in the plan; empty: it has none.
std::string numberText(const Sortie& sortie, const std::string& figure) {
    const int number = numberInPlan(sortie, figure);
    return number > 0 ? std::to_string(number) : "";
}

constexpr double kLeft_mm = 123, kGap_mm = 4, kTitle_mm = 8;

/// As large as the room allows.
TableForm formFor(double room_mm, std::size_t rows) {
    constexpr double kLeast_mm = 3.7, kMost_mm = 5.2;  // chosen: still read at arm's length
    TableForm form;
    form.row_mm = std::clamp(room_mm / static_cast<double>(rows + 1), kLeast_mm, kMost_mm);
    form.size_pt = std::clamp(1.75 * form.row_mm, 7.0, 7.8);
    form.head_pt = 7;
    return form;
}

std::string directionOf(const review::LineMeasure& m) {
    const double degrees = m.climb_rad / units::kDegree_rad;
    if (m.vertical()) return degrees > 0 ? "up" : "down";
    return number(degrees, 0, true) + "\u00b0";
}

/// A lean on a centred scale: the value a tick, its doubt a bar.
void drawLean(Document& document, const Box& cell, double lean_rad, double doubt_rad) {
    constexpr double kEnd = 5 * units::kDegree_rad;  // chosen: a point of ten
    const double middle = cell.x_mm + 0.5 * cell.width_mm, half = 0.44 * cell.width_mm;
    const double y = cell.y_mm + 0.5 * cell.height_mm, tall = 0.3 * cell.height_mm;
    const auto x = [&](double angle) {
        return middle + std::clamp(angle / kEnd, -1.05, 1.05) * half;
    };
    document.line({middle, y - 1.35 * tall}, {middle, y + 1.35 * tall}, {0.6, page::kInk});
    for (const double end : {-kEnd, kEnd})
        document.line({x(end), y - 0.5 * tall}, {x(end), y + 0.5 * tall}, {0.4, page::kQuiet});
    if (doubt_rad > 0) {
        const double from = x(lean_rad - doubt_rad), to = x(lean_rad + doubt_rad);
        document.fill(Box{from, y - 0.62 * tall, std::max(to - from, 0.2), 1.24 * tall},
                      page::kFlownDoubt);
    }
    document.line({x(lean_rad), y - tall}, {x(lean_rad), y + tall}, {1.6, page::kFlown});
}

/// How far off a line looks from a seat: of a vertical its lean, else how much steeper.
Text seenText(const std::optional<review::Seen>& seen, const review::LineMeasure& m,
              double size_pt) {
    if (!seen) return {{"\u2013", plain(size_pt)}};
    const bool lean = m.vertical(), unsure = seen->sigma_rad > kJudged_rad / 3;
    return {{within((lean ? seen->from_vertical_rad : seen->steeper_rad()) / units::kDegree_rad,
                    2 * seen->sigma_rad / units::kDegree_rad, 1, !lean),
             unsure ? quiet(size_pt) : plain(size_pt)}};
}

/// Metres before and after a line's rolls, and those of the plan.
Text aroundRolls(const review::Review::Line& line, const Table& table) {
    const review::LineMeasure& m = line.measure;
    if (m.before_roll_m + m.after_roll_m <= 0) return {{"", table.style()}};
    const double doubt_m = 2 * m.beside_roll_sigma_m;
    Text text = {
        {valueText(m.before_roll_m, doubt_m, {0}) + "/" + within(m.after_roll_m, doubt_m, 0),
         table.style()}};
    if (line.planned_before_roll_m + line.planned_after_roll_m > 0)
        text.push_back({" (" + number(line.planned_before_roll_m, 0) + "/" +
                            number(line.planned_after_roll_m, 0) + ")",
                        quiet(table.style().size_pt)});
    return text;
}

/// Lines from one on, as many as there is room for.
/// @return the first that found none
std::size_t drawLines(Document& document, const Sortie& sortie, std::size_t first, double top_mm,
                      double room_mm) {
    const auto& lines = sortie.review->lines;
    drawTitle(document, {kMargin_mm, top_mm + 4}, "Lines", "zero-lift axis; degrees");
    const TableForm form = formFor(room_mm - kTitle_mm, lines.size() - first);
    Table table(document, {kMargin_mm, top_mm + 5},
                {{"", 5, Align::Left},
                 {"figure", 15, Align::Left},
                 {"line", 9.5, Align::Left},
                 {"lean", 8.5, Align::Centre},
                 {"to canopy", 15.5, Align::Right},
                 {"right", 7.5, Align::Right},
                 {"judge", 14.5, Align::Right},
                 {"crowd", 14.5, Align::Right},
                 {"roll, m (plan)", 33, Align::Right}},
                form);
    table.head();
    std::size_t i = first;
    const double end_mm = top_mm + room_mm;
    for (; i < lines.size() && table.bottom_mm() + form.row_mm <= end_mm; ++i) {
        const review::Review::Line& line = lines[i];
        const review::LineMeasure& m = line.measure;
        const double doubt = 2 * m.sigma_rad / units::kDegree_rad;
        const bool unsure = m.sigma_rad > kJudged_rad / 3;
        page::Style value = table.style(Weight::SemiBold);
        if (unsure) value = quiet(value.size_pt);
        table.row({{{numberText(sortie, line.figure), table.style()}},
                   {{line.figure, table.style()}},
                   {{directionOf(m), table.style()}},
                   {},
                   {{within(m.pitch_rad / units::kDegree_rad, doubt, 1, true), value}},
                   {{valueText(m.yaw_rad / units::kDegree_rad, doubt, {1, true}), value}},
                   seenText(line.from_judge, m, value.size_pt),
                   seenText(line.from_crowd, m, value.size_pt),
                   aroundRolls(line, table)});
        drawLean(document, table.cell(3), m.pitch_rad, 2 * m.sigma_rad);
    }
    return i;
}

double drawBottom(Document& document, const Sortie& sortie, double foot_mm) {
    constexpr double kLoads_mm = 36, kNotes_mm = 17, kLast_mm = 27;
    const double last_mm = sortie.last.empty() ? 0 : kLast_mm;
    const double top_mm = foot_mm - kLoads_mm - kNotes_mm - last_mm;
    const review::LoadBook book = review::loadBookOf(*sortie.flight);
    const data::AircraftLimits& limits = sortie.workspace->aircraft.limits;
    const double width_mm = document.size().width_mm - 2 * kMargin_mm;
    drawTitle(document, {kMargin_mm, top_mm + 3}, "Load, g",
              "most " + within(book.most_g, 2 * book.most_sigma_g, 1, true) + ", least " +
                  within(book.least_g, 2 * book.least_sigma_g, 1, true) + "; limits " +
                  number(limits.load_max_g, 1, true) + " and " +
                  number(limits.load_min_g, 1, true) + " dotted");
    drawLoads(document, {kMargin_mm, top_mm + 5.5, width_mm, kLoads_mm - 6}, sortie);
    if (!sortie.last.empty())
        drawLast(document, {kMargin_mm, top_mm + kLoads_mm + 2, width_mm, kLast_mm - 3}, sortie);
    std::string notes =
        "\u00b1 holds 95 of 100 errors that the recording tells of; grey: not sure enough to "
        "judge. "
        "Tables without room for all rows are whole in the CSV files beside this one. "
        "Lines: the zero-lift axis against vertical or 45\u00b0, wind left out; right: as surely "
        "as to "
        "canopy; judge, crowd: how "
        "far off it looks from there, other lines than verticals: how much steeper than a true "
        "one; roll: metres before and after, the plan\u2019s behind. Points of ten: " +
        withSigns(review::deductionWords(sortie.review->points_for_5_deg)) + ". ";
    for (const std::vector<std::string>* list : {&sortie.review->notes, &sortie.notes})
        for (const std::string& note : *list) {
            notes += withSigns(note);
            notes += !note.empty() && note.back() == '.' ? " " : ". ";
        }
    document.paragraph({kMargin_mm, foot_mm - kNotes_mm + 2}, width_mm, {{notes, quiet(7)}});
    return top_mm;
}

}  // namespace

void drawTablePages(Document& document, const Sortie& sortie, const std::string& revision,
                    int pages) {
    const double foot_mm = footTop(document);
    std::size_t next = 0, table = 0;
    const std::size_t lines = sortie.review->lines.size();
    for (bool first = true; first || next < lines || table > 0; first = false) {
        document.newPage();
        const double top_mm =
            drawHead(document, {"Lines, loops, rolls, slides", sortie.workspace->routine.name,
                                sortie.start_utc.empty() ? "no date in the recording"
                                                         : dayAndTime(sortie.start_utc),
                                "aircraft " + sortie.workspace->aircraft.name}) +
            4;
        const double end_mm = first ? drawBottom(document, sortie, foot_mm) : foot_mm;
        if (next < lines) next = drawLines(document, sortie, next, top_mm, end_mm - top_mm - 3);
        if (first || table > 0)
            table = drawRightColumn(document, sortie, table,
                                    {kMargin_mm + kLeft_mm + kGap_mm, top_mm,
                                     document.size().width_mm - 2 * kMargin_mm - kLeft_mm - kGap_mm,
                                     end_mm - 3 - top_mm});
        drawFoot(document, revision, document.pages(), pages);
    }
}

}  // namespace plumbline::sheets

#include "engine/sheets/debrief_tables.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/page/table.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/scenes.h"
#include "engine/sheets/wording.h"

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

constexpr double kDegree = kPi / 180;
constexpr double kJudged_rad = 2.5 * kDegree;  // half a point: what a line is judged by
constexpr double kLeft_mm = 114, kGap_mm = 4.5, kTitle_mm = 8;

/// As large as the room allows.
TableForm formFor(double room_mm, std::size_t rows) {
    constexpr double kLeast_mm = 3.7, kMost_mm = 5.2;  // chosen: still read at arm's length
    TableForm form;
    form.row_mm = std::clamp(room_mm / static_cast<double>(rows + 1), kLeast_mm, kMost_mm);
    form.size_pt = std::clamp(1.75 * form.row_mm, 7.0, 7.8);
    form.head_pt = 7;
    return form;
}

std::string numbered(const Sortie& sortie, const std::string& figure) {
    const int number = numberInPlan(sortie, figure);
    return number > 0 ? std::to_string(number) : "";
}

std::string directionOf(const review::LineMeasure& m) {
    const double degrees = m.climb_rad / kDegree;
    if (m.vertical()) return degrees > 0 ? "up" : "down";
    return number(std::fabs(degrees), 0) + "\u00b0 " + (degrees > 0 ? "up" : "down");
}

/// A lean on a centred scale: the value a tick, its doubt a bar.
void drawLean(Document& document, const Box& cell, double lean_rad, double doubt_rad) {
    constexpr double kEnd = 5 * kDegree;  // chosen: a point of ten
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

/// Lines from one on, as many as there is room for.
/// @return the first that found none
std::size_t drawLines(Document& document, const Sortie& sortie, std::size_t first, double top_mm,
                      double room_mm) {
    const auto& lines = sortie.review->lines;
    drawTitle(document, {kMargin_mm, top_mm + 4}, "Lines", "zero-lift axis; degrees");
    const TableForm form = formFor(room_mm - kTitle_mm, lines.size() - first);
    Table table(document, {kMargin_mm, top_mm + 5},
                {{"", 5, Align::Left},
                 {"figure", 26, Align::Left},
                 {"line", 15, Align::Left},
                 {"wheels | canopy", 22, Align::Centre},
                 {"to canopy", 14, Align::Right},
                 {"to right", 11, Align::Right},
                 {"\u00b1", 6, Align::Right},
                 {"roll, m", 15, Align::Right}},
                form);
    table.head();
    std::size_t i = first;
    const double end_mm = top_mm + room_mm;
    for (; i < lines.size() && table.bottom_mm() + form.row_mm <= end_mm; ++i) {
        const review::LineMeasure& m = lines[i].measure;
        const double doubt = 2 * m.sigma_rad / kDegree;
        const bool unsure = m.sigma_rad > kJudged_rad / 3;
        const bool told = m.sigma_rad > 0;
        const int decimals = decimalsFor(doubt, 1);
        page::Style value = table.style(Weight::SemiBold);
        if (unsure) value = quiet(value.size_pt);
        const bool rolls = m.before_roll_m + m.after_roll_m > 0;
        table.row(
            {{{numbered(sortie, lines[i].figure), table.style()}},
             {{lines[i].figure, table.style()}},
             {{directionOf(m), table.style()}},
             {},
             {{number(m.pitch_rad / kDegree, decimals, true), value}},
             {{number(m.yaw_rad / kDegree, decimals, true), value}},
             {{told ? formatFixed(std::max(doubt, std::pow(10, -decimals)), decimals) : "\u2013",
               table.style()}},
             {{rolls ? number(m.before_roll_m, 0) + " / " + number(m.after_roll_m, 0) : "",
               table.style()}}});
        drawLean(document, table.cell(3), m.pitch_rad, 2 * m.sigma_rad);
    }
    return i;
}

class RightColumn {
public:
    RightColumn(Document& document, const Sortie& sortie, double top_mm, double end_mm)
        : document_(document),
          sortie_(sortie),
          x_mm_(kMargin_mm + kLeft_mm + kGap_mm),
          width_mm_(document.size().width_mm - kMargin_mm - x_mm_),
          y_mm_(top_mm),
          end_mm_(end_mm) {}

    void draw() {
        drawArcs();
        drawSlides();
        drawPivots();
        // What is left is shared: least heights first, rolls after them.
        const double left_mm = end_mm_ - y_mm_;
        const auto rows = static_cast<int>((left_mm - 2 * (kTitle_mm + kRow_mm)) / kRow_mm);
        const int rolls = static_cast<int>(sortie_.review->rolls.size());
        const int heights = static_cast<int>(sortie_.review->figures.size());
        const int for_rolls = std::min(rolls, std::max(rows / 2, rows - heights));
        drawHeightRows(std::min(heights, rows - for_rolls));
        drawRolls(for_rolls);
    }

private:
    static constexpr double kRow_mm = 4.1;

    Table begin(const std::string& title, const std::string& beside, std::vector<Column> columns) {
        drawTitle(document_, {x_mm_, y_mm_ + 4}, title, beside);
        double rest = width_mm_;
        for (const Column& column : columns) rest -= column.width_mm;
        for (Column& column : columns)
            if (column.width_mm == 0) column.width_mm = rest;
        Table table(document_, {x_mm_, y_mm_ + 5}, std::move(columns), {kRow_mm, 7.2, 7});
        table.head();
        return table;
    }
    static page::Style bold(const Table& table) { return table.style(Weight::SemiBold); }
    void end(const Table& table) { y_mm_ = table.bottom_mm() + 3; }
    double placeDoubt(const std::string& figure) const {
        for (const review::FigureReview& f : sortie_.review->figures)
            if (f.name == figure) return 2 * f.place_sigma_m;
        return 0;
    }

    void drawArcs() {
        if (sortie_.review->arcs.empty()) return;
        Table table = begin("Loops", "half and more",
                            {{"", 5, Align::Left},
                             {"figure", 0, Align::Left},
                             {"radius, m", 13, Align::Right},
                             {"plan", 7, Align::Right},
                             {"unround", 11, Align::Right},
                             {"seen", 8, Align::Right}});
        const auto percent = [](double share) { return number(100 * share, 0) + " %"; };
        for (const review::Review::Arc& arc : sortie_.review->arcs)
            table.row({{{numbered(sortie_, arc.figure), table.style()}},
                       {{arc.figure, table.style()}},
                       {{within(arc.flown.radius_m, placeDoubt(arc.figure), 0), bold(table)}},
                       {{number(arc.planned.radius_m, 0), table.style()}},
                       {{percent(arc.flown.unround), table.style()}},
                       {{arc.flown.seen_unround ? percent(*arc.flown.seen_unround) : "\u2013",
                         table.style()}}});
        end(table);
    }

    void drawSlides() {
        if (sortie_.review->slides.empty()) return;
        Table table = begin("Slides", "plan beside",
                            {{"", 5, Align::Left},
                             {"figure", 0, Align::Left},
                             {"way, m", 14, Align::Right},
                             {"", 8, Align::Right},
                             {"tail first", 12, Align::Right},
                             {"", 11, Align::Right}});
        for (const review::SlideReview& slide : sortie_.review->slides)
            table.row(
                {{{numbered(sortie_, slide.figure), table.style()}},
                 {{slide.figure, table.style()}},
                 {{within(slide.way_m.flown, placeDoubt(slide.figure), 0), bold(table)}},
                 {{number(slide.way_m.planned, 0), table.style()}},
                 {{units::formatSpeed(slide.fastest_mps.flown, sortie_.units), bold(table)}},
                 {{units::formatSpeed(slide.fastest_mps.planned, sortie_.units), table.style()}}});
        end(table);
    }

    void drawPivots() {
        if (sortie_.review->pivots.empty()) return;
        Table table = begin("Pivots", "half spans aside, wind included",
                            {{"", 5, Align::Left},
                             {"figure", 0, Align::Left},
                             {"aside", 14, Align::Right},
                             {"plan", 9, Align::Right}});
        const double half_span = 0.5 * sortie_.workspace->aircraft.geometry.span_m;
        for (const review::Review::Pivot& pivot : sortie_.review->pivots)
            table.row({{{numbered(sortie_, pivot.figure), table.style()}},
                       {{pivot.figure, table.style()}},
                       {{within(pivot.half_spans.flown,
                                half_span > 0 ? placeDoubt(pivot.figure) / half_span : 0, 1),
                         bold(table)}},
                       {{number(pivot.half_spans.planned, 1), table.style()}}});
        end(table);
    }

    void drawHeightRows(int count) {
        if (count <= 0) return;
        std::vector<const review::FigureReview*> figures;
        for (const review::FigureReview& f : sortie_.review->figures) figures.push_back(&f);
        const bool all = count >= static_cast<int>(figures.size());
        if (!all) {
            std::stable_sort(figures.begin(), figures.end(), [](const auto* a, const auto* b) {
                return a->lowest_m.flown < b->lowest_m.flown;
            });
            figures.resize(static_cast<std::size_t>(count));
        }
        const bool feet = sortie_.units == units::DisplayUnits::Feet;
        const double unit = feet ? 0.3048 : 1;
        Table table = begin(all ? "Least heights and times" : "Lowest figures",
                            all ? "" : "all in figures.csv",
                            {{"", 5, Align::Left},
                             {"figure", 0, Align::Left},
                             {feet ? "least, ft" : "least, m", 15, Align::Right},
                             {"plan", 9, Align::Right},
                             {"late, s", 11, Align::Right}});
        for (const review::FigureReview* f : figures)
            table.row({{{numbered(sortie_, f->name), table.style()}},
                       {{f->name, table.style()}},
                       {{within(f->lowest_m.flown / unit, 2 * f->place_sigma_m / unit, 0),
                         table.style(Weight::SemiBold)}},
                       {{number(f->lowest_m.planned / unit, 0), table.style()}},
                       {{number(f->late_s, 1, true), table.style()}}});
        end(table);
    }

    void drawRolls(int count) {
        if (count <= 0) return;
        std::vector<const review::Review::RolledLine*> rolls;
        for (const review::Review::RolledLine& r : sortie_.review->rolls) rolls.push_back(&r);
        const auto over = [](const review::Review::RolledLine* r) {
            return std::fabs(r->measure.angle_rad) - std::fabs(r->measure.planned_rad);
        };
        const bool all = count >= static_cast<int>(rolls.size());
        if (!all) {
            std::stable_sort(rolls.begin(), rolls.end(), [&](const auto* a, const auto* b) {
                return std::fabs(over(a)) > std::fabs(over(b));
            });
            rolls.resize(static_cast<std::size_t>(count));
        }
        Table table = begin(all ? "Rolls" : "Rolls furthest off", all ? "" : "all in rolls.csv",
                            {{"", 5, Align::Left},
                             {"figure", 0, Align::Left},
                             {"plan", 9, Align::Right},
                             {"too far by", 17, Align::Right},
                             {"a second", 12, Align::Right}});
        for (const review::Review::RolledLine* r : rolls) {
            const review::RollMeasure& m = r->measure;
            table.row({{{numbered(sortie_, r->figure), table.style()}},
                       {{r->figure, table.style()}},
                       {{number(std::fabs(m.planned_rad) / kDegree, 0) + "\u00b0", table.style()}},
                       {{within(over(r) / kDegree, 2 * m.sigma_rad / kDegree, 1, true) + "\u00b0",
                         table.style(Weight::SemiBold)}},
                       {{number(std::fabs(m.rate_radps) / kDegree, 0) + "\u00b0", table.style()}}});
        }
        end(table);
    }

    Document& document_;
    const Sortie& sortie_;
    double x_mm_, width_mm_, y_mm_, end_mm_;
};

double drawBottom(Document& document, const Sortie& sortie, double foot_mm) {
    constexpr double kLoads_mm = 36, kNotes_mm = 14;
    const double top_mm = foot_mm - kLoads_mm - kNotes_mm;
    const review::LoadBook book = review::loadBookOf(*sortie.flight);
    const data::AircraftLimits& limits = sortie.workspace->aircraft.limits;
    const double width_mm = document.size().width_mm - 2 * kMargin_mm;
    drawTitle(document, {kMargin_mm, top_mm + 3}, "Load, g",
              "most " + number(book.most_g, 1, true) + ", least " + number(book.least_g, 1, true) +
                  "; limits " + number(limits.load_max_g, 1, true) + " and " +
                  number(limits.load_min_g, 1, true) + " dotted");
    drawLoads(document, {kMargin_mm, top_mm + 5.5, width_mm, kLoads_mm - 6}, sortie);
    std::string notes =
        "\u00b1 holds 95 of 100 errors that the recording tells of; grey: not sure enough to "
        "judge. "
        "Lines: the zero-lift axis against vertical or 45\u00b0, wind left out; roll: metres "
        "before and "
        "after. Published deduction: one point of ten each 5\u00b0 (BAeA judging notes, CIVA "
        "criteria). ";
    for (const std::string& note : sortie.review->notes) notes += withSigns(note) + ". ";
    for (const std::string& note : sortie.notes) notes += withSigns(note) + ". ";
    document.paragraph({kMargin_mm, foot_mm - kNotes_mm + 2}, width_mm, {{notes, quiet(7)}});
    return top_mm;
}

}  // namespace

void drawTablePages(Document& document, const Sortie& sortie, const std::string& revision,
                    int pages) {
    const double foot_mm = footTop(document);
    std::size_t next = 0;
    const std::size_t lines = sortie.review->lines.size();
    for (bool first = true; first || next < lines; first = false) {
        document.newPage();
        const double top_mm =
            drawHead(document, {"Lines, loops, rolls, slides", sortie.workspace->routine.name,
                                sortie.start_utc.empty() ? "no date in the recording"
                                                         : dayAndTime(sortie.start_utc),
                                "aircraft " + sortie.workspace->aircraft.name}) +
            4;
        const double end_mm = first ? drawBottom(document, sortie, foot_mm) : foot_mm;
        if (next < lines) next = drawLines(document, sortie, next, top_mm, end_mm - top_mm - 3);
        if (first) RightColumn(document, sortie, top_mm, end_mm - 3).draw();
        drawFoot(document, revision, document.pages(), pages);
    }
}

}  // namespace plumbline::sheets

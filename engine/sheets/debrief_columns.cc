// The right column of the debrief's numbers: loops, slides, pivots, spins, tops, heights, rolls.

#include <algorithm>
#include <cmath>

#include "engine/page/table.h"
#include "engine/sheets/debrief_tables.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/scenes.h"
#include "engine/sheets/wording.h"
#include "engine/units/least_height.h"
#include "engine/units/units.h"

namespace plumbline::sheets {

using page::Align;
using page::Box;
using page::Column;
using page::Document;
using page::Table;
using page::Weight;

namespace {

constexpr double kTitle_mm = 8;

std::string numbered(const Sortie& sortie, const std::string& figure) {
    const int number = numberInPlan(sortie, figure);
    return number > 0 ? std::to_string(number) : "";
}

class RightColumn {
public:
    RightColumn(Document& document, const Sortie& sortie, const Box& box)
        : document_(document),
          sortie_(sortie),
          x_mm_(box.x_mm),
          width_mm_(box.width_mm),
          y_mm_(box.y_mm),
          end_mm_(box.bottom_mm()) {}

    void draw() {
        drawArcs();
        drawSlides();
        drawPivots();
        drawTurnings();
        drawTops();
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
                             {"way, m", 13, Align::Right},
                             {"", 7, Align::Right},
                             {"tail first", 11, Align::Right},
                             {"", 10, Align::Right}});
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

    void drawTurnings() {
        if (sortie_.review->turnings.empty()) return;
        Table table = begin("Spins and tumbles", "plan beside",
                            {{"", 5, Align::Left},
                             {"figure", 0, Align::Left},
                             {"turns", 7, Align::Right},
                             {"", 6, Align::Right},
                             {"stop off by", 14, Align::Right},
                             {"height, m", 13, Align::Right}});
        for (const review::Review::Turning& t : sortie_.review->turnings)
            table.row(
                {{{numbered(sortie_, t.figure), table.style()}},
                 {{t.figure, table.style()}},
                 {{number(t.flown.turns, 1), bold(table)}},
                 {{number(t.planned.turns, 1), table.style()}},
                 {{t.too_far_rad
                       ? within(*t.too_far_rad / units::kDegree_rad,
                                2 * t.flown.heading_sigma_rad / units::kDegree_rad, 0, true) +
                             "\u00b0"
                       : "",
                   table.style()}},
                 {{within(t.flown.height_lost_m, 2 * t.flown.height_sigma_m, 0), bold(table)}}});
        end(table);
    }

    /// The tops that are nearest to their gates, or below them.
    void drawTops() {
        std::vector<const review::TopReview*> tops;
        for (const review::TopReview& top : sortie_.review->tops) tops.push_back(&top);
        if (tops.empty()) return;
        constexpr std::size_t kMost = 5;  // chosen: what is under them needs its room
        const bool all = tops.size() <= kMost;
        if (!all) {
            std::stable_sort(tops.begin(), tops.end(), [](const auto* a, const auto* b) {
                return a->height_m.flown - a->gate_m < b->height_m.flown - b->gate_m;
            });
            tops.resize(kMost);
        }
        const bool feet = sortie_.units == units::DisplayUnits::Feet;
        const double unit = feet ? 0.3048 : 1;
        Table table = begin(all ? "Tops and their gates" : "Tops nearest a gate",
                            all ? "" : "all in tops.csv",
                            {{"", 5, Align::Left},
                             {"figure", 0, Align::Left},
                             {feet ? "top, ft" : "top, m", 15, Align::Right},
                             {"plan", 9, Align::Right},
                             {"gate", 11, Align::Right}});
        for (const review::TopReview* top : tops)
            table.row(
                {{{numbered(sortie_, top->figure), table.style()}},
                 {{top->figure, table.style()}},
                 {{within(top->height_m.flown / unit, 2 * top->sigma_m / unit, 0), bold(table)}},
                 {{number(top->height_m.planned / unit, 0), table.style()}},
                 {{number(feet ? units::leastHeight_ft(top->gate_m) : top->gate_m, 0),
                   table.style()}}});
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
                       {{number(std::fabs(m.planned_rad) / units::kDegree_rad, 0) + "\u00b0",
                         table.style()}},
                       {{within(over(r) / units::kDegree_rad, 2 * m.sigma_rad / units::kDegree_rad,
                                1, true) +
                             "\u00b0",
                         table.style(Weight::SemiBold)}},
                       {{number(std::fabs(m.rate_radps) / units::kDegree_rad, 0) + "\u00b0",
                         table.style()}}});
        }
        end(table);
    }

    Document& document_;
    const Sortie& sortie_;
    double x_mm_, width_mm_, y_mm_, end_mm_;
};

}  // namespace

void drawRightColumn(Document& document, const Sortie& sortie, const Box& box) {
    RightColumn(document, sortie, box).draw();
}

}  // namespace plumbline::sheets

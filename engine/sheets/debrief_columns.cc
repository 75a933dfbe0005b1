// The right column of the debrief's numbers: loops, slides, pivots, spins, tops, heights, rolls.
// What has no room is ranked, and the rest said to be in its table file; what has none at all goes
// on to the next page.

#include <algorithm>
#include <cmath>

#include "engine/page/table.h"
#include "engine/sheets/debrief_tables.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/scenes.h"
#include "engine/sheets/wording.h"
#include "engine/units/least_height.h"
#include "engine/units/measured.h"
#include "engine/units/units.h"

namespace plumbline::sheets {

using page::Align;
using page::Box;
using page::Column;
using page::Document;
using page::Table;
using page::Text;

namespace {

constexpr double kTitle_mm = 5, kRow_mm = 4.1, kGap_mm = 3;
constexpr int kFewest = 2;  // chosen: rows that a table is worth its head for

std::string numbered(const Sortie& sortie, const std::string& figure) {
    const int number = numberInPlan(sortie, figure);
    return number > 0 ? std::to_string(number) : "";
}

/// A row with how far up it belongs where not all have room.
struct Row {
    double weight = 0;
    std::vector<Text> cells;
};

struct Numbers {
    std::string title, ranked, beside;  ///< ranked: its name where not all are there
    std::vector<Column> columns;
    std::vector<Row> rows;
};

class Collector {
public:
    explicit Collector(const Sortie& sortie) : sortie_(sortie), review_(*sortie.review) {}

    std::vector<Numbers> all() {
        addArcs();
        addSlides();
        addPivots();
        addTurnings();
        addTops();
        addHeights();
        addRolls();
        std::erase_if(tables_, [](const Numbers& n) { return n.rows.empty(); });
        return std::move(tables_);
    }

private:
    static constexpr double kSize_pt = 7.2;
    static Text plainly(const std::string& words) { return {{words, plain(kSize_pt)}}; }
    static Text boldly(const std::string& words) { return {{words, strong(kSize_pt)}}; }
    bool feet() const { return sortie_.units == units::DisplayUnits::Feet; }
    std::string height(double height_m, double sigma_m) const {
        return units::measuredHeight(height_m, 2 * sigma_m, sortie_.units, Signs::Typeset).number;
    }
    std::string speed(double mps, double sigma_mps) const {
        return units::measuredSpeed(mps, 2 * sigma_mps, sortie_.units, Signs::Typeset).number;
    }
    /// The figure's two cells before the others.
    Row& add(double weight, const std::string& figure, std::vector<Text> rest) {
        Row row{weight, {plainly(numbered(sortie_, figure)), plainly(figure)}};
        for (Text& cell : rest) row.cells.push_back(std::move(cell));
        return tables_.back().rows.emplace_back(std::move(row));
    }
    void begin(Numbers numbers) {
        numbers.columns.insert(numbers.columns.begin(),
                               {Column{"", 5, Align::Left}, Column{"figure", 0, Align::Left}});
        tables_.push_back(std::move(numbers));
    }

    void addArcs() {
        begin({"Loops",
               "Loops least round",
               "half and more",
               {{"radius, m", 12.5, Align::Right},
                {"plan", 6.5, Align::Right},
                {"unround", 12.5, Align::Right},
                {"seen", 12, Align::Right}},
               {}});
        const auto percent = [](double share, double sigma) {
            return within(100 * share, 200 * sigma, 0) + " %";
        };
        for (const review::Review::Arc& arc : review_.arcs) {
            const review::ArcMeasure& m = arc.flown;
            add(m.unround, arc.figure,
                {boldly(within(m.radius_m, 2 * m.radius_sigma_m, 0)),
                 plainly(number(arc.planned.radius_m, 0)),
                 plainly(percent(m.unround, m.unround_sigma)),
                 plainly(m.seen_unround ? percent(*m.seen_unround, m.seen_sigma) : "\u2013")});
        }
    }

    void addSlides() {
        const bool metric = sortie_.units == units::DisplayUnits::Metric;
        begin({"Slides",
               "Slides furthest off",
               "plan beside",
               {{feet() ? "way, ft" : "way, m", 13, Align::Right},
                {"", 7, Align::Right},
                {metric ? "back, km/h" : "back, kt", 13, Align::Right},
                {"", 7, Align::Right}},
               {}});
        for (const review::SlideReview& s : review_.slides)
            add(std::fabs(s.way_m.flown - s.way_m.planned), s.figure,
                {boldly(height(s.way_m.flown, s.way_sigma_m)), plainly(height(s.way_m.planned, 0)),
                 boldly(speed(s.fastest_mps.flown, s.fastest_sigma_mps)),
                 plainly(speed(s.fastest_mps.planned, 0))});
    }

    void addPivots() {
        begin({"Pivots",
               "Pivots furthest aside",
               "half spans aside, wind included",
               {{"aside", 14, Align::Right}, {"plan", 9, Align::Right}},
               {}});
        for (const review::Review::Pivot& p : review_.pivots)
            add(p.half_spans.flown, p.figure,
                {boldly(within(p.half_spans.flown, 2 * p.sigma, 1)),
                 plainly(number(p.half_spans.planned, 1))});
    }

    void addTurnings() {
        begin({"Spins and tumbles",
               "Spins furthest off",
               "plan beside",
               {{"turns", 11, Align::Right},
                {"", 5, Align::Right},
                {"stop off by", 13, Align::Right},
                {feet() ? "height, ft" : "height, m", 13, Align::Right}},
               {}});
        for (const review::Review::Turning& t : review_.turnings)
            add(std::fabs(t.too_far_rad.value_or(0)), t.figure,
                {boldly(within(t.flown.turns, 2 * t.flown.turns_sigma, 1)),
                 plainly(number(t.planned.turns, 1)),
                 plainly(t.too_far_rad
                             ? within(*t.too_far_rad / units::kDegree_rad,
                                      2 * t.flown.heading_sigma_rad / units::kDegree_rad, 0, true) +
                                   "\u00b0"
                             : ""),
                 boldly(height(t.flown.height_lost_m, t.flown.height_sigma_m))});
    }

    void addTops() {
        begin({"Tops and their gates",
               "Tops by gate",
               "",
               {{feet() ? "top, ft" : "top, m", 15, Align::Right},
                {"plan", 9, Align::Right},
                {"gate", 11, Align::Right}},
               {}});
        for (const review::TopReview& top : review_.tops)
            add(top.gate_m - top.height_m.flown, top.figure,
                {boldly(height(top.height_m.flown, top.sigma_m)),
                 plainly(height(top.height_m.planned, 0)),
                 plainly(number(feet() ? units::leastHeight_ft(top.gate_m) : top.gate_m, 0))});
    }

    void addHeights() {
        begin({"Least heights and times",
               "Lowest figures",
               "",
               {{feet() ? "least, ft" : "least, m", 15, Align::Right},
                {"plan", 8, Align::Right},
                {"late, s", 14, Align::Right}},
               {}});
        for (const review::FigureReview& f : review_.figures)
            add(-f.lowest_m.flown, f.name,
                {boldly(height(f.lowest_m.flown, f.place_sigma_m)),
                 plainly(height(f.lowest_m.planned, 0)),
                 plainly(within(f.late_s, 2 * f.late_sigma_s, 1, true))});
    }

    void addRolls() {
        begin({"Rolls",
               "Rolls furthest off",
               "",
               {{"plan", 8, Align::Right},
                {"too far by", 15, Align::Right},
                {"a second", 14, Align::Right}},
               {}});
        const auto degrees = [](double angle_rad, double sigma_rad, bool plus) {
            return within(angle_rad / units::kDegree_rad, 2 * sigma_rad / units::kDegree_rad,
                          plus ? 1 : 0, plus) +
                   "\u00b0";
        };
        for (const review::Review::RolledLine& r : review_.rolls) {
            const review::RollMeasure& m = r.measure;
            const double over_rad = std::fabs(m.angle_rad) - std::fabs(m.planned_rad);
            add(std::fabs(over_rad), r.figure,
                {plainly(degrees(std::fabs(m.planned_rad), 0, false)),
                 boldly(degrees(over_rad, m.sigma_rad, true)),
                 plainly(degrees(std::fabs(m.rate_radps), m.rate_sigma_radps, false))});
        }
    }

    const Sortie& sortie_;
    const review::Review& review_;
    std::vector<Numbers> tables_;
};

/// Rows for each of some tables: one to each in turn until all is given away.
std::vector<std::size_t> share(const std::vector<Numbers>& tables, std::size_t first,
                               std::size_t last, std::size_t rows) {
    std::vector<std::size_t> out(last - first, 0);
    for (bool given = true; given;) {
        given = false;
        for (std::size_t i = first; i < last && rows > 0; ++i) {
            if (out[i - first] >= tables[i].rows.size()) continue;
            ++out[i - first];
            --rows;
            given = true;
        }
    }
    return out;
}

double drawNumbers(Document& document, Numbers numbers, std::size_t count, const Box& box) {
    const std::size_t all = numbers.rows.size();
    if (count < all) {
        std::stable_sort(numbers.rows.begin(), numbers.rows.end(),
                         [](const Row& a, const Row& b) { return a.weight > b.weight; });
        numbers.title = numbers.ranked;
        numbers.beside = std::to_string(count) + " of " + std::to_string(all) + ", all as CSV";
    }
    drawTitle(document, {box.x_mm, box.y_mm + 4}, numbers.title, numbers.beside);
    double rest = box.width_mm;
    for (const Column& column : numbers.columns) rest -= column.width_mm;
    for (Column& column : numbers.columns)
        if (column.width_mm == 0) column.width_mm = rest;
    Table table(document, {box.x_mm, box.y_mm + kTitle_mm}, numbers.columns, {kRow_mm, 7.2, 7});
    table.head();
    for (std::size_t i = 0; i < count; ++i) table.row(numbers.rows[i].cells);
    return table.bottom_mm() + kGap_mm;
}

}  // namespace

std::size_t drawRightColumn(Document& document, const Sortie& sortie, std::size_t first,
                            const Box& box) {
    const std::vector<Numbers> tables = Collector(sortie).all();
    constexpr double kHead_mm = kTitle_mm + kRow_mm + kGap_mm;
    // As many tables as have room for their heads and a few rows each.
    std::size_t last = first;
    double least_mm = 0;
    while (last < tables.size()) {
        const auto few = std::min<std::size_t>(kFewest, tables[last].rows.size());
        least_mm += kHead_mm + static_cast<double>(few) * kRow_mm;
        if (least_mm > box.height_mm && last > first) break;
        ++last;
    }
    const double left_mm = box.height_mm - static_cast<double>(last - first) * kHead_mm;
    const auto rows = static_cast<std::size_t>(std::max(left_mm / kRow_mm, 1.0));
    const std::vector<std::size_t> counts = share(tables, first, last, rows);
    double y_mm = box.y_mm;
    for (std::size_t i = first; i < last; ++i)
        y_mm = drawNumbers(document, tables[i], counts[i - first],
                           {box.x_mm, y_mm, box.width_mm, box.bottom_mm() - y_mm});
    return last < tables.size() ? last : 0;
}

}  // namespace plumbline::sheets

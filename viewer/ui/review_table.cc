// The open figure of a reviewed flight: measured, plan, flown.

#include <algorithm>
#include <cmath>
#include <vector>

#include "engine/base/measured_text.h"
#include "engine/base/number_text.h"
#include "engine/units/measured.h"
#include "engine/units/units.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/review_parts.h"
#include "viewer/ui/sheet_parts.h"

namespace plumbline::ui {
namespace {

struct TableLine {
    std::string name, planned, flown;
    double time_s = -1;  ///< below 0: of no moment
    bool sure = true;
};

std::string degreesOf(double angle_rad, double within_rad) {
    return measuredText(angle_rad / units::kDegree_rad, within_rad / units::kDegree_rad, {1}) +
           "\u00B0";
}

/// A height or a length with what it may be off.
class Table {
public:
    Table(const PanelInput& in, const review::FigureReview& figure)
        : units_(in.model.session.units),
          review_(in.model.shown->review->result),
          known_(in.model.shown->path().known),
          figure_(figure) {}

    std::vector<TableLine> make() {
        if (figure_.out_of_order) add("Order", "", "not as planned");
        if (figure_.again) add("Order", "", "flown once more");
        if (known_.place && !figure_.out_of_order && !figure_.again && review_.with_plan &&
            std::abs(figure_.late_s) >= 0.5) {
            add("Begins", "",
                measuredText(std::abs(figure_.late_s), model::within(figure_.late_sigma_s), {1}) +
                    (figure_.late_s > 0 ? " s late" : " s early"));
        }
        height("Least height", figure_.lowest_m);
        height("Greatest height", figure_.highest_m);
        if (known_.place && review_.with_plan)
            add("From the crowd line", measuredHeightText(figure_.nearest_y_m.planned, 0, units_),
                measuredHeightText(figure_.nearest_y_m.flown, figure_.place_sigma_m, units_));
        add(known_.airspeed ? "Entry" : "Entry, over the ground",
            planned(speedText(figure_.entry_mps.planned, units_).joined()),
            measuredSpeedText(figure_.entry_mps.flown, figure_.entry_sigma_mps, units_),
            figure_.start_s);
        if (known_.load) {
            add("Greatest load", planned(loadText(figure_.most_g.planned).joined()),
                load(figure_.most_g.flown, figure_.most_sigma_g));
            add("Least load", planned(loadText(figure_.least_g.planned).joined()),
                load(figure_.least_g.flown, figure_.least_sigma_g));
        }
        lines();
        rest();
        return std::move(lines_);
    }

private:
    bool inside(const std::string& figure, double time_s) const {
        return figure == figure_.name && time_s >= figure_.start_s - 0.01 &&
               time_s <= figure_.stop_s + 0.01;
    }
    std::string planned(std::string words) const { return review_.with_plan ? words : ""; }
    void add(std::string name, std::string planned, std::string flown, double time_s = -1,
             bool sure = true) {
        lines_.push_back({std::move(name), std::move(planned), std::move(flown), time_s, sure});
    }
    static std::string load(double load_g, double sigma_g) {
        return units::measuredLoad(load_g, model::within(sigma_g), Signs::Typeset).joined("\u2009");
    }
    void height(const char* name, const review::Beside& beside) {
        add(name, planned(heightText(beside.planned, units_).joined()),
            measuredHeightText(beside.flown, figure_.place_sigma_m, units_));
    }

    void lines() {
        for (const review::Review::Line& line : review_.lines) {
            const review::LineMeasure& m = line.measure;
            if (!inside(line.figure, m.start_s)) continue;
            const double true_rad = std::abs(m.climb_rad);
            const double flown_rad =
                m.vertical() ? true_rad - m.off_rad : std::abs(m.climb_rad + m.along_rad);
            add(m.climb_rad > 0 ? "Line up" : "Line down",
                formatFixed(true_rad / units::kDegree_rad, 0) + "\u00B0",
                degreesOf(flown_rad, model::within(m.sigma_rad)), m.start_s, model::sureEnough(m));
            seen("As the judge sees it", line.from_judge);
            seen("As the crowd sees it", line.from_crowd);
            if (m.before_roll_m > 0 || m.after_roll_m > 0) {
                const bool in_plan = line.planned_before_roll_m + line.planned_after_roll_m > 0;
                add("Before, after roll",
                    in_plan ? wholeText(heightInUnit(line.planned_before_roll_m, units_)) + ", " +
                                  wholeText(heightInUnit(line.planned_after_roll_m, units_))
                            : "",
                    valueText(heightInUnit(m.before_roll_m, units_),
                              heightInUnit(model::within(m.beside_roll_sigma_m), units_), {0}) +
                        ", " + measuredHeightText(m.after_roll_m, m.beside_roll_sigma_m, units_),
                    m.start_s);
            }
        }
    }

    void seen(const char* name, const std::optional<review::Seen>& from) {
        if (!from) return;
        add(name, degreesOf(kPi / 2 - from->true_from_vertical_rad, 0),
            degreesOf(kPi / 2 - from->from_vertical_rad, model::within(from->sigma_rad)));
    }

    void turnings() {
        for (const review::Review::Turning& t : review_.turnings) {
            if (!inside(t.figure, t.start_s)) continue;
            add(t.motion == review::Motion::Spin ? "Spin, turns" : "Tumble, turns",
                planned(formatFixed(t.planned.turns, 1)),
                measuredText(t.flown.turns, model::within(t.flown.turns_sigma), {1}), t.start_s);
            if (t.too_far_rad)
                add(*t.too_far_rad < 0 ? "Stopped short by" : "Stopped too far by", "",
                    measuredText(std::abs(*t.too_far_rad) / units::kDegree_rad,
                                 model::within(t.flown.heading_sigma_rad) / units::kDegree_rad,
                                 {0}) +
                        "\u00B0");
            add(t.flown.height_lost_m < 0 ? "Height it gains" : "Height it takes",
                planned(heightText(std::abs(t.planned.height_lost_m), units_).joined()),
                measuredHeightText(std::abs(t.flown.height_lost_m), t.flown.height_sigma_m,
                                   units_));
        }
    }

    void rest() {
        for (const review::TopReview& top : review_.tops) {
            if (!inside(top.figure, top.time_s)) continue;
            add("Top, gate " + leastHeightText(top.gate_m, units_).joined(),
                heightText(top.height_m.planned, units_).joined(),
                measuredHeightText(top.height_m.flown, top.sigma_m, units_), top.time_s);
        }
        turnings();
        for (const review::Review::RolledLine& roll : review_.rolls) {
            const review::RollMeasure& m = roll.measure;
            if (!inside(roll.figure, m.start_s)) continue;
            add("Roll", formatFixed(std::abs(m.planned_rad) / units::kDegree_rad, 0) + "\u00B0",
                measuredText(std::abs(m.angle_rad) / units::kDegree_rad,
                             model::within(m.sigma_rad) / units::kDegree_rad, {0}) +
                    "\u00B0",
                m.start_s);
            add("Roll rate, a second", "",
                measuredText(std::abs(m.rate_radps) / units::kDegree_rad,
                             model::within(m.rate_sigma_radps) / units::kDegree_rad, {0}) +
                    "\u00B0");
        }
        for (const review::Review::Arc& arc : review_.arcs) {
            if (!inside(arc.figure, arc.flown.start_s)) continue;
            add("Radius", planned(measuredHeightText(arc.planned.radius_m, 0, units_)),
                measuredHeightText(arc.flown.radius_m, arc.flown.radius_sigma_m, units_),
                arc.flown.start_s);
            add("Radii differ by, %", planned(formatFixed(100 * arc.planned.unround, 0)),
                measuredText(100 * arc.flown.unround, model::within(100 * arc.flown.unround_sigma),
                             {0}));
        }
        for (const review::SlideReview& slide : review_.slides) {
            if (!inside(slide.figure, slide.start_s)) continue;
            add("Slide", planned(measuredHeightText(slide.way_m.planned, 0, units_)),
                measuredHeightText(slide.way_m.flown, slide.way_sigma_m, units_), slide.start_s);
            add("Tail first, most", planned(speedText(slide.fastest_mps.planned, units_).joined()),
                measuredSpeedText(slide.fastest_mps.flown, slide.fastest_sigma_mps, units_),
                slide.start_s);
        }
        for (const review::Review::Pivot& pivot : review_.pivots) {
            if (!inside(pivot.figure, pivot.start_s)) continue;
            add("Pivot, half spans aside", planned(formatFixed(pivot.half_spans.planned, 1)),
                measuredText(pivot.half_spans.flown, model::within(pivot.sigma), {1}),
                pivot.start_s);
        }
    }

    model::UnitChoice units_;
    const review::Review& review_;
    const path::Known& known_;
    const review::FigureReview& figure_;
    std::vector<TableLine> lines_;
};

const model::RowReview* rowReviewOf(const PanelInput& in, const model::SheetRow& row) {
    const auto& rows = in.model.shown->review->rows;
    const auto i = static_cast<std::size_t>(row.outline);
    return row.outline >= 0 && i < rows.size() ? &rows[i] : nullptr;
}

}  // namespace

std::string reviewRowText(const PanelInput& in, const model::SheetRow& row) {
    if (row.outline < 0) return "not flown";
    const model::RowReview* flown = rowReviewOf(in, row);
    if (flown == nullptr || flown->off_m < 0) return timeText(row.figure.start_s);
    const auto& figures = in.model.shown->review->result.figures;
    const auto i = static_cast<std::size_t>(flown->figure);
    const double sigma_m = flown->figure >= 0 && i < figures.size() ? figures[i].place_sigma_m : 0;
    // The row has room for the number only, no finer than it is known; its table has the doubts.
    const model::UnitChoice units = in.model.session.units;
    return valueText(heightInUnit(flown->off_m, units), heightInUnit(2 * sigma_m, units), {0}) +
           "\u2009" + heightUnit(units);
}

float drawFigureTable(const PanelInput& in, UiState& state, const model::SheetRow& row, float y,
                      float right, bool draw) {
    const model::RowReview* flown = rowReviewOf(in, row);
    if (flown == nullptr || flown->figure < 0) return 0;
    const review::Review& review = in.model.shown->review->result;
    const std::vector<TableLine> lines =
        Table(in, review.figures[static_cast<std::size_t>(flown->figure)]).make();
    const Canvas& c = in.canvas;
    const Theme& theme = c.theme();
    const float x = c.px(kTextLeft);
    const float flown_right = right - c.px(kMargin);
    const float planned_right = flown_right - c.px(86);
    const float line_height = c.px(20);
    float at = y;
    if (draw) {
        c.text(x, at, kNote, theme.ink3, "Measured");
        if (review.with_plan) c.textRight(planned_right, at, kNote, theme.ink3, "plan");
        c.textRight(flown_right, at, kNote, theme.flight, "flown");
    }
    at += line_height;
    for (std::size_t i = 0; i < lines.size(); ++i, at += line_height) {
        if (!draw) continue;
        const TableLine& line = lines[i];
        const Rect rect{x - c.px(6), at - c.px(2), right - x, line_height};
        if (line.time_s >= 0) {
            ImGui::PushID(static_cast<int>(i));
            const Press pressed = press("measured", rect);
            ImGui::PopID();
            if (pressed.hovered) {
                state.wants_hand = true;
                state.hint = "Go to where it was flown";
                c.fill(rect, theme.line);
            }
            if (pressed.clicked) in.actions.push(model::ActionKind::Seek, line.time_s);
        }
        const float begins = c.textRight(flown_right, at, line.sure ? kNoteStrong : kNote,
                                         line.sure ? theme.ink : theme.ink2, line.flown);
        float end = begins;
        if (!line.planned.empty())
            end = c.textRight(std::min(planned_right, begins - c.px(8)), at, kNote, theme.ink2,
                              line.planned);
        c.textClipped(x, at, end - c.px(6), kNote, theme.ink, line.name);
    }
    return at - y + c.px(6);
}

}  // namespace plumbline::ui

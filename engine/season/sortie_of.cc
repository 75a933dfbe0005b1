// A review as it stands in the book.

#include <cmath>

#include "engine/season/sorties.h"

namespace plumbline::season {

namespace {

class Filler {
public:
    Filler(Sortie& sortie, bool with_plan) : sortie_(sortie), with_plan_(with_plan) {}

    void figure(const review::FigureReview& f, const path::Known& known) {
        FlownFigure& figure = sortie_.figures.emplace_back();
        figure.name = f.name;
        figure.start_s = f.start_s;
        figure.stop_s = f.stop_s;
        figure.out_of_order = f.out_of_order;
        figure.again = f.again;
        const std::optional<double> sigma_m = told(f.place_sigma_m);
        add(figure, "", "lowest", f.lowest_m, sigma_m);
        add(figure, "", "highest", f.highest_m, sigma_m);
        if (known.place && with_plan_)  // without one nobody knows where the crowd is
            add(figure, "", "from crowd line", f.nearest_y_m, sigma_m);
        if (known.place || known.airspeed)
            add(figure, "", "entry speed", f.entry_mps, told(f.entry_sigma_mps));
        if (known.load) {
            add(figure, "", "greatest load", f.most_g, told(f.most_sigma_g));
            add(figure, "", "least load", f.least_g, told(f.least_sigma_g));
        }
        if (with_plan_)
            figure.measures.push_back({"", "late", f.late_s, told(f.late_sigma_s), 0.0});
    }

    /// @param planned  nothing: the measure is an error by itself
    void add(const std::string& of, double time_s, const std::string& element, const char* name,
             double value, double sigma, std::optional<double> planned = {}) {
        FlownFigure* figure = at(of, time_s);
        if (figure == nullptr || !std::isfinite(value)) return;
        std::string named = element;
        for (int nth = 2; has(*figure, named, name); ++nth)
            named = element + " (" + std::to_string(nth) + ")";
        figure->measures.push_back(
            {named, name, value, told(sigma), with_plan_ ? planned : std::nullopt});
    }

private:
    static std::optional<double> told(double sigma) {
        return sigma > 0 ? std::optional(sigma) : std::nullopt;
    }
    void add(FlownFigure& figure, const std::string& element, const char* name,
             const review::Beside& beside, std::optional<double> sigma) const {
        if (!std::isfinite(beside.flown)) return;
        figure.measures.push_back({element, name, beside.flown, sigma,
                                   with_plan_ ? std::optional(beside.planned) : std::nullopt});
    }

    /// By its name: what begins where the figure before ends is not that one's.
    FlownFigure* at(const std::string& name, double time_s) {
        constexpr double kRounding_s = 1e-6;
        for (FlownFigure& figure : sortie_.figures)
            if (figure.name == name && time_s >= figure.start_s - kRounding_s &&
                time_s <= figure.stop_s + kRounding_s)
                return &figure;
        return nullptr;
    }
    static bool has(const FlownFigure& figure, const std::string& element, const char* name) {
        for (const Measured& m : figure.measures)
            if (m.element == element && m.name == name) return true;
        return false;
    }

    Sortie& sortie_;
    bool with_plan_;
};

}  // namespace

Sortie sortieOf(const review::Review& review, const review::CrewSheet& sheet,
                const review::LoadBook& loads, const path::Known& known) {
    Sortie sortie;
    Filler fill(sortie, review.with_plan);
    for (const review::FigureReview& f : review.figures) fill.figure(f, known);
    for (const review::Review::Line& line : review.lines) {
        const review::LineMeasure& m = line.measure;
        fill.add(line.figure, m.start_s, line.name, "line off", m.off_rad, m.sigma_rad);
        fill.add(line.figure, m.start_s, line.name, "line to canopy", m.pitch_rad, m.sigma_rad);
        fill.add(line.figure, m.start_s, line.name, "line to right", m.yaw_rad, m.sigma_rad);
        // How much further along the line its rolls sit than planned.
        if (line.planned_before_roll_m + line.planned_after_roll_m > 0)
            fill.add(line.figure, m.start_s, line.name, "roll off its place",
                     0.5 * (m.before_roll_m - m.after_roll_m - line.planned_before_roll_m +
                            line.planned_after_roll_m),
                     m.beside_roll_sigma_m / std::sqrt(2.0));
    }
    for (const review::Review::RolledLine& roll : review.rolls)
        fill.add(roll.figure, roll.measure.start_s, roll.name, "roll too far",
                 std::fabs(roll.measure.angle_rad) - std::fabs(roll.measure.planned_rad),
                 roll.measure.sigma_rad);
    for (const review::Review::Arc& arc : review.arcs) {
        fill.add(arc.figure, arc.flown.start_s, arc.name, "radius", arc.flown.radius_m,
                 arc.flown.radius_sigma_m, arc.planned.radius_m);
        fill.add(arc.figure, arc.flown.start_s, arc.name, "unround", arc.flown.unround,
                 arc.flown.unround_sigma, arc.planned.unround);
    }
    for (const review::SlideReview& slide : review.slides) {
        fill.add(slide.figure, slide.start_s, "slide", "slide length", slide.way_m.flown,
                 slide.way_sigma_m, slide.way_m.planned);
        fill.add(slide.figure, slide.start_s, "slide", "slide speed", slide.fastest_mps.flown,
                 slide.fastest_sigma_mps, slide.fastest_mps.planned);
    }
    for (const review::Review::Turning& t : review.turnings)
        if (t.too_far_rad)
            fill.add(t.figure, t.start_s, "spin", "spin too far", *t.too_far_rad,
                     t.flown.heading_sigma_rad);
    for (const review::TopReview& top : review.tops)
        fill.add(top.figure, top.time_s, "top", "top over gate", top.height_m.flown - top.gate_m,
                 top.sigma_m);
    for (const review::Review::Pivot& pivot : review.pivots)
        fill.add(pivot.figure, pivot.start_s, "pivot", "pivot aside, half spans",
                 pivot.half_spans.flown, pivot.sigma, pivot.half_spans.planned);
    sortie.flown_s = sheet.flown_s;
    if (known.airspeed) {
        sortie.fastest_mps = sheet.fastest_mps;
        sortie.beyond_never_exceed_s = sheet.beyond_never_exceed_s;
        sortie.overspeed_s = sheet.overspeed_s;
    }
    if (known.power) sortie.full_power_s = sheet.full_power_s;
    if (known.fuel) sortie.fuel_kg = sheet.fuel_kg;
    if (known.load) sortie.loads = loads;
    return sortie;
}

}  // namespace plumbline::season

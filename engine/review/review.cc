#include "engine/review/review.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/review/alone.h"
#include "engine/review/line_words.h"
#include "engine/units/units.h"

namespace plumbline::review {
namespace {

constexpr double kDegree = kPi / 180;

struct Extremes {
    double lowest_m = 1e9, highest_m = -1e9, most_g = -1e9, least_g = 1e9, nearest_y_m = 1e9,
           sigma_m = 0, entry_mps = 0, fastest_back_mps = 0;
};

Extremes extremesOf(const path::Path& path, double from_s, double to_s) {
    Extremes e;
    std::size_t i = path::sampleIndexAt(path, from_s);
    const auto speedOf = [&](const path::Sample& s) {
        return path.known.airspeed ? s.airspeed_mps : glm::length(s.velocity_S_mps);
    };
    e.entry_mps = speedOf(path.samples[i]);
    double sigma = 0, count = 0;
    for (; i < path.samples.size() && path.samples[i].time_s <= to_s; ++i) {
        const path::Sample& s = path.samples[i];
        e.lowest_m = std::min(e.lowest_m, s.position_S_m.z);
        e.highest_m = std::max(e.highest_m, s.position_S_m.z);
        e.nearest_y_m = std::min(e.nearest_y_m, s.position_S_m.y);
        const double load = loadFactors(s.specific_force_B_mps2).normal_g;
        e.most_g = std::max(e.most_g, load);
        e.least_g = std::min(e.least_g, load);
        const double back = -glm::dot(rotate(s.q_SB, Vec3(1, 0, 0)), s.velocity_S_mps);
        e.fastest_back_mps = std::max(e.fastest_back_mps, back);
        sigma += static_cast<double>(s.position_sigma_m);
        count += 1;
    }
    if (count > 0) e.sigma_m = sigma / count;
    return e;
}

class Reviewer {
public:
    Reviewer(const path::Path& flight, const path::Path& plan, const data::Aircraft& aircraft,
             const data::Site& site)
        : flight_(flight), plan_(plan), aircraft_(aircraft), site_(site) {
        eye_ = judgesEye(site);
    }

    Review make() {
        const std::vector<Piece> flown = piecesOf(flight_), planned = piecesOf(plan_);
        if (flown.empty()) {
            review_.notes.push_back("the recording's attitude is not known: figures are not told");
            return std::move(review_);
        }
        const Match match = matchFigures(plan_, planned, flown);
        double first_late_s = 0;
        bool first = true;
        for (const FigureMatch& figure : match.figures) {
            addFigure(figure, planned, first ? nullptr : &first_late_s);
            if (first) {
                first_late_s = figure.start_s - review_.figures.back().planned_start_s;
                first = false;
            }
            for (const auto& [i, j] : figure.pieces)
                addPiece(flown[static_cast<std::size_t>(j)], planned[static_cast<std::size_t>(i)]);
        }
        for (const int figure : match.missing) {
            const path::Figure& f = plan_.figures[static_cast<std::size_t>(figure)];
            review_.missing.push_back(f.name);
            remark(2, f.start_s, f.name, "not flown, or not as planned",
                   "Fly it as planned, or take it out of the plan.");
        }
        std::stable_sort(review_.remarks.begin(), review_.remarks.end(),
                         [](const Remark& a, const Remark& b) { return a.weight > b.weight; });
        return std::move(review_);
    }

private:
    void remark(double weight, double time_s, const std::string& figure, std::string words,
                std::string advice) {
        review_.remarks.push_back({weight, time_s, figure, std::move(words), std::move(advice)});
    }

    void addFigure(const FigureMatch& match, const std::vector<Piece>& planned,
                   const double* first_late_s) {
        const path::Figure& figure = plan_.figures[static_cast<std::size_t>(match.figure)];
        name_ = figure.name;
        FigureReview r;
        r.name = figure.name;
        r.out_of_order = match.out_of_order;
        r.again = match.again;
        r.start_s = match.start_s;
        r.stop_s = match.stop_s;
        const Piece& first = planned[static_cast<std::size_t>(match.pieces.front().first)];
        const Piece& last = planned[static_cast<std::size_t>(match.pieces.back().first)];
        r.planned_start_s = first.start_s;
        if (first_late_s) r.late_s = r.start_s - r.planned_start_s - *first_late_s;
        const Extremes f = extremesOf(flight_, r.start_s, r.stop_s);
        const Extremes p = extremesOf(plan_, first.start_s, last.stop_s);
        r.lowest_m = {f.lowest_m, p.lowest_m};
        r.highest_m = {f.highest_m, p.highest_m};
        r.entry_mps = {f.entry_mps, p.entry_mps};
        r.most_g = {f.most_g, p.most_g};
        r.least_g = {f.least_g, p.least_g};
        r.nearest_y_m = {f.nearest_y_m - site_.crowd_line_y_m,
                         p.nearest_y_m - site_.crowd_line_y_m};
        r.place_sigma_m = f.sigma_m;
        if (match.out_of_order)
            remark(1.5, r.start_s, name_, "flown out of its order",
                   "Fly the figures in the plan's order, or change the plan.");
        if (match.again)
            remark(1.5, r.start_s, name_, "flown once more",
                   "Fly it once, or put it into the plan twice.");
        // chosen: ten metres too low weigh as a point; less than is known for sure does not count
        const double low_m = p.lowest_m - f.lowest_m;
        if (flight_.known.place && low_m > std::max(3.0, 2 * f.sigma_m))
            remark(
                low_m / 10, r.start_s, name_,
                formatFixed(low_m, 0) + " m lower than planned, at " + formatFixed(f.lowest_m, 0) +
                    " m" +
                    (f.sigma_m > 0 ? " (+- " + formatFixed(std::ceil(2 * f.sigma_m), 0) + ")" : ""),
                "Fly this figure " + formatFixed(low_m, 0) + " m higher.");
        review_.figures.push_back(std::move(r));
    }

    void addPiece(const Piece& flown, const Piece& planned) {
        if (flown.motion == Motion::Slide) {
            const Extremes f = extremesOf(flight_, flown.start_s, flown.stop_s);
            const Extremes p = extremesOf(plan_, planned.start_s, planned.stop_s);
            review_.slides.push_back({name_,
                                      flown.start_s,
                                      {flown.tail_m, planned.tail_m},
                                      {f.fastest_back_mps, p.fastest_back_mps}});
            const double miss_m = flown.tail_m - planned.tail_m;
            if (std::fabs(miss_m) > std::max(5.0, 0.05 * planned.tail_m))
                remark(std::fabs(miss_m) / 20, flown.start_s, name_,
                       "slide " + formatFixed(std::fabs(miss_m), 0) + " m " +
                           (miss_m < 0 ? "short of" : "beyond") + " its " +
                           formatFixed(planned.tail_m, 0) + " m",
                       (miss_m < 0 ? "Let it slide " : "Let it fall ") +
                           formatFixed(std::fabs(miss_m), 0) + " m " +
                           (miss_m < 0 ? "further." : "sooner."));
            return;
        }
        const std::string name = elementOf(planned);
        if (flown.motion == Motion::Pivot) {
            const double span_m = aircraft_.geometry.span_m;
            review_.pivots.push_back(
                {name_,
                 flown.start_s,
                 {pivotHalfSpans(flight_, flown, span_m), pivotHalfSpans(plan_, planned, span_m)}});
        }
        if (flown.motion == Motion::Spin || flown.motion == Motion::Tumble)
            addTurning(flown, planned);
        const auto arc = measureArc(flight_, flown, eye_);
        const auto own_arc = measureArc(plan_, planned, eye_);
        if (arc && own_arc) review_.arcs.push_back({name_, name, *arc, *own_arc});
        if (flown.motion != Motion::Line) return;
        for (const RollMeasure& roll : measureRolls(flight_, plan_, flown, planned)) {
            review_.rolls.push_back({name_, name, roll});
            const double over = std::fabs(roll.angle_rad) - std::fabs(roll.planned_rad);
            const double points = pointsFor(over);
            if (points > 0 && std::fabs(over) > 2 * roll.sigma_rad)
                remark(points, roll.start_s, name_,
                       name + ": " + degreesText(over) + (over < 0 ? " short" : " too far") +
                           " in the roll",
                       "Stop the roll " + degreesText(over) + (over < 0 ? " later." : " sooner."));
        }
        const double zero_lift_rad = aircraft_.aero.zero_lift_aoa_rad;
        const std::optional<LineMeasure> m = measureLine(flight_, flown, planned, zero_lift_rad);
        if (!m) return;
        // A level line is judged by its track, which heights and places tell.
        const bool level = std::fabs(m->climb_rad) < 15 * kDegree;
        // What the model's own flight would not do better is not blamed on the pilot.
        const std::optional<LineMeasure> own = measureLine(plan_, planned, planned, zero_lift_rad);
        const double better_rad = own ? own->off_rad : 0;
        if (!level && pointsFor(m->off_rad - better_rad) > 0 && m->off_rad > 2 * m->sigma_rad)
            remark(m->off_rad / (5 * kDegree), m->start_s, name_, name + ": " + lineWords(*m),
                   lineAdvice(*m));
        if (!level)
            review_.lines.push_back({name_, name, *m, seenFrom(eye_, flight_, *m),
                                     seenFrom(crowdsEye(site_), flight_, *m)});
    }

    void addTurning(const Piece& flown, const Piece& planned) {
        Review::Turning t{name_,
                          flown.motion,
                          flown.start_s,
                          measureTurns(flight_, flown),
                          measureTurns(plan_, planned),
                          {}};
        if (flown.motion == Motion::Spin) {
            const double over = turnedTooFar_rad(t.flown, t.planned, planned.turned_rad > 0);
            t.too_far_rad = over;
            const double points = pointsFor(over);
            if (points > 0 && std::fabs(over) > 2 * t.flown.heading_sigma_rad)
                remark(points, flown.start_s, name_,
                       "spin: stopped " + degreesText(over) + (over < 0 ? " short" : " too far"),
                       "Stop the spin " + degreesText(over) + (over < 0 ? " later." : " sooner."));
        }
        review_.turnings.push_back(std::move(t));
    }

    /// What the plan calls what is flown at the middle of a piece.
    std::string elementOf(const Piece& planned) const {
        const path::Sample& s =
            plan_.samples[path::sampleIndexAt(plan_, 0.5 * (planned.start_s + planned.stop_s))];
        return s.element < 0 ? wordsOf(planned)
                             : plan_.elements[static_cast<std::size_t>(s.element)].label;
    }

    const path::Path& flight_;
    const path::Path& plan_;
    const data::Aircraft& aircraft_;
    const data::Site& site_;
    Vec3 eye_{0};
    Review review_;
    std::string name_;
};

}  // namespace

Review reviewFlight(const path::Path& flight, const path::Path& plan,
                    const data::Aircraft& aircraft, const data::Site& site) {
    return Reviewer(flight, plan, aircraft, site).make();
}

}  // namespace plumbline::review

#include "engine/review/review.h"

#include <algorithm>
#include <cmath>
#include <set>

#include "engine/base/number_text.h"
#include "engine/review/alone.h"
#include "engine/review/doubts.h"
#include "engine/review/extremes.h"
#include "engine/review/line_words.h"
#include "engine/review/slides.h"
#include "engine/units/units.h"

namespace plumbline::review {
namespace {

constexpr const char* kWholeFlight = "The whole flight";

/// False where the plan lets the aircraft fall or turn about itself and only comes to rest steeply
/// down: that is no line that anyone draws.
bool meantAsLine(const path::Path& plan, const Piece& planned) {
    const path::Sample& s =
        plan.samples[path::sampleIndexAt(plan, 0.5 * (planned.start_s + planned.stop_s))];
    if (s.element < 0) return true;
    const std::string& label = plan.elements[static_cast<std::size_t>(s.element)].label;
    for (const char* other : {"fall", "slide", "pivot", "spin", "tumble", "torque-roll"})
        if (label.rfind(other, 0) == 0) return false;
    return true;
}

class Reviewer {
public:
    Reviewer(const path::Path& flight, const path::Path& plan, const data::Aircraft& aircraft,
             const data::Site& site, double points_for_5_deg)
        : flight_(flight), plan_(plan), aircraft_(aircraft), site_(site) {
        eye_ = judgesEye(site);
        review_.points_for_5_deg = points_for_5_deg;
        tells_errors_ = tellsErrors(flight);
    }

    Review make() {
        const std::vector<Piece> flown = piecesOf(flight_), planned = piecesOf(plan_);
        if (flown.empty()) {
            review_.notes.push_back("the recording's attitude is not known: figures are not told");
            return std::move(review_);
        }
        noteUntold(flight_, review_.notes);
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
        review_.unlike_plan = match.unlike;
        if (match.unlike) sayUnlike();
        const int planned_figures = static_cast<int>(plan_.figures.size());
        if (match.flown.size() < planned_figures) {
            review_.part_first = match.flown.first + 1;
            review_.part_last = match.flown.last + 1;
            review_.notes.insert(review_.notes.begin(), partWords(review_, plan_.figures.size()));
        }
        for (const int figure : match.missing) {
            const path::Figure& f = plan_.figures[static_cast<std::size_t>(figure)];
            review_.missing.push_back(f.name);
            if (match.unlike) continue;        // said once
            if (!match.flown.holds(figure)) {  // and so is this
                review_.beyond_part.push_back(f.name);
                continue;
            }
            remark(2, f.start_s, f.name, "not flown, or not as planned",
                   "Fly it as planned, or take it out of the plan.");
        }
        std::stable_sort(review_.remarks.begin(), review_.remarks.end(),
                         [](const Remark& a, const Remark& b) { return a.weight > b.weight; });
        return std::move(review_);
    }

private:
    void remark(double weight, double time_s, const std::string& figure, std::string words,
                std::string advice, Fault fault = Fault::Other, std::string element = {}) {
        review_.remarks.push_back({weight, time_s, figure, std::move(words), std::move(advice),
                                   fault, std::move(element)});
    }

    void sayUnlike() {
        std::set<std::string> found;
        for (const FigureReview& f : review_.figures) found.insert(f.name);
        const std::string count = std::to_string(found.size()) + " of " +
                                  std::to_string(plan_.figures.size()) + " figures";
        remark(10, 0, kWholeFlight,
               "this flight does not look like this plan: " +
                   (found.empty() ? "none of its figures is" : count + " are") + " surely in it",
               "Take the plan that was flown, or look at the flight without one.");
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
        r.planned_stop_s = last.stop_s;
        if (first_late_s) {
            r.late_s = r.start_s - r.planned_start_s - *first_late_s;
            // Both beginnings are told no finer.
            if (tells_errors_) r.late_sigma_s = std::sqrt(2.0) * kEdge_s;
        }
        // A plan's airspeed is nothing to hold a speed over the ground against.
        const bool by_air = flight_.known.airspeed;
        const Extremes f = extremesOf(flight_, r.start_s, r.stop_s, by_air);
        const Extremes p = extremesOf(plan_, first.start_s, last.stop_s, by_air);
        r.lowest_m = {f.lowest_m, p.lowest_m};
        r.highest_m = {f.highest_m, p.highest_m};
        r.entry_mps = {f.entry_mps, p.entry_mps};
        r.entry_sigma_mps = f.entry_sigma_mps;
        r.most_sigma_g = f.most_sigma_g;
        r.least_sigma_g = f.least_sigma_g;
        r.most_g = {f.most_g, p.most_g};
        r.least_g = {f.least_g, p.least_g};
        r.nearest_y_m = {f.nearest_y_m - site_.crowd_line_y_m,
                         p.nearest_y_m - site_.crowd_line_y_m};
        r.place_sigma_m = f.place_sigma_m;
        if (match.out_of_order)
            remark(1.5, r.start_s, name_, "flown out of its order",
                   "Fly the figures in the plan's order, or change the plan.");
        if (match.again)
            remark(1.5, r.start_s, name_, "flown once more",
                   "Fly it once, or put it into the plan twice.");
        // chosen: ten metres too low weigh as a point; less than is known for sure does not count
        const double low_m = p.lowest_m - f.lowest_m;
        if (flight_.known.place && low_m > std::max(3.0, 2 * f.place_sigma_m))
            remark(low_m / 10, r.start_s, name_,
                   metresText(low_m, f.place_sigma_m) + " lower than planned, at " +
                       metresText(f.lowest_m, f.place_sigma_m) + plusMinus(f.place_sigma_m, 0),
                   "Fly this figure " + metresText(low_m, f.place_sigma_m) + " higher.",
                   Fault::Height);
        review_.figures.push_back(std::move(r));
    }

    void addPiece(const Piece& flown, const Piece& planned) {
        if (flown.motion == Motion::Slide) {
            // Where the fall begins is seen a little late, in the plan and in the flight alike.
            const double late_s = seenLate_s(plan_, planned);
            const SlideMeasure f = measureSlide(flight_, flown, late_s);
            const SlideMeasure p = measureSlide(plan_, planned, late_s);
            review_.slides.push_back({name_,
                                      flown.start_s,
                                      {f.way_m, p.way_m},
                                      {f.fastest_mps, p.fastest_mps},
                                      f.sigma_m,
                                      f.fastest_sigma_mps});
            const double miss_m = f.way_m - p.way_m;
            if (std::fabs(miss_m) > std::max({5.0, 0.05 * p.way_m, 2 * f.sigma_m}))
                remark(std::fabs(miss_m) / 20, flown.start_s, name_,
                       "slide " + metresText(std::fabs(miss_m), f.sigma_m) +
                           (miss_m < 0 ? " short of" : " beyond") + " its " +
                           metresText(p.way_m, 0) + plusMinus(f.sigma_m, 0),
                       (miss_m < 0 ? "Let it slide " : "Let it fall ") +
                           metresText(std::fabs(miss_m), f.sigma_m) +
                           (miss_m < 0 ? " further." : " sooner."),
                       Fault::Slide, "slide");
            return;
        }
        const std::string name = elementOf(planned);
        if (flown.motion == Motion::Pivot) {
            const double span_m = aircraft_.geometry.span_m;
            review_.pivots.push_back(
                {name_,
                 flown.start_s,
                 {pivotHalfSpans(flight_, flown, span_m), pivotHalfSpans(plan_, planned, span_m)},
                 pivotSigma(flight_, flown, span_m)});
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
            const double points = pointsFor(over, review_.points_for_5_deg);
            if (points > 0 && std::fabs(over) > 2 * roll.sigma_rad)
                remark(points, roll.start_s, name_,
                       name + ": " + degreesText(over, roll.sigma_rad) +
                           (over < 0 ? " short" : " too far") + " in the roll" +
                           degreesDoubt(roll.sigma_rad),
                       "Stop the roll " + degreesText(over, roll.sigma_rad) +
                           (over < 0 ? " later." : " sooner."),
                       Fault::Roll, name);
        }
        if (!meantAsLine(plan_, planned)) return;
        const double zero_lift_rad = aircraft_.aero.zero_lift_aoa_rad;
        const std::optional<LineMeasure> m = measureLine(flight_, flown, planned, zero_lift_rad);
        if (!m) return;
        // A level line is judged by its track, which heights and places tell.
        const bool level = std::fabs(m->climb_rad) < 15 * units::kDegree_rad;
        // What the model's own flight would not do better is not blamed on the pilot.
        const std::optional<LineMeasure> own = measureLine(plan_, planned, planned, zero_lift_rad);
        const double better_rad = own ? own->off_rad : 0;
        if (!level && pointsFor(m->off_rad - better_rad, review_.points_for_5_deg) > 0 &&
            m->off_rad > 2 * m->sigma_rad)
            remark(m->off_rad / (5 * units::kDegree_rad), m->start_s, name_,
                   name + ": " + lineWords(*m), lineAdvice(*m), Fault::Line, name);
        if (level) return;
        Review::Line line{name_, name, *m, seenFrom(eye_, flight_, *m),
                          seenFrom(crowdsEye(site_), flight_, *m)};
        if (own) {
            line.planned_before_roll_m = own->before_roll_m;
            line.planned_after_roll_m = own->after_roll_m;
            judgeRollPlace(*m, *own, name);
        }
        review_.lines.push_back(std::move(line));
    }

    /// A roll that was to sit in the middle of its line and does not, beyond what its ends may be
    /// off.
    void judgeRollPlace(const LineMeasure& m, const LineMeasure& own, const std::string& name) {
        constexpr double kCentred = 1.5;  // chosen: of the plan's two parts
        const auto [own_short, own_long] = std::minmax(own.before_roll_m, own.after_roll_m);
        if (own_short <= 0 || own_long > kCentred * own_short) return;
        const double end_m = rollEndSigma_m(flight_, m);
        const auto [shorter, longer] = std::minmax(m.before_roll_m, m.after_roll_m);
        const double points = pointsForRollPlace(std::max(0.0, longer - end_m), shorter + end_m);
        if (points <= 0) return;
        const bool late = m.before_roll_m > m.after_roll_m;
        const std::string by = metresText(0.5 * (longer - shorter), m.beside_roll_sigma_m);
        remark(points, m.start_s, name_,
               name + ": roll sits " + (late ? "late" : "early") + ": " +
                   metresText(m.before_roll_m, m.beside_roll_sigma_m) + " before it, " +
                   metresText(m.after_roll_m, m.beside_roll_sigma_m) + " after" +
                   plusMinus(m.beside_roll_sigma_m, 0),
               "Begin the roll " + by + (late ? " sooner." : " later."), Fault::RollPlace, name);
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
            const double points = pointsFor(over, review_.points_for_5_deg);
            if (points > 0 && std::fabs(over) > 2 * t.flown.heading_sigma_rad)
                remark(points, flown.start_s, name_,
                       "spin: stopped " + degreesText(over, t.flown.heading_sigma_rad) +
                           (over < 0 ? " short" : " too far") +
                           degreesDoubt(t.flown.heading_sigma_rad),
                       "Stop the spin " + degreesText(over, t.flown.heading_sigma_rad) +
                           (over < 0 ? " later." : " sooner."),
                       Fault::Spin, "spin");
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
    bool tells_errors_ = false;
    Vec3 eye_{0};
    Review review_;
    std::string name_;
};

}  // namespace

std::string partWords(const Review& review, std::size_t planned_figures) {
    if (review.part_last <= 0) return {};
    const int count = static_cast<int>(planned_figures);
    const auto range = [](int from, int to) {
        return from == to ? std::to_string(from)
                          : std::to_string(from) + " to " + std::to_string(to);
    };
    std::string words =
        review.part_first == review.part_last ? "flown: figure " : "flown: figures ";
    words += range(review.part_first, review.part_last) + " of the plan's " +
             std::to_string(planned_figures) + "; not flown: ";
    if (review.part_first > 1) words += range(1, review.part_first - 1);
    if (review.part_first > 1 && review.part_last < count) words += " and ";
    if (review.part_last < count) words += range(review.part_last + 1, count);
    return words;
}

Review reviewFlight(const path::Path& flight, const path::Path& plan,
                    const data::Aircraft& aircraft, const data::Site& site,
                    double points_for_5_deg) {
    return Reviewer(flight, plan, aircraft, site, points_for_5_deg).make();
}

}  // namespace plumbline::review

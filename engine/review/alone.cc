#include "engine/review/alone.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/base/number_text.h"
#include "engine/review/doubts.h"
#include "engine/review/extremes.h"
#include "engine/review/line_words.h"
#include "engine/review/slides.h"
#include "engine/units/units.h"

namespace plumbline::review {
namespace {

constexpr double kMeant_rad = 12 * units::kDegree_rad;  // chosen: further off it is another line
constexpr double kRollMeant_rad = 20 * units::kDegree_rad;  // chosen: further off it is no quarter

double climbOf(const Vec3& way) { return std::asin(std::clamp(way.z, -1.0, 1.0)); }

bool levelLine(const Piece& piece) {
    constexpr double kLevel_rad = 15 * units::kDegree_rad;
    return piece.motion == Motion::Line && std::fabs(climbOf(piece.way_S)) < kLevel_rad;
}

bool levelFlight(const Piece& piece) { return levelLine(piece) && !rollsForItself(piece); }

/// What the stretch is called by its most telling piece; empty: turns and climbs that are no
/// figure.
std::string nameOf(const std::vector<Piece>& pieces, std::size_t from, std::size_t to) {
    std::string name;
    int best = 0;
    const auto say = [&](int weight, const char* words) {
        if (weight <= best) return;
        best = weight;
        name = words;
    };
    for (std::size_t i = from; i < to; ++i) {
        const Piece& piece = pieces[i];
        switch (piece.motion) {
            case Motion::Slide:
                say(90, "Tailslide");
                break;
            case Motion::TorqueRoll:
                say(95, "Torque roll");
                break;
            case Motion::Tumble:
                say(85, "Tumble");
                break;
            case Motion::Spin:
                say(80, "Spin");
                break;
            case Motion::Pivot:
                say(75, "Hammerhead");
                break;
            case Motion::Pull:
            case Motion::Push:
                if (std::fabs(piece.turned_rad) > 300 * units::kDegree_rad) {
                    say(60, "Loop");
                } else if (std::fabs(piece.turned_rad) > 150 * units::kDegree_rad) {
                    say(55, "Half loop");
                }
                break;
            case Motion::Line:
                if (std::fabs(std::fabs(climbOf(piece.way_S)) - 90 * units::kDegree_rad) <
                    kMeant_rad) {
                    say(50, "Vertical line");
                } else if (std::fabs(std::fabs(climbOf(piece.way_S)) - 45 * units::kDegree_rad) <
                           kMeant_rad) {
                    say(45, "45 deg line");
                } else if (std::any_of(piece.rolls.begin(), piece.rolls.end(), [](const Roll& r) {
                               return std::fabs(r.angle_rad) > 70 * units::kDegree_rad;
                           })) {
                    say(40, "Level roll");
                }
                break;
            case Motion::Turn:
            case Motion::Fall:
                break;
        }
    }
    return name;
}

class Alone {
public:
    Alone(const path::Path& flight, double zero_lift_rad, double span_m, const data::Site& site,
          std::span<const KnownFigure> known)
        : flight_(flight),
          zero_lift_rad_(zero_lift_rad),
          span_m_(span_m),
          site_(site),
          known_(known) {}

    Review make() {
        review_.with_plan = false;
        const std::vector<Piece> pieces = piecesOf(flight_);
        if (pieces.empty()) {
            review_.notes.push_back("the recording's attitude is not known: figures are not told");
            return std::move(review_);
        }
        noteUntold(flight_, review_.notes);
        for (std::size_t i = 0; i < pieces.size();) {
            if (levelFlight(pieces[i])) {
                ++i;
                continue;
            }
            std::size_t end = i;
            while (end < pieces.size() && !levelFlight(pieces[end])) ++end;
            addStretch(pieces, i, end);
            i = end;
        }
        std::stable_sort(review_.remarks.begin(), review_.remarks.end(),
                         [](const Remark& a, const Remark& b) { return a.weight > b.weight; });
        return std::move(review_);
    }

private:
    /// A stretch is a known figure as a whole, or falls apart where it is level with a roll:
    /// figures begin and end so. The longest known one is taken, from the left on.
    void addStretch(const std::vector<Piece>& pieces, std::size_t from, std::size_t to) {
        std::vector<std::size_t> marks = {from};
        for (std::size_t i = from; i < to; ++i) {
            if (!levelLine(pieces[i])) continue;
            for (const std::size_t mark : {i, i + 1})
                if (mark > marks.back()) marks.push_back(mark);
        }
        if (to > marks.back()) marks.push_back(to);
        for (std::size_t at = 0; at + 1 < marks.size();) {
            std::size_t end = marks.size() - 1;
            std::string known;
            for (; end > at && upright(pieces[marks[at]]); --end) {
                known = knownName({pieces.data() + marks[at], marks[end] - marks[at]}, known_);
                if (!known.empty()) break;
            }
            if (known.empty()) end = at + 1;
            addFigure(pieces, marks[at], marks[end], known);
            at = end;
        }
    }

    /// The known figures all begin upright.
    bool upright(const Piece& first) const {
        const double time_s =
            levelLine(first) && !first.rolls.empty() ? first.rolls.front().start_s : first.start_s;
        return rotate(path::sampleAt(flight_, time_s).q_SB, Vec3(0, 0, -1)).z > 0;
    }

    /// @param known  empty: called by what is in it
    void addFigure(const std::vector<Piece>& pieces, std::size_t from, std::size_t to,
                   const std::string& known) {
        name_ = nameOf(pieces, from, to);
        if (name_.empty()) return;
        if (!known.empty()) name_ = known;
        if (const int count = ++count_[name_]; count > 1) name_ += " " + std::to_string(count);
        FigureReview r;
        r.name = name_;
        r.start_s = pieces[from].start_s;
        r.stop_s = pieces[to - 1].stop_s;
        // Of a long level line the figure is only what is rolled on it.
        constexpr double kBeside_s = 1;
        if (levelLine(pieces[from]) && !pieces[from].rolls.empty())
            r.start_s = std::max(r.start_s, pieces[from].rolls.front().start_s - kBeside_s);
        if (levelLine(pieces[to - 1]) && !pieces[to - 1].rolls.empty())
            r.stop_s = std::min(r.stop_s, pieces[to - 1].rolls.back().stop_s + kBeside_s);
        extremes(r);
        review_.figures.push_back(std::move(r));
        for (std::size_t i = from; i < to; ++i) addPiece(pieces[i]);
    }

    void extremes(FigureReview& r) const {
        const Extremes f = extremesOf(flight_, r.start_s, r.stop_s, flight_.known.airspeed);
        r.entry_mps.flown = f.entry_mps;
        r.entry_sigma_mps = f.entry_sigma_mps;
        r.lowest_m.flown = f.lowest_m;
        r.highest_m.flown = f.highest_m;
        r.nearest_y_m.flown = f.nearest_y_m - site_.crowd_line_y_m;
        r.most_g.flown = f.most_g;
        r.least_g.flown = f.least_g;
        r.most_sigma_g = f.most_sigma_g;
        r.least_sigma_g = f.least_sigma_g;
        r.place_sigma_m = f.place_sigma_m;
    }

    void addPiece(const Piece& piece) {
        const std::string name = wordsOf(piece);
        if (piece.motion == Motion::Slide) {
            const SlideMeasure m = measureSlide(flight_, piece, kSwingSeenLate_s);
            SlideReview slide;
            slide.figure = name_;
            slide.start_s = piece.start_s;
            slide.way_m.flown = m.way_m;
            slide.fastest_mps.flown = m.fastest_mps;
            slide.way_sigma_m = m.sigma_m;
            slide.fastest_sigma_mps = m.fastest_sigma_mps;
            review_.slides.push_back(std::move(slide));
        }
        if (piece.motion == Motion::Pivot && span_m_ > 0) {
            review_.pivots.push_back({name_,
                                      piece.start_s,
                                      {pivotHalfSpans(flight_, piece, span_m_), 0},
                                      pivotSigma(flight_, piece, span_m_)});
        }
        if (piece.motion == Motion::Spin || piece.motion == Motion::Tumble)
            review_.turnings.push_back(
                {name_, piece.motion, piece.start_s, measureTurns(flight_, piece), {}, {}});
        if (const auto arc = measureArc(flight_, piece, judgesEye(site_)))
            review_.arcs.push_back({name_, name, *arc, ArcMeasure()});
        if (piece.motion != Motion::Line) return;
        addRolls(piece, name);
        addLine(piece, name);
    }

    void addRolls(const Piece& piece, const std::string& name) {
        for (const Roll& roll : piece.rolls) {
            const double quarters = std::round(roll.angle_rad / (90 * units::kDegree_rad));
            const double meant_rad = quarters * 90 * units::kDegree_rad;
            if (quarters == 0 || std::fabs(roll.angle_rad - meant_rad) > kRollMeant_rad) continue;
            review_.rolls.push_back({name_, name, measureRoll(flight_, roll, meant_rad)});
        }
    }

    void addLine(const Piece& piece, const std::string& name) {
        const double climb_rad = climbOf(piece.nose_S);
        const double meant_rad =
            std::round(climb_rad / (45 * units::kDegree_rad)) * 45 * units::kDegree_rad;
        if (meant_rad == 0 || std::fabs(climb_rad - meant_rad) > kMeant_rad) return;
        Piece meant = piece;
        const double heading_rad = std::atan2(piece.nose_S.y, piece.nose_S.x);
        meant.nose_S = Vec3(std::cos(meant_rad) * std::cos(heading_rad),
                            std::cos(meant_rad) * std::sin(heading_rad), std::sin(meant_rad));
        const auto m = measureLine(flight_, piece, meant, zero_lift_rad_);
        if (!m) return;
        if (pointsFor(m->off_rad) > 0 && m->off_rad > 2 * m->sigma_rad)
            review_.remarks.push_back({m->off_rad / (5 * units::kDegree_rad), m->start_s, name_,
                                       name + ": " + lineWords(*m), lineAdvice(*m), Fault::Line,
                                       name});
        review_.lines.push_back({name_, name, *m, seenFrom(judgesEye(site_), flight_, *m),
                                 seenFrom(crowdsEye(site_), flight_, *m)});
    }

    const path::Path& flight_;
    double zero_lift_rad_, span_m_;
    const data::Site& site_;
    std::span<const KnownFigure> known_;
    Review review_;
    std::string name_;
    std::map<std::string, int> count_;
};

}  // namespace

Review reviewAlone(const path::Path& flight, double zero_lift_rad, double span_m,
                   const data::Site& site, std::span<const KnownFigure> known) {
    return Alone(flight, zero_lift_rad, span_m, site, known).make();
}

}  // namespace plumbline::review

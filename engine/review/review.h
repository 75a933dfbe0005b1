#pragma once
// A flight against its plan: figures, lines, rolls, heights, and what is most worth mending.

#include <optional>
#include <string>
#include <vector>

#include "engine/data/aircraft.h"
#include "engine/data/site.h"
#include "engine/review/arcs.h"
#include "engine/review/lines.h"
#include "engine/review/seen.h"
#include "engine/review/turns.h"

namespace plumbline::review {

/// A number of the flight beside the plan's.
struct Beside {
    double flown = 0, planned = 0;
};

/// chosen: samples of a plan a second to compare a flight with
inline constexpr double kPlanRate_hz = 50;

/// A figure of the plan as it was flown.
struct FigureReview {
    std::string name;
    bool out_of_order = false;
    bool again = false;              ///< flown once more than planned: this is not the first
    double start_s = 0, stop_s = 0;  ///< of the flight
    double planned_start_s = 0, planned_stop_s = 0;
    double late_s = 0;           ///< against the plan, from the first figure on
    double late_sigma_s = 0;     ///< this and the others below: 0: not told
    Beside lowest_m, highest_m;  ///< heights above show centre
    /// Airspeed where the flight has it, else over the ground, of the plan too.
    Beside entry_mps;
    double entry_sigma_mps = 0;
    Beside most_g, least_g;
    double most_sigma_g = 0, least_sigma_g = 0;
    Beside nearest_y_m;        ///< least distance from the crowd line
    double place_sigma_m = 0;  ///< of heights and places; 0: not told
};

/// A top with a steep way down behind it, against its gate.
struct TopReview {
    std::string figure;
    double time_s = 0;
    Beside height_m;
    double gate_m = 0;   ///< least height there to fly the way down, at the plan's speed
    double sigma_m = 0;  ///< of the flown height; 0: not told
};

/// A slide against its plan.
struct SlideReview {
    std::string figure;
    double start_s = 0;
    Beside way_m;        ///< height from its top to its end, where the nose is let swing
    Beside fastest_mps;  ///< tail first
    double way_sigma_m = 0, fastest_sigma_mps = 0;  ///< 0: not told
};

/// What a remark is about.
enum class Fault { Other, Height, Top, Slide, Roll, RollPlace, Line, Spin };

/// Something to mend, in plain words.
struct Remark {
    double weight = 0;  ///< one: a published point, or as much as matters
    double time_s = 0;  ///< of the flight
    std::string figure;
    std::string words;
    std::string advice;  ///< what to do about it, a sentence
    Fault fault = Fault::Other;
    std::string element;  ///< of a line or a roll: what the plan calls it
};

struct Review {
    double points_for_5_deg = kUsualPoints;  ///< what lines and rolls were judged by
    bool with_plan = true;                   ///< false: all that is called planned is 0
    /// Less than half of the plan is in the flight and less than half of the flight in the plan:
    /// only figures that are surely there are told.
    bool unlike_plan = false;
    std::vector<FigureReview> figures;
    std::vector<std::string> missing;
    /// Where the flight began later than the plan or ended sooner, the first and the last figure of
    /// the plan that it flew, counted from 1; 0: it flew the plan from end to end.
    int part_first = 0, part_last = 0;
    std::vector<std::string> beyond_part;  ///< figures before and behind them: of `missing`
    std::vector<TopReview> tops;           ///< addTops
    struct Line {
        std::string figure, name;
        LineMeasure measure;
        std::optional<Seen> from_judge, from_crowd;
        /// As measure.before_roll_m of the plan; 0 without a roll, or without a plan.
        double planned_before_roll_m = 0, planned_after_roll_m = 0;
    };
    std::vector<Line> lines;
    struct RolledLine {
        std::string figure, name;
        RollMeasure measure;
    };
    std::vector<RolledLine> rolls;
    struct Arc {
        std::string figure, name;
        ArcMeasure flown, planned;
    };
    std::vector<Arc> arcs;  ///< half loops and more
    struct Pivot {
        std::string figure;
        double start_s = 0;
        Beside half_spans;
        double sigma = 0;  ///< of the flown; 0: not told
    };
    std::vector<Pivot> pivots;
    std::vector<SlideReview> slides;
    struct Turning {
        std::string figure;
        Motion motion = Motion::Spin;  ///< or Tumble
        double start_s = 0;
        TurnsMeasure flown, planned;
        std::optional<double> too_far_rad;  ///< Spin, against its plan
    };
    std::vector<Turning> turnings;   ///< spins and tumbles
    std::vector<Remark> remarks;     ///< the heaviest first
    std::vector<std::string> notes;  ///< what could not be measured, and why
};

/// "flown: figures 12 to 20 of the plan's 36; not flown: 1 to 11 and 21 to 36"; empty: all of it.
std::string partWords(const Review& review, std::size_t planned_figures);

/// @param flight  in the site's axes (record::inSite)
/// @param points_for_5_deg  as the published text has it that is to be judged by
Review reviewFlight(const path::Path& flight, const path::Path& plan,
                    const data::Aircraft& aircraft, const data::Site& site,
                    double points_for_5_deg = kUsualPoints);

}  // namespace plumbline::review

#pragma once
// A recorded flight looked at: over its plan, or for itself.

#include <memory>
#include <string>
#include <vector>

#include "engine/review/review.h"
#include "viewer/scene/ghost.h"

namespace plumbline::model {

struct Shown;

/// One thing to mend, as people say it.
struct ToMend {
    double time_s = 0;
    double weight = 0;  ///< of the remark: one is a published point, or as much as matters
    std::string fault;  ///< "3.1° off the vertical ±0.8°, too far towards the wheels"
    std::string where;  ///< "line up 250 m"; empty: the figure as a whole
    std::string figure;
    std::string advice;  ///< what to do about it; may be empty
};

/// How a row of the outline was flown.
struct RowReview {
    int figure = -1;    ///< index into the review's figures; -1: of none
    double off_m = -1;  ///< farthest from the plan's way; below 0: not known
};

/// Made once, with the flight that is shown.
struct FlightReview {
    review::Review result;
    std::shared_ptr<const Shown> plan;                       ///< null: none
    std::shared_ptr<const scene::Ghost> by_figure, by_time;  ///< the plan; null without one
    std::vector<ToMend> to_mend;                             ///< the heaviest first
    std::vector<RowReview> rows;                             ///< of the outline
    bool by_time_now = false;                                ///< which of the two ghosts is shown
};

/// How many are worth mending first.
inline constexpr std::size_t kWorstFew = 3;

/// What a remark says in parts.
ToMend toMend(const review::Remark& remark);

/// "Hammerhead up", "Half Cuban, 45 down": a line of a review by its figure and its way.
std::string lineName(const review::Review::Line& line);

/// "2.8° towards wheels", "1.1° to the left": which way a line is off; empty where it is not sure
/// that it is.
std::string lineSide(const review::LineMeasure& measure);

/// "Judge sees 88.1°" of the line that is flown at a moment, "Judge sees 43.2°, true 44.8°" of a
/// 45; empty where none is.
std::string judgeSees(const FlightReview& review, double time_s);

/// Twice the stated error: 19 times of 20 it is no more. 0: not told.
double within(double sigma);

/// What the numbers hide: the line is measured well enough to be judged by points of 5 deg.
bool sureEnough(const review::LineMeasure& measure);

/// Reviews the flight that stands in `shown` with path, world and lanes; fills in what follows from
/// it: review, rows, findings, notes on the path, and of a plan its ghost and its distance.
/// @param plan  a routine at the same site; null: none
void reviewShown(Shown& shown, std::shared_ptr<const Shown> plan);

/// The same flight with its plan set by figure or by time.
std::shared_ptr<const Shown> setByTime(const Shown& shown, bool by_time);

}  // namespace plumbline::model

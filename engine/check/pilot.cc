// What the pilot's body takes, by the limits that he has set himself.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/check/checker.h"

namespace plumbline::check {
namespace {

constexpr double kOnsetWindow_s = 0.5;     // chosen: a jolt shorter than this is not the blood's
constexpr double kTightOnset_gps = 0.5;    // chosen
constexpr double kTightSustained_s = 0.5;  // chosen
constexpr double kTightRest_frac = 0.05;   // chosen
// A rest: so long without much load, upright (chosen).
constexpr double kRest_s = 10, kRestLeast_g = 0.3, kRestMost_g = 2;

// Mean gain of load over the window.
void onset(Checker& c, Checker::Range range) {
    if (!(c.pilot.onset_gps > 0)) return;
    Worst quickest;
    const std::vector<path::Sample>& s = c.path.samples;
    std::size_t from = range.first;
    for (std::size_t i = range.first; i < range.last; ++i) {
        while (s[i].time_s - s[from].time_s > kOnsetWindow_s) ++from;
        const double over_s = s[i].time_s - s[from].time_s;
        if (over_s > 0.8 * kOnsetWindow_s)
            quickest.offer(c.pilot.onset_gps - (c.load_g[i] - c.load_g[from]) / over_s, i);
    }
    if (quickest.any())
        c.addWorst(quickest, kTightOnset_gps, "onset", "quickest gain of load, over half a second",
                   formatFixed(c.pilot.onset_gps - quickest.margin, 0) + " g/s",
                   {formatFixed(c.pilot.onset_gps, 0) + " g/s", "pilot file"},
                   "ask the load through a wider radius");
}

void sustained(Checker& c) {
    if (!(c.pilot.sustained_s > 0)) return;
    const Stretch most =
        c.longest(0, [&](std::size_t i) { return c.load_g[i] > c.pilot.sustained_g; });
    c.addWorst({c.pilot.sustained_s - most.seconds, most.last}, kTightSustained_s, "sustained load",
               "longest stretch above " + loads(c.pilot.sustained_g), seconds(most.seconds),
               {seconds(c.pilot.sustained_s), "pilot file"}, "ease off in between");
}

// For how much of the way from a to b the straight line between them is below zero: so a stretch
// does not hang on how often it is looked at.
double shareBelow(double a, double b) {
    if ((a < 0) == (b < 0)) return a < 0 ? 1 : 0;
    return std::min(a, b) / (std::min(a, b) - std::max(a, b));
}

// Negative load lowers what is borne of positive load soon after.
void pushThenPull(Checker& c) {
    if (!(c.pilot.after_negative_g > 0)) return;
    const std::vector<path::Sample>& s = c.path.samples;
    Worst worst;
    double negative_s = 0, ended_s = -1e9;
    for (std::size_t i = 1; i < s.size(); ++i) {
        const double before_g = c.load_g[i - 1] - kNegative_g, now_g = c.load_g[i] - kNegative_g;
        const double share = shareBelow(before_g, now_g), dt = s[i].time_s - s[i - 1].time_s;
        negative_s += share * dt;
        const bool over = now_g >= 0;
        if (share > 0 && negative_s >= kNegative_s)
            ended_s = s[i].time_s - (over ? (1 - share) * dt : 0);
        if (over) negative_s = 0;
        if (s[i].time_s - ended_s <= kAfterNegative_s)
            worst.offer(c.pilot.after_negative_g - c.load_g[i], i);
    }
    if (worst.any())
        c.addWorst(
            worst, kTightLoad_g, "push then pull",
            "greatest load within " + formatFixed(kAfterNegative_s, 0) + " s of negative load",
            loads(c.load_g[worst.sample]), {loads(c.pilot.after_negative_g), "pilot file"},
            "put a level line in between, or pull less");
}

void rest(Checker& c) {
    if (!(c.pilot.without_rest_s > 0)) return;
    const std::vector<path::Sample>& s = c.path.samples;
    double since_s = 0, quiet_from_s = 0, longest_s = 0;
    std::size_t at = 0;
    for (std::size_t i = 0; i < s.size(); ++i) {
        const bool quiet = c.load_g[i] >= kRestLeast_g && c.load_g[i] <= kRestMost_g;
        if (!quiet) quiet_from_s = s[i].time_s;
        if (s[i].time_s - quiet_from_s >= kRest_s) since_s = s[i].time_s;
        if (s[i].time_s - since_s > longest_s) {
            longest_s = s[i].time_s - since_s;
            at = i;
        }
    }
    c.addWorst({c.pilot.without_rest_s - longest_s, at}, kTightRest_frac * c.pilot.without_rest_s,
               "rest", "longest time without a rest of " + formatFixed(kRest_s, 0) + " s",
               minutes(longest_s), {minutes(c.pilot.without_rest_s), "pilot file"},
               "put a level pass or a repositioning in");
}

}  // namespace

void checkPilot(Checker& checker) {
    if (checker.path.samples.empty()) return;
    for (const Checker::Range& range : checker.figures) {
        checker.addLoads(range, {"pilot load", " against the pilot's", "pilot file"},
                         [&](std::size_t) -> data::LoadLimit {
                             return {0, checker.pilot.load_max_g, checker.pilot.load_min_g};
                         });
        onset(checker, range);
    }
    sustained(checker);
    pushThenPull(checker);
    rest(checker);
}

}  // namespace plumbline::check

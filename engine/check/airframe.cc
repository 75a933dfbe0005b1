// Loads by mass, loads while rolling, speeds both ways, time at negative load.

#include <cmath>

#include "engine/check/checker.h"

namespace plumbline::check {
namespace {

constexpr double kTightInverted_s = 5;  // chosen
constexpr double kOilBack_s = 3;        // chosen: upright for so long, and a stretch is over
constexpr double kRolling_radps = 90 * kPi / 180;  // chosen: more than a correction

void loadsOf(Checker& c, Checker::Range range) {
    c.addLoads(range, {"load", "", "aircraft file"}, [&](std::size_t i) {
        return data::loadLimitAt(c.aircraft, c.path.samples[i].mass_kg);
    });
    if (!(c.aircraft.limits.roll_load_max_g > 0)) return;
    Worst rolling;
    for (std::size_t i = range.first; i < range.last; ++i)
        if (std::fabs(c.path.samples[i].rate_B_radps.x) > kRolling_radps)
            rolling.offer(c.aircraft.limits.roll_load_max_g - c.load_g[i], i);
    if (rolling.any())
        c.addWorst(rolling, kTightLoad_g, "rolling load", "greatest load while rolling",
                   loads(c.load_g[rolling.sample]),
                   {loads(c.aircraft.limits.roll_load_max_g), "aircraft file"},
                   "end the pull before the roll");
}

void speedsOf(Checker& c, Checker::Range range) {
    const data::AircraftLimits& limits = c.aircraft.limits;
    Worst fast, back;
    for (std::size_t i = range.first; i < range.last; ++i) {
        const path::Sample& s = c.path.samples[i];
        if (std::fabs(s.aoa_rad) > kPi / 2)
            back.offer(limits.tail_first_mps - s.airspeed_mps, i);
        else
            fast.offer(limits.never_exceed_mps - c.cas_mps[i], i);
    }
    if (limits.never_exceed_mps > 0 && fast.any())
        c.addWorst(fast, kTightSpeed_mps, "speed", "greatest calibrated airspeed",
                   knots(c.cas_mps[fast.sample]), {knots(limits.never_exceed_mps), "aircraft file"},
                   "shorten the downline, or close the throttle on it");
    if (limits.tail_first_mps > 0 && back.any())
        c.addWorst(back, kTightSpeed_mps, "tail-first speed", "greatest speed tail first",
                   knots(c.path.samples[back.sample].airspeed_mps),
                   {knots(limits.tail_first_mps), "aircraft file"}, "shorten the slide");
}

// Oil and fuel at negative load: a stretch counts until they had time to come back.
void inverted(Checker& c) {
    const double limit_s = c.aircraft.limits.inverted_s;
    const Stretch most = c.longest(kOilBack_s, [&](std::size_t i) { return c.load_g[i] < 0; });
    if (!(limit_s > 0) || !(most.seconds > 0)) return;
    const bool over = most.seconds > limit_s, tight = most.seconds > limit_s - kTightInverted_s;
    c.add(over    ? Grade::Unsafe
          : tight ? Grade::Tight
                  : Grade::Note,
          "inverted", most.last, limit_s - most.seconds, "longest stretch at negative load",
          minutes(most.seconds), {minutes(limit_s), "aircraft file"},
          over || tight ? "fly upright in between, for oil and fuel" : "");
}

}  // namespace

void checkAirframe(Checker& checker) {
    for (const Checker::Range& range : checker.figures) {
        loadsOf(checker, range);
        speedsOf(checker, range);
    }
    inverted(checker);
}

}  // namespace plumbline::check

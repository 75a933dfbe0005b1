// Full power, head temperature, overspeed, fuel, and the slot.

#include <algorithm>

#include "engine/base/number_text.h"
#include "engine/check/checker.h"
#include "engine/units/units.h"

namespace plumbline::check {
namespace {

constexpr double kFullPower_frac = 0.97;  // chosen: the lever at its stop
constexpr double kCoolDown_s = 10;        // chosen: throttled for so long, and a stretch is over
constexpr double kTightFullPower_frac = 0.05;  // chosen
constexpr double kTightHead_k = 5;             // chosen

std::string celsius(double kelvin) { return formatFixed(kelvin - 273.15, 0) + " degC"; }

void power(Checker& c) {
    const double limit_s = c.aircraft.limits.full_power_s;
    if (!(limit_s > 0)) return;
    const Stretch most = c.longest(kCoolDown_s, [&](std::size_t i) {
        return c.path.samples[i].power_frac >= kFullPower_frac;
    });
    c.addWorst({limit_s - most.seconds, most.last}, kTightFullPower_frac * limit_s, "full power",
               "longest stretch at full power", minutes(most.seconds),
               {minutes(limit_s), "aircraft file"}, "throttle back on the way to the next figure");
}

void heat(Checker& c) {
    const double limit_k = c.aircraft.power.head_limit_k;
    if (!(limit_k > 0)) return;
    Worst hottest;
    for (std::size_t i = 0; i < c.path.samples.size(); ++i)
        hottest.offer(limit_k - c.path.samples[i].head_temperature_k, i);
    c.addWorst(hottest, kTightHead_k, "head temperature",
               "highest head temperature (a lumped model, indicative only)",
               celsius(c.path.samples[hottest.sample].head_temperature_k),
               {celsius(limit_k), "aircraft file"}, "put a break in to cool the engine");
}

void overspeed(Checker& c) {
    const double limit_mps = c.aircraft.limits.overspeed_mps;
    if (!(limit_mps > 0)) return;
    for (const Checker::Range& range : c.figures) {
        Worst fastest;
        for (std::size_t i = range.first; i < range.last; ++i)
            fastest.offer(limit_mps - c.cas_mps[i], i);
        c.addWorst(fastest, kTightSpeed_mps, "overspeed",
                   "speed at which the propeller turns too fast", knots(c.cas_mps[fastest.sample]),
                   {knots(limit_mps), "aircraft file"},
                   "shorten the downline, or close the throttle on it");
    }
}

void fuelAndSlot(Checker& c) {
    const std::size_t last = c.path.samples.size() - 1;
    const double litre_kg = 1e-3 * c.aircraft.mass.fuel_density_kgpm3;
    const double left_l = c.path.samples[last].fuel_kg / litre_kg;
    const double margin_m3 = 1e-3 * (left_l - c.routine.reserve_l);
    const Checker::Limit reserve{litres(c.routine.reserve_l), "routine file"};
    if (left_l < c.routine.reserve_l)
        c.add(left_l < 0 ? Grade::Cannot : Grade::Unsafe, "fuel", last, margin_m3,
              left_l < 0 ? "the fuel runs out before the end"
                         : "less fuel at the end than the reserve",
              litres(std::max(left_l, 0.0)), reserve, "start with more fuel, or fly fewer figures");
    else
        c.add(Grade::Note, "fuel", last, margin_m3, "fuel at the end", litres(left_l), reserve, "");
    if (c.routine.slot_s > 0 && c.path.duration_s() > c.routine.slot_s)
        c.add(Grade::Unsafe, "slot", last, c.routine.slot_s - c.path.duration_s(),
              "the routine is longer than its slot", minutes(c.path.duration_s()),
              {minutes(c.routine.slot_s), "routine file"}, "leave a figure out");
}

}  // namespace

void checkEngine(Checker& checker) {
    if (checker.path.samples.empty()) return;
    power(checker);
    heat(checker);
    overspeed(checker);
    fuelAndSlot(checker);
}

}  // namespace plumbline::check

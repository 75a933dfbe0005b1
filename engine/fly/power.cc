#include "engine/fly/power.h"

#include <cmath>

namespace plumbline::fly {
namespace {

// chosen: with shares of 0.53 at rest and 0.87 cruising this follows the constant-speed curves of
// NACA Reports 640 and 658 from rest to 90 m/s (tests/literature/propeller_test.cc).
constexpr double kShareAt = 0.6;
// From a little backwards on: a table is the least exact at its ends.
constexpr double kTableStart = -0.25, kTableStep = 0.05;
constexpr int kTableSize = 405;
constexpr double kLeastTabulated = 0.1;

// Dimensionless thrust t of the disc at dimensionless speed v with power share e: t (v/2 +
// sqrt(v^2/4 + t/2)) = e. In w = induced speed, t = 2 w (v + w) and t (v + w) = e, a cubic with one
// positive root: 2 w (v + w)^2 = e.
double discThrust(double v, double e) {
    if (!(e > 0)) return 0;
    double w = std::cbrt(e / 2);
    for (int i = 0; i < 60; ++i) {
        const double f = 2 * w * (v + w) * (v + w) - e;
        const double slope = 2 * (v + w) * (v + 3 * w);
        const double next = w - f / slope;
        if (std::fabs(next - w) < 1e-15) break;
        w = next;
    }
    return 2 * w * (v + w);
}

}  // namespace

PowerModel::PowerModel(const data::Aircraft& aircraft) {
    const data::AircraftPower& p = aircraft.power;
    max_power_w_ = p.max_power_w;
    idle_frac_ = p.idle_power_frac;
    area_m2_ = 0.25 * kPi * p.propeller_diameter_m * p.propeller_diameter_m;
    windmill_area_m2_ = p.windmill_drag_area_m2;
    bsfc_full_ = p.bsfc_full_kgpj;
    bsfc_cruise_ = p.bsfc_cruise_kgpj;
    idle_fuel_kgps_ = p.idle_fuel_kgps;
    head_heat_k_ = p.head_heat_k;
    head_per_s_ = p.head_time_s > 0 ? 1 / p.head_time_s : 0;
    if (p.head_cooling_speed_mps > 0) {
        // Cooling is never none: chosen, an idling stand cools at under half the rate.
        still_cooling_ = 0.45;
        wind_cooling_pmps_ = 0.55 / p.head_cooling_speed_mps;
    }
    std::vector<double> values;
    values.reserve(kTableSize);
    for (int i = 0; i < kTableSize; ++i) {
        const double x = kTableStart + i * kTableStep;
        const double blend = x * x / (x * x + kShareAt * kShareAt);
        const double share =
            p.static_merit_frac + (p.cruise_efficiency_frac - p.static_merit_frac) * blend;
        values.push_back(discThrust(x, share));
    }
    thrust_of_x_ = UniformSpline(kTableStart, kTableStep, values);
    table_end_ = kTableStart + kTableStep * (kTableSize - 1);
    // A root is steep where there is least: from a tenth of the lever's way on it is tabulated.
    constexpr int kRoots = 401;
    std::vector<double> roots;
    for (int i = 0; i < kRoots; ++i) roots.push_back(std::cbrt(setting(i / (kRoots - 1.0))));
    cube_root_of_throttle_ = UniformSpline(0, 1 / (kRoots - 1.0), roots);
}

double PowerModel::unitSpeed_mps(double density_kgpm3) const {
    if (!(area_m2_ > 0) || !(density_kgpm3 > 0)) return 0;
    return std::cbrt(max_power_w_ * lapse(density_kgpm3) / (density_kgpm3 * area_m2_));
}

PowerModel::Lever PowerModel::lever(double throttle_frac) const {
    Lever l;
    l.share = setting(throttle_frac);
    l.cube_root = throttle_frac >= kLeastTabulated ? cube_root_of_throttle_(throttle_frac)
                                                   : std::cbrt(l.share);
    const double closed = 1 - throttle_frac;
    l.closed2 = closed * closed;
    // The mixture goes rich towards full throttle; the lever's square is a fair shape for that
    // (common practice, no source).
    const double bsfc = bsfc_cruise_ + (bsfc_full_ - bsfc_cruise_) * throttle_frac * throttle_frac;
    l.fuel_kgps = idle_fuel_kgps_ * closed;
    l.fuel_of_lapse_kgps = bsfc * l.share * max_power_w_;
    return l;
}

}  // namespace plumbline::fly

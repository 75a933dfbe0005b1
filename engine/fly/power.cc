#include "engine/fly/power.h"

#include <algorithm>
#include <cmath>

#include "engine/earth/atmosphere.h"

namespace plumbline::fly {
namespace {

// chosen: with shares of 0.53 at rest and 0.87 cruising this follows the constant-speed curves of
// NACA Reports 640 and 658 from rest to 90 m/s (tests/literature/propeller_test.cc).
constexpr double kShareAt = 0.6;
constexpr double kTableStep = 0.05;
constexpr int kTableSize = 400;
constexpr double kThinnest_kgpm3 = 0.3, kDensityStep_kgpm3 = 0.01;
constexpr int kDensities = 130;
constexpr int kSettings = 400;

// Dimensionless thrust t of the disc at dimensionless speed v with power share e: t (v/2 +
// sqrt(v^2/4 + t/2)) = e. In w = induced speed, t = 2 w (v + w) and t (v + w) = e, a cubic with one
// positive root: 2 w (v + w)^2 = e.
double discThrust(double v, double e) {
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
    head_time_s_ = p.head_time_s;
    head_speed_mps_ = p.head_cooling_speed_mps;
    std::vector<double> values;
    values.reserve(kTableSize);
    for (int i = 0; i < kTableSize; ++i) {
        const double x = i * kTableStep;
        const double blend = x * x / (x * x + kShareAt * kShareAt);
        const double share =
            p.static_merit_frac + (p.cruise_efficiency_frac - p.static_merit_frac) * blend;
        values.push_back(discThrust(x, share));
    }
    thrust_of_x_ = UniformSpline(0, kTableStep, values);
    table_end_ = kTableStep * (kTableSize - 1);
    if (max_power_w_ > 0 && area_m2_ > 0) {
        // From thin air, where the engine gives nothing, to colder than any airfield.
        std::vector<double> unit_speed;
        for (int i = 0; i < kDensities; ++i) {
            const double density = kThinnest_kgpm3 + i * kDensityStep_kgpm3;
            unit_speed.push_back(
                std::cbrt(shaftPower_w(1, density) / setting(1) / (density * area_m2_)));
        }
        // An idle of some power keeps the cube root smooth enough to tabulate.
        if (idle_frac_ >= 0.02) {
            std::vector<double> roots;
            for (int i = 0; i <= kSettings; ++i)
                roots.push_back(std::cbrt(setting(static_cast<double>(i) / kSettings)));
            cube_root_of_throttle_ = UniformSpline(0, 1.0 / kSettings, roots);
        }
        unit_speed_of_density_ = UniformSpline(kThinnest_kgpm3, kDensityStep_kgpm3, unit_speed);
    }
}

double PowerModel::shaftPower_w(double throttle_frac, double density_kgpm3) const {
    const double sigma = density_kgpm3 / earth::kSeaLevelDensity_kgpm3;
    return setting(throttle_frac) * max_power_w_ * std::max(0.0, 1.132 * sigma - 0.132);
}

double PowerModel::cubeRootOfShare(double throttle_frac, double share) const {
    return cube_root_of_throttle_.empty() || throttle_frac < 0 || throttle_frac > 1
               ? std::cbrt(share)
               : cube_root_of_throttle_(throttle_frac);
}

double PowerModel::fuelFlow_kgps(double throttle_frac, double density_kgpm3) const {
    // The mixture goes rich towards full throttle; the lever's square is a fair shape for that
    // (common practice, no source).
    const double bsfc = bsfc_cruise_ + (bsfc_full_ - bsfc_cruise_) * throttle_frac * throttle_frac;
    return idle_fuel_kgps_ * (1 - throttle_frac) +
           bsfc * shaftPower_w(throttle_frac, density_kgpm3);
}

double PowerModel::headRate_kps(double throttle_frac, double density_kgpm3, double air_k,
                                double speed_mps, double head_k) const {
    if (!(head_time_s_ > 0)) return 0;
    const double sigma = density_kgpm3 / earth::kSeaLevelDensity_kgpm3;
    const double wind = head_speed_mps_ > 0 ? speed_mps / head_speed_mps_ : 1;
    // Cooling by the slipstream at rest and by airspeed: never none.
    const double cooling =
        sigma * (0.45 + 0.55 * wind);  // chosen: an idling stand cools at under half the rate
    return (head_heat_k_ * setting(throttle_frac) - (head_k - air_k) * cooling) / head_time_s_;
}

}  // namespace plumbline::fly

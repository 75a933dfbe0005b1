#pragma once
// Engine and propeller: thrust, fuel, head temperature.
//
// Shaft power: P = setting * max_power * (1.132 sigma - 0.132), sigma = rho / 1.225 (Gagg & Ferrar,
// SAE 340096, 1934). Thrust: actuator disc fed a share eta of the shaft power, eta P = T (V/2 +
// sqrt(V^2/4 + T/(2 rho A))). With x = V / (P/(rho A))^(1/3) the share goes from the static merit
// to the cruise efficiency as x^2/(x^2 + x0^2), and T / ((rho A)^(1/3) P^(2/3)) is a function of x
// alone, tabulated. Backwards (V < 0) the static value is all but held (heldBackwards_mps). An
// idling propeller adds drag by its file's area, faded out as power comes on.

#include <algorithm>
#include <cmath>

#include "engine/data/aircraft.h"
#include "engine/earth/atmosphere.h"
#include "engine/math/spline.h"

namespace plumbline::fly {

class PowerModel {
public:
    PowerModel() = default;
    explicit PowerModel(const data::Aircraft& aircraft);

    /// Shaft power over sea-level full power, from the lever (0 idle .. 1 full).
    double setting(double throttle_frac) const {
        return idle_frac_ + (1 - idle_frac_) * throttle_frac;
    }
    double shaftPower_w(double throttle_frac, double density_kgpm3) const {
        return setting(throttle_frac) * max_power_w_ * lapse(density_kgpm3);
    }
    /// (P / (rho A))^(1/3) at full power: the speed that thrust scales with.
    double unitSpeed_mps(double density_kgpm3) const;

    /// What follows from the lever alone.
    struct Lever {
        double share = 1, cube_root = 1;  ///< of full power
        double closed2 = 0;               ///< (1 - throttle)^2
        double fuel_kgps = 0;             ///< without the density's part
        double fuel_of_lapse_kgps = 0;    ///< times the power left at this density
    };
    Lever lever(double throttle_frac) const;
    double shaftPower_w(const Lever& lever, double density_kgpm3) const {
        return lever.share * max_power_w_ * lapse(density_kgpm3);
    }

    /// What the propeller does at one setting in one air, for several speeds.
    struct Running {
        double disc_kgpm = 0;       ///< rho A
        double unit_speed_mps = 0;  ///< (P / (rho A))^(1/3)
        double windmill_kgpm = 0;   ///< drag per V^2 of the idling propeller
    };
    Running running(const Lever& lever, double density_kgpm3, double full_unit_speed_mps) const {
        return {density_kgpm3 * area_m2_, full_unit_speed_mps * lever.cube_root,
                0.5 * density_kgpm3 * windmill_area_m2_ * lever.closed2};
    }
    /// Thrust near one speed: the table's own cubic there, so that a few speeds cost one look-up.
    struct Near {
        double speed_mps = 0, windmill_kgpm = 0;
        UniformSpline::Cubic cubic;
        double at(double v) const {
            return cubic(v - speed_mps) - windmill_kgpm * v * std::fabs(v);
        }
    };
    /// @param forward_speed_mps  air speed along the propeller axis, positive
    Near near(const Running& r, double forward_speed_mps) const {
        Near n;
        n.speed_mps = forward_speed_mps;
        n.windmill_kgpm = r.windmill_kgpm;
        if (!(r.unit_speed_mps > 0)) return n;
        const double inverse = 1 / r.unit_speed_mps, x = forward_speed_mps * inverse;
        const double scale = r.disc_kgpm * r.unit_speed_mps * r.unit_speed_mps;
        if (x >= table_end_) {
            // Beyond the table the disc's induced speed is nothing beside the speed: T = eta P / V.
            const double t = scale * thrust_of_x_(table_end_) * table_end_ / x;
            const double per = 1 / forward_speed_mps;
            n.cubic = {t, -t * per, t * per * per, -t * per * per * per};
            return n;
        }
        n.cubic = thrust_of_x_.cubicAt(x);
        n.cubic.a *= scale;
        n.cubic.b *= scale * inverse;
        n.cubic.c *= scale * inverse * inverse;
        n.cubic.d *= scale * inverse * inverse * inverse;
        return n;
    }
    /// @param forward_speed_mps  air speed along the propeller axis, negative tail first
    double thrust_n(const Running& r, double forward_speed_mps) const {
        const double v = forward_speed_mps;
        if (v > 0) return near(r, v).at(v);
        const double held = heldBackwards_mps(v);
        return near(r, held).at(held) + r.windmill_kgpm * (v * v - held * held);
    }
    double thrust_n(double throttle_frac, double density_kgpm3, double forward_speed_mps) const {
        return thrust_n(running(lever(throttle_frac), density_kgpm3, unitSpeed_mps(density_kgpm3)),
                        forward_speed_mps);
    }
    double fuelFlow_kgps(const Lever& lever, double density_kgpm3) const {
        return lever.fuel_kgps + lever.fuel_of_lapse_kgps * lapse(density_kgpm3);
    }
    double fuelFlow_kgps(double throttle_frac, double density_kgpm3) const {
        return fuelFlow_kgps(lever(throttle_frac), density_kgpm3);
    }
    /// d(head temperature)/dt; outside air, airspeed; indicative only.
    double headRate_kps(double share, double density_kgpm3, double air_k, double speed_mps,
                        double head_k) const {
        const double cooling =
            density_kgpm3 * kPerDensity * (still_cooling_ + wind_cooling_pmps_ * speed_mps);
        return (head_heat_k_ * share - (head_k - air_k) * cooling) * head_per_s_;
    }

    /// The speed that the disc works at, backwards.
    ///
    /// It follows the speed from nought with continuous slope and curvature and stays at 0.5 m/s
    /// from 1 m/s on: so that no force jumps in slope where a slide or a tumble begins to go
    /// backwards.
    static double heldBackwards_mps(double v) {
        constexpr double kHalf_mps = 0.5;  // chosen: too little to be seen in thrust (under 1 %)
        const double x = v + kHalf_mps;
        if (x <= -kHalf_mps) return -kHalf_mps;
        const double sum = x + kHalf_mps;
        return sum * sum * sum * (3 * kHalf_mps - x) / (16 * kHalf_mps * kHalf_mps * kHalf_mps) -
               kHalf_mps;
    }

private:
    static constexpr double kPerDensity = 1 / earth::kSeaLevelDensity_kgpm3;
    /// Power left at a density (Gagg & Ferrar).
    static double lapse(double density_kgpm3) {
        return std::max(0.0, 1.132 * kPerDensity * density_kgpm3 - 0.132);
    }

    double max_power_w_ = 0, idle_frac_ = 0, area_m2_ = 0, windmill_area_m2_ = 0;
    double bsfc_full_ = 0, bsfc_cruise_ = 0, idle_fuel_kgps_ = 0;
    double head_heat_k_ = 0, head_per_s_ = 0;
    double still_cooling_ = 1, wind_cooling_pmps_ = 0;  ///< by slipstream, by airspeed
    UniformSpline thrust_of_x_, cube_root_of_throttle_;
    double table_end_ = 0;
};

}  // namespace plumbline::fly

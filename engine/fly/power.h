#pragma once
// Engine and propeller: thrust, fuel, head temperature.
//
// Shaft power: P = setting * max_power * (1.132 sigma - 0.132), sigma = rho / 1.225 (Gagg & Ferrar,
// SAE 340096, 1934). Thrust: actuator disc fed a share eta of the shaft power, eta P = T (V/2 +
// sqrt(V^2/4 + T/(2 rho A))). With x = V / (P/(rho A))^(1/3) the share goes from the static merit
// to the cruise efficiency as x^2/(x^2 + x0^2), and T / ((rho A)^(1/3) P^(2/3)) is a function of x
// alone, tabulated. Backwards (V < 0) the static value is held. An idling propeller adds drag by
// its file's area, faded out as power comes on.

#include <cmath>

#include "engine/data/aircraft.h"
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
    double shaftPower_w(double throttle_frac, double density_kgpm3) const;
    /// What the propeller does at one setting and density, for several speeds.
    struct Running {
        double disc_kgpm = 0;       ///< rho A
        double unit_speed_mps = 0;  ///< (P / (rho A))^(1/3)
        double windmill_kgpm = 0;   ///< drag per V^2 of the idling propeller
    };
    Running running(double throttle_frac, double density_kgpm3) const {
        Running r;
        r.disc_kgpm = density_kgpm3 * area_m2_;
        const double share = setting(throttle_frac);
        if (share > 0 && !unit_speed_of_density_.empty())
            r.unit_speed_mps = unit_speed_of_density_(density_kgpm3) *
                               (share == 1 ? 1 : cubeRootOfShare(throttle_frac, share));
        const double closed = 1 - throttle_frac;
        r.windmill_kgpm = 0.5 * density_kgpm3 * windmill_area_m2_ * closed * closed;
        return r;
    }
    /// @param forward_speed_mps  air speed along the propeller axis, negative tail first
    double thrust_n(const Running& running, double forward_speed_mps) const {
        double thrust = 0;
        if (running.unit_speed_mps > 0) {
            const double x = forward_speed_mps > 0 ? forward_speed_mps / running.unit_speed_mps : 0;
            // Beyond the table the disc's induced speed is nothing beside the speed: T = eta P / V.
            const double unit_thrust =
                x < table_end_ ? thrust_of_x_(x) : thrust_of_x_(table_end_) * table_end_ / x;
            thrust =
                running.disc_kgpm * running.unit_speed_mps * running.unit_speed_mps * unit_thrust;
        }
        return thrust - running.windmill_kgpm * forward_speed_mps * std::fabs(forward_speed_mps);
    }
    double thrust_n(double throttle_frac, double density_kgpm3, double forward_speed_mps) const {
        return thrust_n(running(throttle_frac, density_kgpm3), forward_speed_mps);
    }
    double fuelFlow_kgps(double throttle_frac, double density_kgpm3) const;
    /// d(head temperature)/dt; outside air, airspeed; indicative only.
    double headRate_kps(double throttle_frac, double density_kgpm3, double air_k, double speed_mps,
                        double head_k) const;

private:
    double max_power_w_ = 0, idle_frac_ = 0, area_m2_ = 0, windmill_area_m2_ = 0;
    double bsfc_full_ = 0, bsfc_cruise_ = 0, idle_fuel_kgps_ = 0;
    double head_heat_k_ = 0, head_time_s_ = 0, head_speed_mps_ = 0;
    UniformSpline thrust_of_x_;
    UniformSpline unit_speed_of_density_;  ///< at full power
    UniformSpline cube_root_of_throttle_;  ///< of the share of full power
    double cubeRootOfShare(double throttle_frac, double share) const;
    double table_end_ = 0;
};

}  // namespace plumbline::fly

#pragma once
// What the model knows of an aircraft. Every entry has a unit and a sane range (aircraft_toml.cc);
// any coefficient may be zero, so that anyone can check a closed form. Immutable once loaded.

#include <optional>
#include <string>
#include <vector>

#include "engine/math/frames.h"

namespace plumbline::data {

struct AircraftMass {
    double empty_kg = 0;          ///< airframe, oil, unusable fuel
    double pilot_kg = 0;          ///< pilot and parachute
    double fuel_capacity_kg = 0;  ///< usable
    double fuel_density_kgpm3 = 720;
};

struct AircraftGeometry {
    double wing_area_m2 = 0;
    double span_m = 0;
    double length_m = 0;
    Vec3 eye_B_m{0};  ///< pilot's eye from the centre of gravity, body axes
};

/// Sighting frames on the wing tips: bars that show the pilot when a line stands right.
struct SightingFrame {
    double out_m = 0;                 ///< hub from the plane of symmetry; 0: near the tip
    std::optional<double> forward_m;  ///< hub from the centre of gravity; none: the eye's place
    std::optional<double> up_m;       ///< none: the eye's height
    double bar_m = 0;                 ///< length of a bar; 0: what looks right
    double leg_m = 0;                 ///< the wing's surface below the hub; 0: what looks right
};

/// Full-range coefficients referred to the wing area; see fly/aero.h for the equations.
struct AircraftAero {
    double lift_slope_prad = 0;        ///< dCL/d(aoa) below the stall
    double zero_lift_aoa_rad = 0;      ///< aoa of the body x axis at zero lift
    double cl_max = 0;                 ///< greatest lift coefficient upright
    double cl_min = 0;                 ///< greatest lift coefficient inverted, negative
    double cd0 = 0;                    ///< zero-lift drag
    double induced_k = 0;              ///< CD = cd0 + k CL^2 below the stall
    double side_force_slope_prad = 0;  ///< -dCY/d(sideslip) of fuselage and fin, positive
    double cy_max = 0;                 ///< side force coefficient at which it saturates (0: never)
    double sideslip_drag = 0;          ///< CD += sideslip_drag sin^2(sideslip)
    double cn_plate = 0;  ///< normal-force coefficient broadside, wing and fuselage (flat plate)
    double cd_tail_first = 0;                  ///< drag coefficient going backwards
    double sideslip_max_rad = 35 * kPi / 180;  ///< what full rudder holds (from memory)
};

/// Rotational data for the dynamic elements.
struct AircraftInertia {
    double pitch_inertia_kgm2 = 0;
    double tail_area_m2 = 0;  ///< horizontal tail
    double tail_arm_m = 0;    ///< from the centre of gravity back to the tail's centre of pressure
    double tail_lift_slope_prad = 0;  ///< of the tail alone, on the tail's area
    double static_margin_m =
        0;  ///< wing lift acts this far behind the centre of gravity (may be negative)
};

/// Snaps and spins: the wing stalled, the aircraft turning about its path. Zero: not known.
struct AircraftAutorotation {
    double snap_incidence_rad = 0;           ///< held while it snaps, beyond the stall
    double negative_snap_incidence_rad = 0;  ///< negative
    double snap_helix = 0;                   ///< rate times span over twice the speed
    double snap_rate_radps = 0;              ///< greatest rate
    double snap_speed_mps = 0;               ///< greatest speed to snap at
    double spin_incidence_rad = 0;
    double inverted_spin_incidence_rad = 0;  ///< negative
    double spin_rate_radps = 0;              ///< about the path, steady
    double spin_onset_s = 0;  ///< from the stall to that rate, and from there to a stop
    bool known() const { return snap_incidence_rad > 0; }
};

/// Torque rolls and tumbles: what turns the aircraft where the wing does not. Zero: not known.
struct AircraftRotation {
    double roll_inertia_kgm2 = 0;
    double roll_damping = 0;     ///< -dCl/d(p b / 2V), of the whole wing in its own wind
    double net_torque_frac = 0;  ///< share of the engine's torque that swirl over wing and tail
                                 ///< does not take back
    double propeller_inertia_kgm2 = 0;
    double fin_area_m2 = 0;        ///< at the tail's arm
    double control_moment_nm = 0;  ///< of elevator or rudder in the slipstream, full power, at rest
    double tumble_speed_mps = 0;   ///< greatest speed to tumble at
    bool known() const { return roll_inertia_kgm2 > 0; }
};

struct AircraftPower {
    double max_power_w = 0;  ///< shaft power at full throttle, sea level, standard day
    double rated_rpm = 0;
    double propeller_diameter_m = 0;
    double static_merit_frac = 0;  ///< figure of merit at rest: T0 = (2 rho A (f P)^2)^(1/3)
    double cruise_efficiency_frac =
        0;  ///< share of the shaft power the ideal disc gets at high advance ratio
    double windmill_drag_area_m2 = 0;  ///< idling propeller: drag area at zero power
    double throttle_lag_s = 0;         ///< time constant of the power lever to power
    double idle_power_frac = 0;        ///< shaft power at idle over full
    double bsfc_full_kgpj = 0;         ///< brake-specific fuel consumption, full rich
    double bsfc_cruise_kgpj = 0;       ///< leaned part power
    double idle_fuel_kgps = 0;
    bool clockwise_from_cockpit = true;
    // Lumped cylinder head, indicative only.
    double head_heat_k = 0;             ///< head above air at full power and reference cooling
    double head_time_s = 0;             ///< time constant at reference cooling
    double head_cooling_speed_mps = 0;  ///< speed of the reference cooling
    double head_limit_k = 0;            ///< absolute temperature, from the engine's handbook
};

struct AircraftLimits {
    double load_max_g = 0;
    double load_min_g = 0;         ///< negative
    double never_exceed_mps = 0;   ///< VNE, calibrated airspeed
    double manoeuvre_mps = 0;      ///< VA, calibrated airspeed
    double tail_first_mps = 0;     ///< greatest speed backwards
    double load_onset_gps = 0;     ///< g per second a pilot pulls (0: at once)
    double roll_rate_radps = 0;    ///< absolute cap
    double roll_helix = 0;         ///< p b / 2V at full aileron (0: only the cap)
    double roll_accel_radps2 = 0;  ///< (0: at once)
    double nose_capture_s =
        0.25;               ///< time over which the pitch rate is ramped out at the end of a pull
    double inverted_s = 0;  ///< longest time at a stretch that oil and fuel flow at negative load
                            ///< (0: not known)
    // Zero: not known, not checked.
    double full_power_s = 0;     ///< longest time at a stretch at full power
    double overspeed_mps = 0;    ///< calibrated airspeed above which the propeller turns too fast
    double roll_load_max_g = 0;  ///< greatest load while rolling fast
};

/// A load limit that goes with the mass: straight between the masses given, the ends' beyond.
struct LoadLimit {
    double mass_kg = 0;
    double max_g = 0, min_g = 0;
};

struct Aircraft {
    std::string name;
    std::string note;  ///< what the file says of itself (invented, simplified, source)
    AircraftMass mass;
    AircraftGeometry geometry;
    SightingFrame sighting;
    AircraftAero aero;
    AircraftInertia inertia;
    AircraftAutorotation autorotation;
    AircraftRotation rotation;
    AircraftPower power;
    AircraftLimits limits;
    std::vector<LoadLimit> load_limits;  ///< by rising mass; empty: limits.load_max_g, load_min_g
    std::string category;    ///< show-line category as its owner states it; may be empty
    std::string model_file;  ///< glTF/GLB beside the aircraft file; empty: the built-in one
    // Axes of that file: which one points to the nose, which one up. glTF's own, unless said.
    std::string model_nose = "+z", model_up = "+y";
};

/// The load limits at a mass.
inline LoadLimit loadLimitAt(const Aircraft& aircraft, double mass_kg) {
    const std::vector<LoadLimit>& all = aircraft.load_limits;
    if (all.empty()) return {mass_kg, aircraft.limits.load_max_g, aircraft.limits.load_min_g};
    if (mass_kg <= all.front().mass_kg) return all.front();
    for (std::size_t i = 1; i < all.size(); ++i) {
        if (mass_kg > all[i].mass_kg) continue;
        const LoadLimit &a = all[i - 1], &b = all[i];
        const double u = (mass_kg - a.mass_kg) / (b.mass_kg - a.mass_kg);
        return {mass_kg, a.max_g + u * (b.max_g - a.max_g), a.min_g + u * (b.min_g - a.min_g)};
    }
    return all.back();
}

}  // namespace plumbline::data

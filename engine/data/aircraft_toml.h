#pragma once
// Reads *.aircraft.toml.

#include <string>
#include <string_view>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/aircraft.h"

namespace plumbline::data {

/// Reads an aircraft. Quantities are texts with a unit ("220 kt"), coefficients plain numbers.
/// Keys, the unit shown being an example (any of its kind fits), the sane range, * what may be left
/// out:
///
///     name                       text
///     note *                     text: what the file says of itself
///     model *                    text: glTF/GLB file beside this one
///     model_nose *, model_up *   text: its axes to the nose and up, "+z" and "+y"
///     [mass]
///     empty                      kg         50 .. 20 000
///     pilot                      kg          0 .. 300         with parachute
///     fuel_capacity              l           0 .. 5000        usable
///     fuel_density *             kg/l      0.6 .. 0.9         0.72
///     [geometry]
///     wing_area                  m2        0.5 .. 100
///     span                       m           1 .. 50
///     length                     m           1 .. 50
///     eye_forward *, eye_up *    m         -10 .. 10          from the centre of gravity
///     [sighting] *                                            frames on the wing tips; the hub:
///     out *                      m         0.2 .. 25          from the plane of symmetry
///     forward *, up *            m         -10 .. 10          from the centre of gravity
///     bar *                      m         0.1 .. 5           whole length
///     leg *                      m        0.05 .. 5           the wing below the hub
///     [aero]                                                  referred to the wing area
///     lift_slope                 /rad      0.5 .. 8
///     zero_lift_aoa              deg       -15 .. 15
///     cl_max                               0.1 .. 5
///     cl_min                                -5 .. -0.1
///     cd0                                    0 .. 1
///     induced_k                              0 .. 1
///     side_force_slope           /rad        0 .. 8
///     sideslip_max               deg         5 .. 60          35 where it is not said
///     cy_max                                 0 .. 5           0: never saturates
///     sideslip_drag                          0 .. 5
///     cn_plate                               0 .. 3           broadside
///     cd_tail_first                          0 .. 3
///     [inertia]
///     pitch_inertia              kg m2       1 .. 200 000
///     tail_area                  m2          0 .. 50
///     tail_arm                   m           0 .. 30
///     tail_lift_slope            /rad        0 .. 8           on the tail's area
///     static_margin              m          -1 .. 2
///     [autorotation] *                                        what snaps and spins need
///     snap_incidence             deg        12 .. 60          beyond the stall
///     negative_snap_incidence    deg       -60 .. -12
///     snap_helix                          0.05 .. 1           rate times span over 2 speed
///     snap_rate                  deg/s      60 .. 1000        the most
///     snap_speed                 kt         20 .. 300         the most, calibrated
///     spin_incidence             deg        15 .. 80
///     inverted_spin_incidence    deg       -80 .. -15
///     spin_rate                  deg/s      30 .. 600         about the path
///     spin_onset                 s         0.2 .. 10          from the stall to that rate
///     [rotation] *                                            for torque rolls and tumbles
///     roll_inertia               kg m2       1 .. 200 000
///     roll_damping                           0 .. 2           -dCl/d(p b / 2V)
///     net_torque                 %           0 .. 100         of the engine's, less swirl
///     propeller_inertia          kg m2       0 .. 100
///     fin_area                   m2          0 .. 50          at the tail's arm
///     control_moment             N m         1 .. 1 000 000   in full slipstream, at rest
///     tumble_speed               kt         20 .. 300         the most, calibrated
///     [power]
///     max_power                  kW          0 .. 3000        sea level, standard day
///     rated_speed                rpm       100 .. 20 000
///     propeller_diameter         m         0.3 .. 6
///     static_merit                           0 .. 1
///     cruise_efficiency                      0 .. 1
///     windmill_drag_area         m2          0 .. 10
///     throttle_lag               s           0 .. 10
///     idle_power                 %           0 .. 50          of max_power
///     bsfc_full, bsfc_cruise     kg/kWh      0 .. 2
///     idle_fuel                  l/h         0 .. 200
///     turns *                    clockwise or anticlockwise, seen from the cockpit: clockwise
///     [head_temperature] *                                    indicative only
///     rise                       K           0 .. 400         above air at full power
///     time                       s           0 .. 1000
///     cooling_speed              m/s         1 .. 200
///     limit                      degC       50 .. 400
///     [limits]
///     load_max                   g           1 .. 20
///     load_min                   g         -20 .. -0.5
///     never_exceed, manoeuvre    kt         20 .. 700         calibrated; manoeuvre is less
///     tail_first                 m/s         0 .. 150
///     load_onset                 g/s         0 .. 100         0: at once
///     roll_rate                  deg/s      10 .. 1000
///     roll_helix                             0 .. 1           0: only roll_rate
///     roll_acceleration          rad/s2      0 .. 1000        0: at once
///     nose_capture *             s           0 .. 2           0.25
///     inverted_time *            s           1 .. 1800        at negative load, at a stretch
///
/// Ranges are chosen: wide enough for any light or historic type, narrow enough to catch a slip.
/// @errors every problem of the file: not TOML, unknown and missing keys, wrong or missing units,
/// out
///   of range, manoeuvre above never_exceed, snap_speed or tumble_speed above manoeuvre
Expected<Aircraft, Problems> readAircraft(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::data

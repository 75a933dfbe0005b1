#pragma once
// Aircraft and flights for the tests of fly/: a plausible one, and one reduced to what a closed
// form knows.

#include <string>

#include <gtest/gtest.h>

#include "engine/fly/flight.h"
#include "engine/fly/solve.h"
#include "engine/text/figure_text.h"

namespace plumbline::fly::test {

inline constexpr double kDegree = kPi / 180;
inline constexpr double kKnot = 1852.0 / 3600.0;

inline data::Aircraft plausibleAircraft() {
    data::Aircraft a;
    a.mass = {500, 85, 108, 720};
    a.geometry = {10, 7.6, 6.7, Vec3(-0.5, 0, -0.6)};
    a.aero = {4.6, 0, 1.3, -1.2, 0.045, 0.075, 1.1, 0.6, 0.3, 1.2, 0.3};
    a.inertia = {900, 1.9, 3.9, 3.4, 0.08};
    a.autorotation = {24 * kDegree,  -23 * kDegree, 0.42, 420 * kDegree, 140 * kKnot, 45 * kDegree,
                      -42 * kDegree, 220 * kDegree, 1.5};
    a.rotation = {520, 0.35, 0.75, 2, 1.1, 7000, 90 * kKnot};
    a.power.max_power_w = 250e3;
    a.power.rated_rpm = 2700;
    a.power.propeller_diameter_m = 2;
    a.power.static_merit_frac = 0.53;
    a.power.cruise_efficiency_frac = 0.87;
    a.power.windmill_drag_area_m2 = 0.25;
    a.power.throttle_lag_s = 0.5;
    a.power.idle_power_frac = 0.03;
    a.power.bsfc_full_kgpj = 0.33 / 3.6e6;
    a.power.bsfc_cruise_kgpj = 0.27 / 3.6e6;
    a.power.head_heat_k = 180;
    a.power.head_time_s = 90;
    a.power.head_cooling_speed_mps = 65;
    a.power.head_limit_k = 513;
    a.limits = {10, -8, 220 * kKnot, 160 * kKnot, 60, 12, 400 * kDegree, 0.13, 30, 0.25};
    return a;
}

/// No drag, no power, no limits; a wing that needs no incidence and never stalls: what the closed
/// forms assume.
inline data::Aircraft bareAircraft() {
    data::Aircraft a = plausibleAircraft();
    a.aero.lift_slope_prad = 4e5;
    a.aero.cl_max = 100;
    a.aero.cl_min = -100;
    a.aero.cd0 = a.aero.induced_k = a.aero.sideslip_drag = 0;
    a.power = {};
    a.limits.load_max_g = 1000;
    a.limits.load_min_g = -1000;
    a.limits.load_onset_gps = 0;
    return a;
}

/// The same with an ordinary lift slope, for lines held by attitude: a steep one would make them
/// stiff.
inline data::Aircraft bareLineAircraft() {
    data::Aircraft a = bareAircraft();
    a.aero.lift_slope_prad = 4.6;
    a.aero.cl_max = 1.3;
    a.aero.cl_min = -1.2;
    return a;
}

/// A world of constant density, for closed forms that know only one.
inline World evenWorld(const data::Aircraft& aircraft, double density_kgpm3 = 1.225) {
    World world(aircraft, {}, {});
    const auto same = [](double value) { return std::vector<double>(8, value); };
    world.air_of_height = UniformSplines<3>(
        -1000, 1000,
        {same(density_kgpm3), same(288.15), same(world.power.unitSpeed_mps(density_kgpm3))});
    return world;
}

/// Drag coefficient that makes the fall's terminal speed `terminal_mps`.
inline double dragForTerminal(const data::Aircraft& a, double mass_kg, double terminal_mps,
                              double density_kgpm3) {
    return mass_kg * kGravity_mps2 /
           (0.5 * density_kgpm3 * terminal_mps * terminal_mps * a.geometry.wing_area_m2);
}

/// A flight that stands on a line: frame q_SL, speed along it.
inline void standOn(Flight& flight, const Quat& q_SL, double speed_mps, double height_m,
                    double mass_kg = 620) {
    Joint& j = flight.joint;
    j = Joint{};
    j.position_S_m = Vec3(0, 0, height_m);
    j.q_SL = q_SL;
    j.q_SB = q_SL;
    j.air_velocity_S_mps = rotate(q_SL, Vec3(speed_mps, 0, 0));
    j.mass_kg = mass_kg;
    j.head_k = 400;
}

inline const Quat kLevelRight(0, 1, 0, 0);
inline Quat pitched(double angle_rad) { return kLevelRight * rotationY(angle_rad); }

struct RoutineSetup {
    double x_m = -900, y_m = 0, height_m = 300;
    bool crowd_right = true;
    double speed_mps = 82;
    double bearing_rad = 0;
    data::Weather weather;
    SolveOptions options;
    std::vector<data::Ribbon> ribbons;
};

inline Solution solveText(const data::Aircraft& aircraft, const std::string& text,
                          const RoutineSetup& setup = {}) {
    routine::Routine routine;
    routine.start = {setup.x_m, setup.y_m, setup.height_m, setup.crowd_right, setup.speed_mps,
                     60,        1};
    const text::ParsedText parsed = text::parseFigureText(text, "test", 1);
    EXPECT_TRUE(parsed.problems.empty()) << describe(parsed.problems);
    routine::RoutineFigure figure;
    figure.name = "figure";
    figure.elements = parsed.elements;
    routine.figures.push_back(figure);
    data::Site site;
    site.show_line_bearing_rad = setup.bearing_rad;
    site.ribbons = setup.ribbons;
    return solve(aircraft, site, setup.weather, routine, setup.options);
}

/// Greatest difference between the gain of specific energy over the ground and the power of the
/// specific force, over steps of `step_s` taken all along the elements, as a share of g V.
inline double worstPowerMiss(const Solution& solution, double step_s) {
    const path::Path path = solution.samplePath(1);
    const double reach = 0.5 * std::sqrt(0.6) * step_s;
    double worst = 0;
    for (const path::Element& element : path.elements) {
        for (double t = element.start_s; t + step_s <= element.stop_s; t += 17 * step_s) {
            const double mid = t + 0.5 * step_s;
            const auto q =
                solution.sampleTimes({t + 1e-9, mid - reach, mid, mid + reach, t + step_s - 1e-9});
            const auto energy = [](const path::Sample& sample) {
                return 0.5 * glm::dot(sample.velocity_S_mps, sample.velocity_S_mps) +
                       kGravity_mps2 * sample.position_S_m.z;
            };
            const auto power = [](const path::Sample& sample) {
                return glm::dot(rotate(sample.q_SB, sample.specific_force_B_mps2),
                                sample.velocity_S_mps);
            };
            const double work = step_s * (5 * power(q[1]) + 8 * power(q[2]) + 5 * power(q[3])) / 18;
            const double scale =
                step_s * kGravity_mps2 * std::max(glm::length(q[2].velocity_S_mps), 30.0);
            worst = std::max(
                worst, std::fabs(energy(q[4]) - energy(q[0]) - work * (1 - 2e-9 / step_s)) / scale);
        }
    }
    return worst;
}

}  // namespace plumbline::fly::test

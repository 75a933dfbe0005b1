// Tumbles: end over end or over a wing tip, as fast as propeller and tail let the controls turn it.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/earth/atmosphere.h"
#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kTumbleFade_s = 0.3;
constexpr double kSettle_s =
    6;  // chosen: what a pilot waits for the air to come back over the wing

// What stands for and against the rotation.
struct Resistance {
    double control_nm = 0;  ///< of the controls in the slipstream at this power
    double propeller_nms =
        0;  ///< angular momentum of the propeller: times the rate, a moment across
    double damping_nms2 = 0;  ///< of the tail moved broadside at its arm: times the rate squared
    double inertia_kgm2 = 0;

    double needed_nm(double rate_radps) const {
        return propeller_nms * rate_radps + damping_nms2 * rate_radps * rate_radps;
    }
    double fastest_radps() const {
        if (!(damping_nms2 > 0)) return propeller_nms > 0 ? control_nm / propeller_nms : 10 * kPi;
        const double half = 0.5 * propeller_nms;
        return (std::sqrt(half * half + damping_nms2 * control_nm) - half) / damping_nms2;
    }
    double accel_radps2() const { return control_nm / inertia_kgm2; }
};

Resistance resistanceOf(const Flight& flight, bool sideways) {
    const World& world = flight.world;
    const data::Aircraft& a = world.aircraft;
    const double density = world.density_kgpm3(flight.joint.position_S_m.z);
    const double arm = a.inertia.tail_arm_m;
    Resistance r;
    // The slipstream's pressure follows the static thrust, that the power to two thirds.
    const double share = world.power.setting(flight.joint.throttle.command_frac);
    r.control_nm = a.rotation.control_moment_nm * std::cbrt(share * share);
    r.propeller_nms = a.rotation.propeller_inertia_kgm2 * a.power.rated_rpm * 2 * kPi / 60;
    const double tail_m2 = sideways ? a.rotation.fin_area_m2 : a.inertia.tail_area_m2;
    r.damping_nms2 = 0.5 * density * a.aero.cn_plate * tail_m2 * arm * arm * arm;
    // simplified: about the yaw axis a flat body has the sum of the other two.
    r.inertia_kgm2 = a.inertia.pitch_inertia_kgm2 + (sideways ? a.rotation.roll_inertia_kgm2 : 0);
    return r;
}

Vec3 axisOf(text::Tumble::Way way) {
    switch (way) {
        case text::Tumble::Way::Forward:
            return Vec3(0, -1, 0);
        case text::Tumble::Way::Backward:
            return Vec3(0, 1, 0);
        case text::Tumble::Way::Left:
            return Vec3(0, 0, -1);
        case text::Tumble::Way::Right:
            break;
    }
    return Vec3(0, 0, 1);
}

// Rate at which it takes the time asked, starting and stopping at this acceleration.
double rateFor(double angle_rad, double duration_s, double accel_radps2) {
    const double per = 3 / accel_radps2;
    const double root = duration_s * duration_s - 2 * per * angle_rad;
    return root > 0 ? (duration_s - std::sqrt(root)) / per : duration_s / per;
}

// Lines by path need air over the wing: the attitude is held until it is there again.
void waitForAir(Flight& flight) {
    if (holdsAttitude(flight.joint.q_SL)) return;
    const World& world = flight.world;
    Law law = flight.lawFrom(Form::Held, Shape::Hold);
    flight.fadeHeld(law, kTumbleFade_s);
    const Dynamics dynamics(world, law);
    const double most = 0.7 * std::min(world.aero.alphaMax_rad(), -world.aero.alphaMin_rad());
    const Flight::Result r = flight.run(
        law,
        [&](double t, const StateVector& y) {
            const Moment m = dynamics.moment(t, y);
            return std::max({std::fabs(m.alpha_rad) - most, std::fabs(m.beta_rad) - most,
                             law.start_s + kTumbleFade_s - t});
        },
        kSettle_s);
    if (r.stop != ode::Stop::Event && !flight.grounded)
        flight.note(SolveNote::Kind::NotFlyable,
                    "too slow after the tumble to fly on along this line",
                    speedText(glm::length(flight.joint.air_velocity_S_mps)), "",
                    "end the tumble nose down, or begin it faster");
}

}  // namespace

void flyTumble(Flight& flight, const text::Tumble& tumble) {
    const data::Aircraft& aircraft = flight.world.aircraft;
    if (!aircraft.rotation.known()) {
        flight.note(SolveNote::Kind::NotFlyable, "the aircraft's file knows nothing of tumbles", "",
                    "", "give it [rotation]");
        return;
    }
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    const double density = flight.world.density_kgpm3(flight.joint.position_S_m.z);
    const double calibrated = speed * std::sqrt(density / earth::kSeaLevelDensity_kgpm3);
    if (calibrated > aircraft.rotation.tumble_speed_mps)
        flight.note(SolveNote::Kind::NotFlyable, "too fast to tumble: the tail holds the nose",
                    speedText(calibrated), speedText(aircraft.rotation.tumble_speed_mps),
                    "end the line before it at a lower speed");
    const bool sideways =
        tumble.way == text::Tumble::Way::Left || tumble.way == text::Tumble::Way::Right;
    const Resistance r = resistanceOf(flight, sideways);
    const double accel = r.accel_radps2();
    RollProgram turning;
    turning.add(tumble.angle_rad, r.fastest_radps(), accel, 0);
    const double least_s = turning.duration_s();
    if (tumble.duration_s) {
        if (*tumble.duration_s < least_s - 1e-9) {
            const double mean = tumble.angle_rad / *tumble.duration_s;
            flight.note(SolveNote::Kind::NotFlyable,
                        "too fast a tumble: propeller and tail need more than the controls give",
                        formatFixed(*tumble.duration_s, 1) + " s, " +
                            formatFixed(r.needed_nm(mean), 0) + " N m",
                        formatFixed(least_s, 1) + " s, " + formatFixed(r.control_nm, 0) + " N m",
                        "ask fewer turns, or more time");
        } else {
            turning = RollProgram();
            turning.add(tumble.angle_rad, rateFor(tumble.angle_rad, *tumble.duration_s, accel),
                        accel, 0);
        }
    }
    turning.setStart(flight.joint.time_s);
    Law law = flight.lawFrom(Form::Held, Shape::Tumble);
    law.roll = turning;
    law.tumble_axis_L = axisOf(tumble.way);
    flight.fadeHeld(law, kTumbleFade_s);
    const Vec3 from = flight.joint.position_S_m;
    flight.run(
        law, [](double, const StateVector&) { return 1.0; }, turning.duration_s());
    if (flight.grounded) return;
    const Quat q_end = law.q_SL * axisAngle(law.tumble_axis_L, tumble.angle_rad);
    flight.joint.q_SL = q_end;
    const double rate = std::fabs(turning.pieces().front().rate_radps);
    flight.note(SolveNote::Kind::Information, "how the tumble goes",
                formatFixed(turning.duration_s(), 1) + " s, fastest " + angleText(rate) + "/s, " +
                    speedText(speed) + " before, " +
                    speedText(glm::length(flight.joint.air_velocity_S_mps)) + " after, " +
                    lengthText(std::fabs(flight.joint.position_S_m.z - from.z)) +
                    (flight.joint.position_S_m.z < from.z ? " lower" : " higher"),
                "", "");
    flight.notes.back().subject = "tumble";
    waitForAir(flight);
}

}  // namespace plumbline::fly

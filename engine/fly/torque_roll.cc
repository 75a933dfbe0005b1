// Torque rolls: hanging on the propeller and backing, rolled by what its torque leaves.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kLongestTorqueRoll_s = 60;
constexpr double kTorqueRollFade_s = 0.4;
constexpr double kStop_s = 0.8;  // chosen: ailerons and power stop the roll in this time

}  // namespace

void flyTorqueRoll(Flight& flight, const text::TorqueRoll& roll) {
    if (!flight.world.aircraft.rotation.known()) {
        flight.note(SolveNote::Kind::NotFlyable,
                    "the aircraft's file knows nothing of torque rolls", "", "",
                    "give it [rotation]");
        return;
    }
    if (!needsUpline(flight, "a torque roll")) return;
    // The airframe turns against the propeller.
    const bool to_left = flight.world.aircraft.power.clockwise_from_cockpit;
    if (roll.left != to_left)
        flight.note(SolveNote::Kind::NotFlyable,
                    "the propeller's torque rolls it the other way; flown that way",
                    roll.left ? "left asked" : "right asked", to_left ? "left" : "right",
                    to_left ? "write torque-roll left" : "write torque-roll right");
    const double side = to_left ? -1 : 1;
    flight.setPower(roll.power_frac.value_or(1.0));
    Law law = flight.lawFrom(Form::Held, Shape::Torque);
    const double rolling = flight.joint.rate_B_radps.x;
    flight.joint.pitch_rad = 0;
    flight.joint.pitch_rate_radps = rolling;
    flight.fadeHeld(law, kTorqueRollFade_s);
    law.fade.x.rate0 -= rolling;  // which the law itself goes on with

    const Vec3 from = flight.joint.position_S_m;
    const double start_s = flight.joint.time_s, first = flight.joint.air_velocity_S_mps.z;
    double fastest = 0;
    const auto event = [&](double, const StateVector& y) {
        fastest = std::max(fastest, side * y[kPitchRate]);
        // The rate fades out after it: half of what it would turn meanwhile.
        const double lead = 0.5 * kStop_s * std::max(side * y[kPitchRate], 0.0);
        return roll.angle_rad - side * y[kPitch] - lead;
    };
    const Flight::Result r = flight.run(law, event, kLongestTorqueRoll_s);
    const double turned = side * r.state[kPitch];
    flight.joint.pitch_rad = flight.joint.pitch_rate_radps = 0;
    if (flight.grounded) return;
    if (r.stop != ode::Stop::Event)
        flight.note(SolveNote::Kind::NeverMet, "the torque roll does not get so far",
                    formatFixed(turned / (2 * kPi), 1) + " rolls", "",
                    "ask fewer rolls, or more power");
    // Back to a nominal frame: as far as it got, in whole quarters.
    const double quarter = 0.5 * kPi;
    const double angle =
        r.stop == ode::Stop::Event ? roll.angle_rad : quarter * std::round(turned / quarter);
    flight.setPower(flight.joint.wanted_power_frac);
    flight.capture(law.q_SL * rotationX(side * angle), kStop_s);
    if (flight.grounded) return;
    const auto way = [](double climb_mps) {
        return formatFixed(std::fabs(climb_mps), 0) + " m/s " +
               (climb_mps < 0 ? "tail first" : "up");
    };
    flight.note(SolveNote::Kind::Information, "what the propeller's torque gives",
                formatFixed(flight.joint.time_s - start_s, 0) + " s, fastest " +
                    angleText(fastest) + "/s, from " + way(first) + " to " +
                    way(flight.joint.air_velocity_S_mps.z) + ", " +
                    lengthText(std::fabs(flight.joint.position_S_m.z - from.z)) +
                    (flight.joint.position_S_m.z < from.z ? " lower" : " higher"),
                "", "");
    flight.notes.back().subject = "torque roll";
}

}  // namespace plumbline::fly

// Spins: slowed to the stall, round in autorotation, stopped, and into a downline.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/elements.h"
#include "engine/fly/snap.h"

namespace plumbline::fly {
namespace {

constexpr double kLongestSpin_s = 60;
constexpr double kSpinFade_s = 0.4;
constexpr double kToDownline_s = 0.8;    // chosen: the nose to straight down, at least
constexpr double kWellAboveStall = 1.4;  // chosen: from there on it takes more than a few seconds
constexpr double kPerRadian_s = 2;       // chosen: more where the path is far from it

bool startsRight(Flight& flight, bool inverted) {
    const LineState now = lineState(flight.joint.q_SL);
    if (!now.vertical && std::fabs(now.climb_rad) <= 1e-6 && now.wings_level &&
        now.inverted == inverted)
        return true;
    flight.note(SolveNote::Kind::NotFlyable,
                std::string(inverted ? "an inverted spin starts from inverted"
                                     : "a spin starts from upright") +
                    " level flight",
                "bank is " + angleText(now.bank_rad) + ", climb " + angleText(now.climb_rad), "",
                "fly to that first, and slow down");
    return false;
}

// Level, idle, until the wing gives no more.
bool slowToStall(Flight& flight, double side) {
    const AeroModel& aero = flight.world.aero;
    const Law law = flight.lineLaw(flight.joint.q_SL, false, kSpinFade_s);
    const Dynamics dynamics(flight.world, law);
    const double stall = side > 0 ? aero.alphaMax_rad() : aero.alphaMin_rad();
    const Flight::Result r = flight.run(
        law,
        [&](double t, const StateVector& y) {
            return side * (stall - dynamics.moment(t, y).wanted_alpha_rad);
        },
        kLongestSpin_s);
    if (r.stop != ode::Stop::Event && !flight.grounded)
        flight.note(SolveNote::Kind::NeverMet, "it does not slow down to the stall",
                    speedText(glm::length(flight.joint.air_velocity_S_mps)), "",
                    "slow down before the spin");
    return r.stop == ode::Stop::Event && !flight.grounded;
}

}  // namespace

void flySpin(Flight& flight, const text::Spin& spin) {
    const data::AircraftAutorotation& a = flight.world.aircraft.autorotation;
    if (!a.known()) {
        flight.note(SolveNote::Kind::NotFlyable, "the aircraft's file knows nothing of spins", "",
                    "", "give it [autorotation]");
        return;
    }
    if (!startsRight(flight, spin.inverted)) return;
    const Quat level_SL = flight.joint.q_SL;
    const double side = spin.inverted ? -1 : 1;  // of the incidence
    const double entry_mps = glm::length(flight.joint.air_velocity_S_mps);
    const double entry_m = flight.joint.distance_m;
    flight.setPower(0);
    if (!slowToStall(flight, side)) return;
    const double stall_mps = glm::length(flight.joint.air_velocity_S_mps);
    const double slowed_m = flight.joint.distance_m - entry_m;

    // About the path: the rudder's side upright, the other one inverted.
    const double way = (spin.left ? -1 : 1) * side;
    const double ramp = a.spin_onset_s;
    RollProgram roll;
    roll.add(way * spin.angle_rad, a.spin_rate_radps, 1.5 * a.spin_rate_radps / ramp, 0);
    roll.setStart(flight.joint.time_s);
    const RollProgram::Piece& piece = roll.pieces().front();
    const Vec3 v_B = unrotate(flight.joint.q_SB, flight.joint.air_velocity_S_mps);
    IncidenceProgram incidence;
    incidence.start_s = flight.joint.time_s;
    incidence.onset_s = std::min(ramp, 0.5 * roll.duration_s());
    incidence.release_time_s = piece.ramp_s;
    incidence.release_s = incidence.start_s + roll.duration_s() - piece.ramp_s;
    incidence.from_rad = std::atan2(v_B.z, v_B.x);
    incidence.held_rad = spin.inverted ? a.inverted_spin_incidence_rad : a.spin_incidence_rad;
    incidence.to_rad = flight.world.aero.alpha0_rad();

    const double top = flight.joint.position_S_m.z;
    const Law law = autorotationLaw(flight, roll, incidence, 0.5 * incidence.onset_s);
    double fastest = 0, slowing = top, sinking = 0;
    if (piece.steady_s > 0) {
        flight.run(
            law, [](double, const StateVector&) { return 1.0; }, roll.duration_s() - piece.ramp_s);
        if (flight.grounded) return;
        slowing = flight.joint.position_S_m.z;
    }
    fastest = std::fabs(piece.rate_radps);
    sinking = -flight.joint.air_velocity_S_mps.z;
    flight.run(
        law, [](double, const StateVector&) { return 1.0; },
        roll.start_s() + roll.duration_s() - flight.joint.time_s);
    if (flight.grounded) return;
    const Vec3 velocity = flight.joint.air_velocity_S_mps;
    const double off = std::atan2(std::hypot(velocity.x, velocity.y), -velocity.z);
    flight.setPower(flight.joint.wanted_power_frac);
    flight.capture(level_SL * rotationY(-side * 0.5 * kPi) * rotationX(roll.total_rad()),
                   std::max(kToDownline_s, kPerRadian_s * off));
    if (flight.grounded) return;
    const double low = flight.joint.position_S_m.z;
    flight.note(SolveNote::Kind::Information, "height lost from the stall to the downline",
                lengthText(top - low) + ", " + lengthText(slowing - low) +
                    " of it in the recovery; " + angleText(fastest) + "/s, sinking at " +
                    formatFixed(sinking, 0) + " m/s; path " + angleText(off) +
                    " off the vertical where it stops turning",
                "", "");
    flight.notes.back().subject = "spin";
    // Slowing down is part of the figure, and of the room that it takes.
    if (entry_mps > kWellAboveStall * stall_mps) {
        flight.note(
            SolveNote::Kind::Information, "a long way to slow down before the spin",
            speedText(entry_mps) + " to " + speedText(stall_mps) + " over " + lengthText(slowed_m),
            "", "");
        flight.notes.back().subject = "spin";
    }
}

}  // namespace plumbline::fly

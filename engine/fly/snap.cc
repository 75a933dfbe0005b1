#include "engine/fly/snap.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/earth/atmosphere.h"

namespace plumbline::fly {
namespace {

constexpr double kOnset_s = 0.2;     // chosen: a sharp pull
constexpr double kRelease_s = 0.25;  // chosen: the stick let forward as the roll is stopped
constexpr double kRecovery_s = 0.5;  // chosen: for the nose, back to its line

}  // namespace

Law autorotationLaw(const Flight& flight, const RollProgram& roll,
                    const IncidenceProgram& incidence, double fade_s) {
    Law law = flight.lawFrom(Form::Shaped, Shape::Autorotation);
    law.roll = roll;
    law.incidence = incidence;
    const double t = law.start_s;
    const StateVector y = flight.stateAt(Form::Shaped);
    const Vec3 v_B = unrotate(flight.joint.q_SB, flight.joint.air_velocity_S_mps);
    const double alpha = std::atan2(v_B.z, v_B.x),
                 beta = std::atan2(v_B.y, std::hypot(v_B.x, v_B.z));
    // The path turns by the forces, the same before and after; the rest of the body's rates are
    // those of incidence, sideslip and roll.
    Law given = law;
    given.fade.start_s = t;
    given.fade.x = {fade_s, -roll.angle(t), 0};
    given.fade.y = {fade_s, beta, 0};
    given.fade.z = {fade_s, alpha - incidence.at(t), 0};
    StateVector dy;
    Dynamics(flight.world, given).derivative(t, y, dy);
    const Quat q_SW(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    const Quat twice =
        glm::conjugate(q_SW) * Quat(dy[kQuat], dy[kQuat + 1], dy[kQuat + 2], dy[kQuat + 3]);
    const Vec3 path_W = 2.0 * Vec3(twice.x, twice.y, twice.z);
    const Vec3 total_W = rotate(rotationZ(-beta) * rotationY(alpha), flight.joint.rate_B_radps);
    law.fade.start_s = t;
    law.fade.x = {fade_s, 0, total_W.x - roll.rate(t)};
    law.fade.y = {fade_s, beta, path_W.z - total_W.z};
    law.fade.z = {fade_s, alpha - incidence.at(t), total_W.y - path_W.y};
    return law;
}

bool canSnap(Flight& flight, const text::RollPart& part, double speed_mps) {
    const World& world = flight.world;
    const data::AircraftAutorotation& a = world.aircraft.autorotation;
    if (!a.known()) {
        flight.note(SolveNote::Kind::NotFlyable,
                    "the aircraft's file knows nothing of snaps; flown as a roll", "", "",
                    "give it [autorotation], or write rolls");
        return false;
    }
    const double density = world.density_kgpm3(flight.joint.position_S_m.z);
    const double calibrated = speed_mps * std::sqrt(density / earth::kSeaLevelDensity_kgpm3);
    if (calibrated > a.snap_speed_mps) {
        flight.note(SolveNote::Kind::NotFlyable, "too fast to snap; flown as a roll",
                    speedText(calibrated), speedText(a.snap_speed_mps),
                    "slow down before it, or write a roll");
        return false;
    }
    const double most =
        part.kind == text::RollPart::Kind::Snap ? world.aero.clMax() : -world.aero.clMin();
    const double stall = std::sqrt(2 * flight.joint.mass_kg * kGravity_mps2 /
                                   (density * world.wing_area_m2 * std::max(most, 0.1)));
    if (speed_mps < stall)
        flight.note(SolveNote::Kind::NotFlyable, "too slow for a snap to turn by itself",
                    speedText(speed_mps), speedText(stall), "snap where it is faster");
    return true;
}

double snapRate_radps(const World& world, double speed_mps) {
    const data::AircraftAutorotation& a = world.aircraft.autorotation;
    return std::clamp(a.snap_helix * 2 * speed_mps / world.aircraft.geometry.span_m, 0.05,
                      std::max(a.snap_rate_radps, 0.05));
}

void flySnap(Flight& flight, Law& line, const Snap& snap) {
    const data::AircraftAutorotation& a = flight.world.aircraft.autorotation;
    const RollProgram program = line.roll;
    const RollProgram::Piece& piece = program.pieces()[snap.piece];
    const double duration = 2 * piece.ramp_s + piece.steady_s;
    const double before_rad = program.part(0, snap.piece).total_rad();
    const Quat q_SL = line.q_SL * rotationX(before_rad);

    const Vec3 v_B = unrotate(flight.joint.q_SB, flight.joint.air_velocity_S_mps);
    IncidenceProgram incidence;
    incidence.start_s = flight.joint.time_s;
    incidence.onset_s = std::min(kOnset_s, 0.4 * duration);
    incidence.release_time_s = std::min(kRelease_s, 0.5 * duration);
    incidence.release_s = incidence.start_s + duration - incidence.release_time_s;
    incidence.held_rad = snap.negative ? a.negative_snap_incidence_rad : a.snap_incidence_rad;
    // After it the line needs the lift it had, on the side that is up then.
    const double alpha0 = flight.world.aero.alpha0_rad();
    const double trim = std::clamp(std::atan2(v_B.z, v_B.x), 0.8 * flight.world.aero.alphaMin_rad(),
                                   0.8 * flight.world.aero.alphaMax_rad()) -
                        alpha0;
    incidence.from_rad = alpha0 + trim;
    incidence.to_rad = alpha0 + trim * std::cos(piece.angle_rad);
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    const Vec3 from = flight.joint.position_S_m;
    flight.run(
        autorotationLaw(flight, program.part(snap.piece, snap.piece + 1), incidence,
                        incidence.onset_s),
        [](double, const StateVector&) { return 1.0; }, duration);
    line.q_SL = q_SL * rotationX(piece.angle_rad);
    line.roll = program.part(snap.piece + 1, program.pieces().size());
    line.start_s = flight.joint.time_s;
    if (flight.grounded) return;

    const Vec3 along = rotate(q_SL, Vec3(1, 0, 0));
    const Vec3 velocity = flight.joint.air_velocity_S_mps;
    const double off =
        std::atan2(glm::length(glm::cross(along, velocity)), glm::dot(along, velocity));
    // Through the air: the wind's drift is not the snap's.
    const Vec3 moved = flight.joint.position_S_m - from - flight.world.wind.at(from.z) * duration;
    const double aside = glm::length(moved - along * glm::dot(moved, along));
    flight.note(SolveNote::Kind::Information, "what the snap costs and leaves",
                speedText(speed) + " before, " + speedText(glm::length(velocity)) +
                    " after; path " + angleText(off) + " off its line, " + lengthText(aside) +
                    " aside",
                "", "");
    flight.notes.back().subject = "snap";
    if (line.form == Form::Held)
        flight.fadeHeld(line, kRecovery_s);
    else
        flight.fadeShaped(line, kRecovery_s);
}

}  // namespace plumbline::fly

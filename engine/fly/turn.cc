#include <algorithm>
#include <cmath>

#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kLongestTurn_s = 180;
constexpr double kFade_s = 0.4;
constexpr double kTrialTolerance = 1e-5;
constexpr double kSteepestTurn_rad = 30 * kPi / 180;  // chosen: beyond it a turn is another figure
constexpr double kClimbRamp_s = 2.5;  // chosen: about half a g for a climb of 20 deg
constexpr double kClimbLag_s = 0.6;   // chosen: the path follows the lift by a few tenths
constexpr int kTrials = 2;            // each leaves a few hundredths of the error of the one before

// Heading of the path about z_S, unwrapped from a start by small steps.
double headingFrom(const StateVector& y, double start) {
    const Quat q(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    const Vec3 x = rotate(glm::normalize(q), Vec3(1, 0, 0));
    return std::remainder(std::atan2(x.y, x.x) - start, 2 * kPi);
}

}  // namespace

void flyTurn(Flight& flight, const text::Turn& turn) {
    if (!needsUprightLevel(flight, "a turn")) return;
    const double sign = turn.left ? -1 : 1;  // bank: right wing down positive
    const double most_g = flight.world.aircraft.limits.load_max_g;
    double bank = turn.bank_rad ? *turn.bank_rad : std::acos(1 / std::max(turn.load_g, 1.0));
    if (1 / std::cos(bank) > most_g) {
        flight.note(SolveNote::Kind::NotFlyable, "the turn asks more than the load limit",
                    loadText(1 / std::cos(bank)), loadText(most_g), "ask less bank");
        bank = std::acos(1 / most_g);
    }
    Law law = flight.lawFrom(Form::Shaped, Shape::LevelTurn);
    law.bank_rad = sign * bank;
    const double rate =
        rollRateLimit_radps(flight.world, glm::length(flight.joint.air_velocity_S_mps));
    const double accel = flight.world.aircraft.limits.roll_accel_radps2;
    // The quintic's greatest rate is 15/8 of its mean, its greatest acceleration 5.78 angle /
    // time^2.
    law.bank_ramp_s =
        std::max({0.5, 1.875 * bank / rate, accel > 0 ? std::sqrt(5.78 * bank / accel) : 0});
    law.bank_down_s = law.start_s + 1e9;
    const double rise = turn.to_height_m ? *turn.to_height_m - flight.joint.position_S_m.z : 0;
    if (turn.to_height_m) {
        const double v = glm::length(flight.joint.air_velocity_S_mps);
        const double way = v * v / (kGravity_mps2 * std::tan(bank)) * turn.angle_rad;
        law.turn_climb_rad = std::atan2(rise, way);
        if (std::fabs(law.turn_climb_rad) > kSteepestTurn_rad) {
            flight.note(SolveNote::Kind::NotFlyable, "too much height for this much turn",
                        angleText(law.turn_climb_rad), angleText(kSteepestTurn_rad),
                        "turn farther, or with less bank");
            law.turn_climb_rad = std::copysign(kSteepestTurn_rad, law.turn_climb_rad);
        }
    }
    // The climb comes and goes gently; when it must go is known from the round before.
    law.climb_ramp_s = std::max(law.bank_ramp_s, kClimbRamp_s);
    double duration_s = turn.angle_rad * glm::length(flight.joint.air_velocity_S_mps) /
                        (kGravity_mps2 * std::tan(bank));
    const int trials = turn.to_height_m ? 6 : kTrials;
    flight.fadeShaped(law, kFade_s);

    const Vec3 x0 = rotate(flight.joint.q_SL, Vec3(1, 0, 0));
    const double heading0 = std::atan2(x0.y, x0.x);
    // A level turn to the right makes the angle about z_S fall. Turned angle: in rounds of the
    // running remainder.
    double turned = 0;
    const auto turnedAt = [&](const StateVector& y) {
        const double ahead = -sign * (headingFrom(y, heading0));
        return ahead + 2 * kPi * std::round((turned - ahead) / (2 * kPi));
    };
    // Roll out so that the heading ends right: the roll-out turns g tan(bank) / V over its own bank
    // profile, which is what the roll-in turned but for the speed.
    const Flight::Mark start = flight.mark();
    double lead = 0.5 * law.bank_ramp_s * kGravity_mps2 * std::tan(bank) /
                  glm::length(flight.joint.air_velocity_S_mps);
    lead = std::min(lead, 0.5 * turn.angle_rad);
    const double tolerance = flight.shaped_tolerance.relative;
    flight.shaped_tolerance.relative =
        std::max(tolerance, kTrialTolerance);  // trials only find the lead
    for (int round = 0; round <= trials; ++round) {
        if (round == trials) flight.shaped_tolerance.relative = tolerance;
        flight.rewind(start);
        turned = 0;
        law.climb_down_s = law.start_s + duration_s - law.climb_ramp_s - kClimbLag_s;
        law.bank_down_s = law.start_s + 1e9;
        const auto until_lead = [&](double, const StateVector& y) {
            const double a = turnedAt(y);
            turned = std::max(turned, a);
            return turn.angle_rad - lead - a;
        };
        // The first part is flown once with the roll-out far away, to find when it must begin; the
        // second with it.
        const Flight::Result r = flight.run(law, until_lead, kLongestTurn_s);
        if (flight.grounded || r.stop != ode::Stop::Event) break;
        Law out = law;
        out.throttle = flight.joint.throttle;
        out.bank_down_s = flight.joint.time_s;
        // Starting to roll out before the roll-in is done: the two profiles overlap and add.
        const Flight::Result e = flight.run(
            out, [](double, const StateVector&) { return 1.0; }, law.bank_ramp_s);
        if (flight.grounded) break;
        const double error = turn.angle_rad - turnedAt(e.state);
        if (round == trials) continue;
        lead -= error;
        duration_s = flight.joint.time_s - law.start_s;
        // The rise is proportional to the climb but for the speed that the climb costs.
        const double risen = flight.joint.position_S_m.z - start.joint.position_S_m.z;
        if (rise * risen > 0)
            law.turn_climb_rad = std::clamp(law.turn_climb_rad * rise / risen, -kSteepestTurn_rad,
                                            kSteepestTurn_rad);
    }
    flight.shaped_tolerance.relative = tolerance;
    if (flight.grounded) return;
    const Flight::Extremes e = flight.extremes(flight.segments.back());
    if (e.short_share > 0.02)
        flight.note(SolveNote::Kind::NotFlyable, "too slow for this bank: the turn sinks",
                    angleText(bank), "", "ask less bank, or fly it faster");
    const double missed = turn.to_height_m ? *turn.to_height_m - flight.joint.position_S_m.z : 0;
    if (std::fabs(missed) > 1)
        flight.note(SolveNote::Kind::NotFlyable, "the turn does not end at the height asked",
                    heightText(flight.joint.position_S_m.z + flight.world.raise_m),
                    heightText(*turn.to_height_m + flight.world.raise_m),
                    "turn farther, or with less bank");
    flight.capture(rotationZ(-sign * turn.angle_rad) * flight.joint.q_SL, kFade_s);
}

void flyWait(Flight& flight, const text::Wait& wait) {
    constexpr double kEasyBank_rad = 40 * kPi / 180, kSteepBank_rad = 65 * kPi / 180;  // chosen
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    const double easy = kGravity_mps2 * std::tan(kEasyBank_rad) / speed * wait.duration_s;
    const double turns = std::max(1.0, std::round(easy / (2 * kPi)));
    text::Turn turn;
    turn.left = wait.left;
    turn.angle_rad = 2 * kPi * turns;
    double bank = std::atan(turn.angle_rad * speed / (kGravity_mps2 * wait.duration_s));
    if (bank > kSteepBank_rad) {
        flight.note(SolveNote::Kind::NotFlyable, "too short for a whole turn; it takes longer",
                    angleText(bank) + " of bank", angleText(kSteepBank_rad), "wait longer");
        bank = kSteepBank_rad;
    }
    // The speed changes on the way, and the bank comes and goes: the time says how much bank it is.
    const Flight::Mark start = flight.mark();
    constexpr int kRounds = 2;
    const double tolerance = flight.shaped_tolerance.relative;
    for (int round = 0; round < kRounds && !flight.grounded; ++round) {
        flight.rewind(start);
        flight.shaped_tolerance.relative =
            round + 1 < kRounds ? std::max(tolerance, kTrialTolerance) : tolerance;
        turn.bank_rad = bank;
        flyTurn(flight, turn);
        const double took = flight.joint.time_s - start.joint.time_s;
        if (!(took > 0)) break;
        bank = std::min(std::atan(std::tan(bank) * took / wait.duration_s), kSteepBank_rad);
    }
    flight.shaped_tolerance.relative = tolerance;
}

}  // namespace plumbline::fly

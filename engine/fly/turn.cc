#include <algorithm>
#include <cmath>

#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kLongestTurn_s = 180;
constexpr double kTurnFade_s = 0.4;
constexpr double kTurnTolerance = 1e-5;
constexpr double kSteepestTurn_rad = 30 * kPi / 180;  // chosen: beyond it a turn is another figure
constexpr double kClimbRamp_s = 2.5;  // chosen: about half a g for a climb of 20 deg
constexpr double kClimbLag_s = 0.6;   // chosen: the path follows the lift by a few tenths
constexpr double kSteepBank_rad = 65 * kPi / 180;  // chosen
// A trial leaves a few hundredths of the error of the one before; of nothing that matters there is
// no need to leave less.
constexpr int kMostTrials = 6;
constexpr double kHeading_rad = 1e-4, kHeight_m = 0.005, kTime_s = 0.02;

// Heading of the path about z_S, unwrapped from a start by small steps.
double headingFrom(const StateVector& y, double start) {
    const Quat q(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    const Vec3 x = rotate(glm::normalize(q), Vec3(1, 0, 0));
    return std::remainder(std::atan2(x.y, x.x) - start, 2 * kPi);
}

// What a roll-out turns, times the speed: g times the integral of the bank's tangent [rad m/s].
double turnOfRollOut(double bank_rad, double ramp_s) {
    constexpr int kPairs = 8;
    double sum = 0;
    for (int i = 0; i <= 2 * kPairs; ++i) {
        const double weight = i == 0 || i == 2 * kPairs ? 1 : i % 2 == 1 ? 4 : 2;
        sum += weight * std::tan(bank_rad * (1 - smootherStep(i / (2.0 * kPairs))));
    }
    return kGravity_mps2 * ramp_s * sum / (6 * kPairs);
}

// Flies a turn; where a time is given, with the bank that makes it last so long.
void flyTurnOf(Flight& flight, const text::Turn& turn, const std::optional<double>& asked_s) {
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
    const double rate =
        rollRateLimit_radps(flight.world, glm::length(flight.joint.air_velocity_S_mps));
    const double accel = flight.world.aircraft.limits.roll_accel_radps2;
    const auto setBank = [&] {
        law.bank_rad = sign * bank;
        // The quintic's greatest rate is 15/8 of its mean, its greatest acceleration 5.78 angle /
        // time^2.
        law.bank_ramp_s =
            std::max({0.5, 1.875 * bank / rate, accel > 0 ? std::sqrt(5.78 * bank / accel) : 0});
    };
    setBank();
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
    flight.fadeShaped(law, kTurnFade_s);

    const Vec3 x0 = rotate(flight.joint.q_SL, Vec3(1, 0, 0));
    const double heading0 = std::atan2(x0.y, x0.x);
    // A level turn to the right makes the angle about z_S fall. Turned angle: in rounds of the
    // running remainder.
    double turned = 0;
    const auto turnedAt = [&](const StateVector& y) {
        const double ahead = -sign * (headingFrom(y, heading0));
        return ahead + 2 * kPi * std::round((turned - ahead) / (2 * kPi));
    };
    // Roll out so that the heading ends right: the lead is what the roll-out turns at the speed of
    // the moment, and what a trial has shown beyond that.
    const Flight::Mark start = flight.mark();
    double turned_by_out = turnOfRollOut(bank, law.bank_ramp_s), beyond = 0;
    const double tolerance = flight.shaped_tolerance.relative;
    flight.shaped_tolerance.relative = std::max(tolerance, kTurnTolerance);
    bool last = false;
    for (int trial = 0;; ++trial) {
        if (last || trial == kMostTrials) {
            last = true;
            flight.shaped_tolerance.relative = tolerance;
        }
        flight.rewind(start);
        turned = 0;
        law.climb_down_s = law.start_s + duration_s - law.climb_ramp_s - kClimbLag_s;
        law.bank_down_s = law.start_s + 1e9;
        const auto until_lead = [&](double, const StateVector& y) {
            const double a = turnedAt(y);
            turned = std::max(turned, a);
            const double lead = (turned_by_out + beyond) / std::max(y[kSpeed], 1.0);
            return turn.angle_rad - std::min(lead, 0.5 * turn.angle_rad) - a;
        };
        // The first part is flown with the roll-out far away, to find when it must begin; the
        // second with it.
        const Flight::Result r = flight.run(law, until_lead, kLongestTurn_s);
        if (flight.grounded || r.stop != ode::Stop::Event) break;
        Law out = law;
        out.throttle = flight.joint.throttle;
        out.bank_down_s = flight.joint.time_s;
        // Starting to roll out before the roll-in is done: the two profiles overlap and add.
        const Flight::Result e = flight.run(
            out, [](double, const StateVector&) { return 1.0; }, law.bank_ramp_s);
        if (flight.grounded || last) break;
        const double error = turn.angle_rad - turnedAt(e.state);
        beyond -= error * r.state[kSpeed];
        last = std::fabs(error) < kHeading_rad;
        duration_s = flight.joint.time_s - law.start_s;
        if (turn.to_height_m) {
            // The rise is proportional to the climb but for the speed that the climb costs.
            const double risen = flight.joint.position_S_m.z - start.joint.position_S_m.z;
            if (rise * risen > 0)
                law.turn_climb_rad = std::clamp(law.turn_climb_rad * rise / risen,
                                                -kSteepestTurn_rad, kSteepestTurn_rad);
            last = last && std::fabs(risen - rise) < kHeight_m;
        }
        if (asked_s) {
            last = last && std::fabs(duration_s - *asked_s) < kTime_s;
            bank = std::min(std::atan(std::tan(bank) * duration_s / *asked_s), kSteepBank_rad);
            setBank();
            turned_by_out = turnOfRollOut(bank, law.bank_ramp_s);
        }
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
    flight.capture(rotationZ(-sign * turn.angle_rad) * flight.joint.q_SL, kTurnFade_s);
}

}  // namespace

void flyTurn(Flight& flight, const text::Turn& turn) { flyTurnOf(flight, turn, std::nullopt); }

void flyWait(Flight& flight, const text::Wait& wait) {
    constexpr double kEasyBank_rad = 40 * kPi / 180;  // chosen
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    const double easy = kGravity_mps2 * std::tan(kEasyBank_rad) / speed * wait.duration_s;
    const double turns = std::max(1.0, std::round(easy / (2 * kPi)));
    text::Turn turn;
    turn.left = wait.left;
    turn.angle_rad = 2 * kPi * turns;
    // The speed changes on the way, and the bank comes and goes: trials say how much bank it is.
    turn.bank_rad = std::atan(turn.angle_rad * speed / (kGravity_mps2 * wait.duration_s));
    if (*turn.bank_rad > kSteepBank_rad) {
        flight.note(SolveNote::Kind::NotFlyable, "too short for a whole turn; it takes longer",
                    angleText(*turn.bank_rad) + " of bank", angleText(kSteepBank_rad),
                    "wait longer");
        turn.bank_rad = kSteepBank_rad;
    }
    // Of the time, levelling off at its end is a part.
    flyTurnOf(flight, turn, std::max(wait.duration_s - kTurnFade_s, kTurnFade_s));
}

}  // namespace plumbline::fly

#include <algorithm>
#include <cmath>

#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kLongestTurn_s = 180;
constexpr double kFade_s = 0.4;
constexpr double kTrialTolerance = 1e-5;
constexpr int kTrials = 2;  // each leaves a few hundredths of the error of the one before

// Heading of the path about z_S, unwrapped from a start by small steps.
double headingFrom(const StateVector& y, double start) {
    const Quat q(y[kQuat], y[kQuat + 1], y[kQuat + 2], y[kQuat + 3]);
    const Vec3 x = rotate(glm::normalize(q), Vec3(1, 0, 0));
    return std::remainder(std::atan2(x.y, x.x) - start, 2 * kPi);
}

}  // namespace

void flyTurn(Flight& flight, const text::Turn& turn) {
    const LineState now = lineState(flight.joint.q_SL);
    if (now.vertical || std::fabs(now.climb_rad) > 1e-6 || !now.wings_level || now.inverted) {
        flight.note(SolveNote::Kind::NotFlyable, "a turn starts from upright level flight",
                    "bank is " + angleText(now.bank_rad) + ", climb " + angleText(now.climb_rad),
                    "", "fly to level, wings level, first");
        return;
    }
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
    for (int round = 0; round <= kTrials; ++round) {
        if (round == kTrials) flight.shaped_tolerance.relative = tolerance;
        flight.rewind(start);
        turned = 0;
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
        if (round < kTrials) lead -= error;
    }
    flight.shaped_tolerance.relative = tolerance;
    if (flight.grounded) return;
    const Flight::Extremes e = flight.extremes(flight.segments.back());
    if (e.short_share > 0.02)
        flight.note(SolveNote::Kind::NotFlyable, "too slow for this bank: the turn sinks",
                    angleText(bank), "", "ask less bank, or fly it faster");
    flight.capture(rotationZ(-sign * turn.angle_rad) * flight.joint.q_SL, kFade_s);
}

}  // namespace plumbline::fly

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kRamp_s = 0.5;  // chosen
constexpr double kRollingFade_s = 0.4;
constexpr double kRollingTolerance = 1e-5;
constexpr double kLongestRolling_s = 90;
constexpr double kShort = 0.02;  // chosen: forces short by this share still fly the turn
constexpr int kHalvings = 7;     // to a hundredth of the time

// The rolls of the turn as a program that takes the time given.
RollProgram rollsOf(const text::RollingTurn& turn, double duration_s, double accel_radps2) {
    // Rolling inward is rolling to the turn's own side.
    const double inward = turn.left ? -1 : 1;
    std::vector<double> pieces;
    if (turn.sense == text::RollingTurn::Sense::Alternating) {
        double side = inward;
        for (double left = turn.rolls; left > 1e-9; left -= 1, side = -side)
            pieces.push_back(side * 2 * kPi * std::min(left, 1.0));
    } else {
        const double side = turn.sense == text::RollingTurn::Sense::Inward ? inward : -inward;
        pieces.push_back(side * 2 * kPi * turn.rolls);
    }
    const double way = 2 * kPi * turn.rolls;
    // Each piece: angle / rate + 1.5 rate / acceleration = its share of the time.
    RollProgram program;
    for (const double angle : pieces) {
        const double share_s = duration_s * std::fabs(angle) / way;
        double rate = std::fabs(angle) / share_s;
        // The turning, and with it the sideslip, comes and goes with the roll: no faster than a
        // foot moves.
        const double gentle = 1.5 * rate / std::min(kRamp_s, 0.25 * share_s);
        const double accel = accel_radps2 > 0 ? std::min(accel_radps2, gentle) : gentle;
        const double k = 1.5 / accel;
        const double root = share_s * share_s - 4 * k * std::fabs(angle);
        rate = root > 0 ? 2 * std::fabs(angle) / (share_s + std::sqrt(root))
                        : std::sqrt(std::fabs(angle) / k);
        program.add(angle, rate, accel, 0);
    }
    return program;
}

}  // namespace

void flyRollingTurn(Flight& flight, const text::RollingTurn& turn) {
    if (!needsUprightLevel(flight, "a rolling turn")) return;
    const World& world = flight.world;
    const Flight::Mark start = flight.mark();
    const Vec3 x0 = rotate(flight.joint.q_SL, Vec3(1, 0, 0));
    const double way = 2 * kPi * turn.rolls;
    const double turned_rad = turn.left ? turn.angle_rad : -turn.angle_rad;
    const double tolerance = flight.shaped_tolerance.relative;
    double short_share = 0, rolled_rad = 0;
    const auto fly = [&](double duration_s) {
        flight.rewind(start);
        Law law = flight.lawFrom(Form::Shaped, Shape::RollingTurn);
        law.roll = rollsOf(turn, duration_s, world.aircraft.limits.roll_accel_radps2);
        law.roll.setStart(law.start_s);
        law.heading0_rad = std::atan2(x0.y, x0.x);
        law.turned_rad = turned_rad;
        flight.fadeShaped(law, kRollingFade_s);
        const std::size_t before = flight.segments.size();
        flight.run(
            law, [](double, const StateVector&) { return 1.0; }, law.roll.duration_s());
        short_share = flight.segments.size() > before
                          ? flight.extremes(flight.segments.back()).short_share
                          : 1;
        rolled_rad = law.roll.total_rad();
    };
    // The fastest that the forces give lies between the fastest roll and a slow one.
    const double rate_limit =
        rollRateLimit_radps(world, glm::length(flight.joint.air_velocity_S_mps));
    const auto flyable = [&](double duration_s) {
        fly(duration_s);
        return !flight.grounded && short_share < kShort;
    };
    const double duration_s = turn.duration_s.value_or(0);
    const double least_s = 1.15 * way / rate_limit;
    if (!turn.duration_s || duration_s < least_s || !flyable(duration_s)) {
        flight.shaped_tolerance.relative = std::max(tolerance, kRollingTolerance);
        double lo = std::max(least_s, duration_s), hi = kLongestRolling_s;
        for (int i = 0; i < kHalvings; ++i) {
            const double mid = std::sqrt(lo * hi);
            (flyable(mid) ? hi : lo) = mid;
        }
        flight.rewind(start);
        const std::string fastest = formatFixed(hi, 1) + " s";
        if (!(hi < kLongestRolling_s))
            flight.note(SolveNote::Kind::NotFlyable,
                        "wing and fuselage do not carry this rolling turn at this speed",
                        speedText(glm::length(flight.joint.air_velocity_S_mps)), "",
                        "fly it faster, or turn less");
        else if (turn.duration_s)
            flight.note(SolveNote::Kind::NotFlyable,
                        "the rolling turn is flown as fast as wing and fuselage turn it",
                        formatFixed(duration_s, 1) + " s", fastest,
                        "give it more time, or turn less");
        const std::vector<SolveNote> notes(
            flight.notes.begin() + static_cast<std::ptrdiff_t>(start.notes), flight.notes.end());
        flight.shaped_tolerance.relative = tolerance;
        fly(hi);
        flight.notes.insert(flight.notes.end(), notes.begin(), notes.end());
        flight.note(SolveNote::Kind::Information, "time of the rolling turn", fastest, "", "");
        flight.notes.back().subject = "turn";
    }
    if (flight.grounded) return;
    flight.capture(rotationZ(turned_rad) * flight.joint.q_SL * rotationX(rolled_rad),
                   kRollingFade_s);
}

}  // namespace plumbline::fly

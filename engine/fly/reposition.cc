#include <algorithm>
#include <cmath>

#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kBank_rad = 60 * kPi / 180;  // chosen: a brisk but comfortable repositioning turn
constexpr double kSteepest_rad = 25 * kPi / 180;
constexpr double kRollTime_s = 1.2;  // chosen: into and out of the turns
constexpr double kBankFade_s = 1.0;  // chosen: from the line's bank to the track's own
constexpr double kLongestTrack_s = 240;
constexpr double kTrackTolerance = 1e-4;  // a centimetre a second at the end of a trial
constexpr double kFirstPower = 0.5, kPowerStep = 0.15;
constexpr double kFadeLength_m = 150;  // chosen: over which the start's direction is taken up
constexpr double kDirectEnough =
    3;                             // chosen: a way round of less than this is not searched further
constexpr double kSettled = 1e-5;  // chosen: radians of path off the level line
constexpr double kSettle_s = 1.5;  // chosen: several lengths of the lift's lag

// Plan-view displacement of one smooth turn, in axes of its first tangent. The turn is the same
// read from either end, so its chord lies at half its angle, and half of it is enough: the ramp by
// Gauss-Legendre quadrature, the steady arc in closed form.
constexpr double kGaussPoint[4] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                                   0.9602898564975363};
constexpr double kGaussWeight[4] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                    0.1012285362903763};
struct Turned {
    double forward, left;
};
Turned turnDisplacement(double turn, double ramp, double arc) {
    if (!(ramp + arc > 0)) return {0, 0};
    const double peak = turn / (ramp + arc), half = 0.5 * turn;
    double chord = 0;
    for (int i = 0; i < 4; ++i)
        for (const double x : {-kGaussPoint[i], kGaussPoint[i]})
            chord += 0.5 * ramp * kGaussWeight[i] *
                     std::cos(peak * ramp * smoothStepIntegral(0.5 * (1 + x)) - half);
    const double swept = 0.5 * peak * arc;
    chord += 0.5 * arc * (std::fabs(swept) < 1e-6 ? 1 : std::sin(swept) / swept);
    chord *= 2;
    return {chord * std::cos(half), chord * std::sin(half)};
}

// Ramp and arc of a turn of given radius: peak curvature 1/R where the turn is long enough to reach
// it.
void turnLengths(double turn, double radius, double ramp_wanted, double& ramp, double& arc) {
    const double length = radius * std::fabs(turn);  // ramp + arc
    ramp = std::min(ramp_wanted, length);
    arc = length - ramp;
}

// A curve like another with other turns.
PlanCurve curveOf(const PlanCurve& like, double a1, double a2, double straight, double radius,
                  double ramp) {
    PlanCurve c = like;
    c.turn1_rad = a1;
    c.turn2_rad = a2;
    c.straight_m = straight;
    turnLengths(a1, radius, ramp, c.ramp1_m, c.arc1_m);
    turnLengths(a2, radius, ramp, c.ramp2_m, c.arc2_m);
    return c;
}

struct End {
    double x, y;
};

// What the start's own direction, fading, moves the end by: Gauss-Legendre between the kinks.
End strayOf(const PlanCurve& c) {
    End stray{0, 0};
    const double fade = c.heading_miss.duration_s;
    if (!(fade > 0)) return stray;
    double from = 0;
    for (const double kink : c.breaks_m()) {
        const double to = std::min(kink, fade);
        if (!(to > from)) continue;
        for (int i = 0; i < 8; ++i) {
            const double x = i < 4 ? kGaussPoint[i] : -kGaussPoint[i - 4];
            const double s = from + 0.5 * (1 + x) * (to - from);
            const double weight = 0.5 * (to - from) * kGaussWeight[i % 4];
            const double heading = c.heading_rad(s), plain = heading - c.heading_miss.value(s);
            stray.x += weight * (std::cos(heading) - std::cos(plain));
            stray.y += weight * (std::sin(heading) - std::sin(plain));
        }
        from = to;
    }
    return stray;
}

End endOf(const PlanCurve& c) {
    const Turned t1 = turnDisplacement(c.turn1_rad, c.ramp1_m, c.arc1_m);
    const Turned t2 = turnDisplacement(c.turn2_rad, c.ramp2_m, c.arc2_m);
    const double h0 = c.heading0_rad, h1 = h0 + c.turn1_rad;
    const End stray = strayOf(c);
    return {stray.x + t1.forward * std::cos(h0) - t1.left * std::sin(h0) +
                c.straight_m * std::cos(h1) + t2.forward * std::cos(h1) - t2.left * std::sin(h1),
            stray.y + t1.forward * std::sin(h0) + t1.left * std::cos(h0) +
                c.straight_m * std::sin(h1) + t2.forward * std::sin(h1) + t2.left * std::cos(h1)};
}

// Newton from a curve near to one that ends at (x, y): the first turn and the straight are free,
// the second turn is what is left of the change of heading.
bool refine(PlanCurve& c, double x, double y, double radius, double ramp) {
    const double h0 = c.heading0_rad, change = c.turn1_rad + c.turn2_rad;
    const PlanCurve like = c;
    double a1 = c.turn1_rad, straight = c.straight_m;
    for (int i = 0; i < 20; ++i) {
        c = curveOf(like, a1, change - a1, straight, radius, ramp);
        const End e = endOf(c);
        const double ex = x - e.x, ey = y - e.y;
        if (std::hypot(ex, ey) < 1e-7) return straight >= 0;
        // d(end)/d(straight) is the tangent; d(end)/d(a1) by difference.
        constexpr double kStep = 1e-5;
        const End moved =
            endOf(curveOf(like, a1 + kStep, change - a1 - kStep, straight, radius, ramp));
        const double jx = (moved.x - e.x) / kStep, jy = (moved.y - e.y) / kStep;
        const double tx = std::cos(h0 + a1), ty = std::sin(h0 + a1);
        const double det = jx * ty - jy * tx;
        if (std::fabs(det) < 1e-6) return false;
        a1 += std::clamp((ex * ty - ey * tx) / det, -0.5, 0.5);
        straight += std::clamp((jx * ey - jy * ex) / det, -radius, radius);
    }
    return false;
}

// How far a curve strays towards the crowd (negative y) beyond both its ends and some room.
double strayTowardsCrowd(const PlanCurve& c, double y_end) {
    constexpr double kRoom_m = 30;
    constexpr int kSteps = 80;
    const double h = c.length_m() / kSteps;
    double y = 0, least = 0;
    for (int i = 0; i < kSteps; ++i) {
        y += h * std::sin(c.heading_rad((i + 0.5) * h));
        least = std::min(least, y);
    }
    return std::max(0.0, std::min(0.0, y_end) - kRoom_m - least);
}

// What a curve costs: its length, and dearly every metre towards the crowd, so that repositioning
// goes round behind the show line wherever it can.
double costOf(const PlanCurve& c, double y_end) {
    return c.length_m() + 30 * strayTowardsCrowd(c, y_end);
}

// Two turns and a straight from the origin, started like `start`, to (x, y) on heading h1: for each
// choice of sides the plain circle-straight-circle curve starts Newton; the shortest is kept.
bool planTo(const PlanCurve& start, double x, double y, double h1, double radius, double ramp,
            PlanCurve& best) {
    const double h0 = start.heading0_rad;
    double best_cost = 1e9;
    for (const double side1 : {1.0, -1.0}) {
        for (const double side2 : {1.0, -1.0}) {
            // Centres of the two circles; the straight runs between them, across for opposite
            // sides.
            const double c1x = -side1 * radius * std::sin(h0), c1y = side1 * radius * std::cos(h0);
            const double c2x = x - side2 * radius * std::sin(h1),
                         c2y = y + side2 * radius * std::cos(h1);
            const double d = std::hypot(c2x - c1x, c2y - c1y);
            double along = std::atan2(c2y - c1y, c2x - c1x), straight = d;
            if (side1 != side2) {
                if (d < 2 * radius) continue;
                straight = std::sqrt(d * d - 4 * radius * radius);
                along += side1 * std::asin(2 * radius / d);
            }
            const auto turn = [](double from, double to, double side) {
                double a = side * std::remainder(to - from, 2 * kPi);
                if (a < -1e-9) a += 2 * kPi;
                return side * a;
            };
            const double a1 = turn(h0, along, side1), a2 = turn(along, h1, side2);
            PlanCurve c = curveOf(start, a1, a2, straight, radius, ramp);
            if (refine(c, x, y, radius, ramp) && costOf(c, y) < best_cost) {
                best_cost = costOf(c, y);
                best = c;
            }
        }
    }
    return best_cost < 1e9;
}

// A curve from the joint on a heading. The path's direction and curvature over the ground are not
// quite those of the level line (it may still follow the nose of a pull, or drift): the difference
// fades over the first stretch, so that nothing jumps.
PlanCurve startOf(const Flight& flight, double heading_rad, double fade_m) {
    PlanCurve plan;
    plan.heading0_rad = heading_rad;
    const Joint& joint = flight.joint;
    const Vec3 v = joint.air_velocity_S_mps + flight.world.wind.at(joint.position_S_m.z);
    const Vec3 a = rotate(joint.q_SB, joint.specific_force_B_mps2) - Vec3(0, 0, kGravity_mps2);
    const double level = std::hypot(v.x, v.y), along = (v.x * a.x + v.y * a.y) / level;
    plan.slope_miss = {fade_m, v.z / level, (a.z - v.z / level * along) / (level * level)};
    plan.heading_miss = {fade_m, std::remainder(std::atan2(v.y, v.x) - heading_rad, 2 * kPi),
                         (v.x * a.y - v.y * a.x) / (level * level * level)};
    return plan;
}

// Ends so much higher: the fading slope's part is known in closed form.
void riseBy(PlanCurve& plan, double rise_m) {
    const Fade& miss = plan.slope_miss;
    plan.rise_m =
        rise_m - miss.duration_s * (0.5 * miss.value0 + 0.1 * miss.duration_s * miss.rate0);
}

// A pull that has just ended still has its path coming after the nose: let it settle on the level
// line first.
void settleOnLevelLine(Flight& flight) {
    const Vec3 nominal = rotate(flight.joint.q_SL, Vec3(1, 0, 0));
    const Vec3 path = glm::normalize(flight.joint.air_velocity_S_mps);
    if (glm::length(path - nominal) > kSettled) flight.capture(flight.joint.q_SL, kSettle_s);
}

// The law of a track from the joint.
Law trackLaw(const Flight& flight, const PlanCurve& plan) {
    Law law = flight.lawFrom(Form::Shaped, Shape::Track);
    law.plan = plan;
    // Only the bank fades: incidence and sideslip follow from the forces that the track needs.
    flight.fadeShaped(law, kBankFade_s);
    law.fade.y.value0 = law.fade.y.rate0 = law.fade.z.value0 = law.fade.z.rate0 = 0;
    return law;
}

}  // namespace

void flyReposition(Flight& flight, const text::Reposition& wanted) {
    if (!needsUprightLevel(flight, "repositioning")) return;
    settleOnLevelLine(flight);
    if (flight.grounded) return;
    const Joint start = flight.joint;
    const Vec3 along = rotate(start.q_SL, Vec3(1, 0, 0));
    const double heading1 = wanted.crowd_right ? 0 : kPi;
    const double speed = glm::length(start.air_velocity_S_mps);
    // In a wind the bank is more where it follows the turn, less where it stands against it.
    const double fast = std::max(speed, wanted.speed_mps);
    const double wide = fast * fast / (kGravity_mps2 * std::tan(kBank_rad));
    const double ramp = kRollTime_s * fast;

    const Vec3 target(wanted.x_m, wanted.y_m, wanted.height_m);
    const Vec3 way = target - start.position_S_m;
    const PlanCurve from = startOf(flight, std::atan2(along.y, along.x),
                                   std::min(kFadeLength_m, 0.5 * std::hypot(way.x, way.y)));
    PlanCurve plan;
    // The comfortable radius first; a tighter one (to 70 deg of bank) where it saves a good part of
    // the way, a wider one where the climb needs room.
    bool planned = false;
    for (const double share : {1.0, 0.8, 0.63, 1.3, 1.7, 2.2, 3.0}) {
        if (planned && share > 1) break;
        PlanCurve candidate;
        if (!planTo(from, way.x, way.y, heading1, share * wide, ramp, candidate)) continue;
        if (std::fabs(way.z) * 1.875 > std::tan(kSteepest_rad) * candidate.length_m()) continue;
        if (planned && costOf(candidate, way.y) > 0.75 * costOf(plan, way.y)) continue;
        plan = candidate;
        planned = true;
        if (strayTowardsCrowd(plan, way.y) == 0 &&
            plan.length_m() < kDirectEnough * std::hypot(way.x, way.y))
            break;
    }
    if (!planned) {
        flight.note(SolveNote::Kind::NotFlyable, "no flyable curve to this place was found",
                    lengthText(glm::length(way)), "",
                    "choose a place farther away, or a height nearer to this one");
        return;
    }
    riseBy(plan, way.z);
    const Flight::Mark mark = flight.mark();
    const double before = start.wanted_power_frac;
    const double tolerance = flight.shaped_tolerance.relative;
    // The curve ends at the place by itself; power alone decides the speed there. What is missed:
    const auto fly = [&](double power) {
        flight.rewind(mark);
        flight.setPower(power);
        const Law law = trackLaw(flight, plan);
        const double end_m = law.distance0_m + plan.length_m();
        const auto r = flight.run(
            law,
            [&](double, const StateVector& y) {
                return std::min(end_m - y[kDistance], y[kSpeed] - 15);
            },
            kLongestTrack_s);
        return r.state[kSpeed] - wanted.speed_mps;
    };
    // Secant at a looser tolerance. Always the same number of trials: a threshold would make mirror
    // images differ by chance.
    constexpr int kTrials = 4;
    flight.shaped_tolerance.relative = std::max(tolerance, kTrackTolerance);
    double last_power = kFirstPower, last_miss = fly(last_power);
    double power = kFirstPower + (last_miss < 0 ? kPowerStep : -kPowerStep);
    for (int trial = 1; trial < kTrials && !flight.grounded; ++trial) {
        const double miss = fly(power), slope = (miss - last_miss) / (power - last_power);
        last_power = power;
        last_miss = miss;
        if (!(slope > 1e-6)) break;
        power = std::clamp(power - miss / slope, 0.0, 1.0);
        if (power == last_power) break;
    }
    flight.shaped_tolerance.relative = tolerance;
    const double miss = fly(power);
    const double off = glm::length(target - flight.joint.position_S_m);
    flight.joint.wanted_power_frac = before;
    if (flight.grounded) return;
    flight.setPower(before);
    if (std::fabs(miss) > 0.5)
        flight.note(
            SolveNote::Kind::NotFlyable,
            "the speed asked cannot be had at this place by power alone",
            speedText(wanted.speed_mps + miss), speedText(wanted.speed_mps),
            miss > 0 ? "ask more speed, or a greater height" : "ask less speed, or a lower height");
    if (off > 1)
        flight.note(SolveNote::Kind::NotFlyable, "the place is missed", lengthText(off) + " off",
                    "", "choose a place farther away, or a lower speed");
    const Quat level = quatFromAxes(Vec3(wanted.crowd_right ? 1 : -1, 0, 0),
                                    Vec3(0, wanted.crowd_right ? -1 : 1, 0), Vec3(0, 0, -1));
    flight.joint.q_SL = level;
}

void flyClimb(Flight& flight, const text::Climb& climb) {
    double rise = climb.height_m - flight.joint.position_S_m.z;
    if (!needsUprightLevel(flight, "climbing to a height")) return;
    if ((rise < 0) != climb.descend) {
        flight.note(SolveNote::Kind::NotFlyable,
                    rise < 0 ? "this height is below: it is descended to"
                             : "this height is above: it is climbed to",
                    heightText(flight.joint.position_S_m.z + flight.world.raise_m),
                    heightText(climb.height_m + flight.world.raise_m),
                    rise < 0 ? "write descend" : "write climb");
    }
    const Vec3 nominal = rotate(flight.joint.q_SL, Vec3(1, 0, 0));
    settleOnLevelLine(flight);
    rise = climb.height_m - flight.joint.position_S_m.z;
    if (flight.grounded || std::fabs(rise) < 0.01) return;
    // As steep as the power carries without loss of speed, a little steeper for the dash of it.
    const Flight::Mark mark = flight.mark();
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    const double tolerance = flight.shaped_tolerance.relative;
    const auto fly = [&](double steepest) {
        flight.rewind(mark);
        // A quintic's steepest slope is 15/8 of its mean; its greatest curvature, 5.77 rise /
        // length^2, is kept to half a g.
        const double length =
            std::max(1.875 * std::fabs(rise) / std::tan(steepest),
                     speed * std::sqrt(5.77 * std::fabs(rise) / (0.5 * kGravity_mps2)));
        PlanCurve plan = startOf(flight, std::atan2(nominal.y, nominal.x),
                                 std::min(kFadeLength_m, 0.5 * length));
        plan.straight_m = length;
        riseBy(plan, rise);
        const Law law = trackLaw(flight, plan);
        const double end_m = law.distance0_m + law.plan.length_m();
        const Flight::Result r = flight.run(
            law,
            [&](double, const StateVector& y) {
                return std::min(end_m - y[kDistance], y[kSpeed] - 0.6 * speed);
            },
            kLongestTrack_s);
        return r.state[kDistance] >= end_m - 1e-3;
    };
    double steepest = kSteepest_rad;
    if (!fly(steepest) && !flight.grounded) {
        // Too steep for the power, and the speed goes: less, then.
        flight.shaped_tolerance.relative = std::max(tolerance, kTrackTolerance);
        for (int round = 0; round < 4; ++round) {
            steepest *= 0.6;
            if (fly(steepest) || flight.grounded) break;
        }
        flight.shaped_tolerance.relative = tolerance;
        fly(steepest);
    }
    if (flight.grounded) return;
    const double missed = climb.height_m - flight.joint.position_S_m.z;
    if (std::fabs(missed) > 1)
        flight.note(SolveNote::Kind::NotFlyable, "this height is not reached",
                    heightText(flight.joint.position_S_m.z + flight.world.raise_m),
                    heightText(climb.height_m + flight.world.raise_m),
                    "more power, or less height");
    flight.capture(flight.joint.q_SL, kBankFade_s);
}

}  // namespace plumbline::fly

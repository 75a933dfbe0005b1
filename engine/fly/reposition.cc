#include <algorithm>
#include <cmath>

#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kBank_rad = 60 * kPi / 180;  // chosen: a brisk but comfortable repositioning turn
constexpr double kSteepest_rad = 25 * kPi / 180;
constexpr double kRollTime_s = 1.2;  // chosen: into and out of the turns
constexpr double kFade_s = 1.0;      // chosen: from the line's bank to the track's own
constexpr double kLongest_s = 240;
constexpr double kTrialTolerance = 1e-5;
constexpr double kFirstPower = 0.5, kPowerStep = 0.15;
constexpr double kCloseEnough_m = 0.15,
                 kCloseEnough_mps = 0.01;  // of the trials; the last aim halves it many times
constexpr double kDirectEnough =
    3;                             // chosen: a way round of less than this is not searched further
constexpr double kSettled = 1e-5;  // chosen: radians of path off the level line
constexpr double kSettle_s = 1.5;  // chosen: several lengths of the lift's lag

// Plan-view displacement of one smooth turn, in axes of its first tangent. The turn is the same
// read from either end, so its chord lies at half its angle, and half of it is enough: the ramp by
// Gauss-Legendre quadrature, the steady arc in closed form.
struct Turned {
    double forward, left;
};
Turned turnDisplacement(double turn, double ramp, double arc) {
    if (!(ramp + arc > 0)) return {0, 0};
    constexpr double kPoint[4] = {0.1834346424956498, 0.5255324099163290, 0.7966664774136267,
                                  0.9602898564975363};
    constexpr double kWeight[4] = {0.3626837833783620, 0.3137066458778873, 0.2223810344533745,
                                   0.1012285362903763};
    const double peak = turn / (ramp + arc), half = 0.5 * turn;
    double chord = 0;
    for (int i = 0; i < 4; ++i)
        for (const double x : {-kPoint[i], kPoint[i]})
            chord += 0.5 * ramp * kWeight[i] *
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

PlanCurve curveOf(double heading0, double a1, double a2, double straight, double radius,
                  double ramp) {
    PlanCurve c;
    c.heading0_rad = heading0;
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
End endOf(const PlanCurve& c) {
    const Turned t1 = turnDisplacement(c.turn1_rad, c.ramp1_m, c.arc1_m);
    const Turned t2 = turnDisplacement(c.turn2_rad, c.ramp2_m, c.arc2_m);
    const double h0 = c.heading0_rad, h1 = h0 + c.turn1_rad;
    return {t1.forward * std::cos(h0) - t1.left * std::sin(h0) + c.straight_m * std::cos(h1) +
                t2.forward * std::cos(h1) - t2.left * std::sin(h1),
            t1.forward * std::sin(h0) + t1.left * std::cos(h0) + c.straight_m * std::sin(h1) +
                t2.forward * std::sin(h1) + t2.left * std::cos(h1)};
}

// Newton from a curve near to one that ends at (x, y): the first turn and the straight are free,
// the second turn is what is left of the change of heading.
bool refine(PlanCurve& c, double x, double y, double radius, double ramp) {
    const double h0 = c.heading0_rad, change = c.turn1_rad + c.turn2_rad;
    double a1 = c.turn1_rad, straight = c.straight_m;
    for (int i = 0; i < 20; ++i) {
        c = curveOf(h0, a1, change - a1, straight, radius, ramp);
        const End e = endOf(c);
        const double ex = x - e.x, ey = y - e.y;
        if (std::hypot(ex, ey) < 1e-7) return straight >= 0;
        // d(end)/d(straight) is the tangent; d(end)/d(a1) by difference.
        constexpr double kStep = 1e-5;
        const End moved =
            endOf(curveOf(h0, a1 + kStep, change - a1 - kStep, straight, radius, ramp));
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

// Two turns and a straight from the origin on heading h0 to (x, y) on heading h1: for each choice
// of sides the plain circle-straight-circle curve starts Newton; the shortest is kept.
bool planTo(double h0, double x, double y, double h1, double radius, double ramp, PlanCurve& best) {
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
            PlanCurve c = curveOf(h0, a1, a2, straight, radius, ramp);
            if (refine(c, x, y, radius, ramp) && costOf(c, y) < best_cost) {
                best_cost = costOf(c, y);
                best = c;
            }
        }
    }
    return best_cost < 1e9;
}

// The path's direction and curvature at the start are not quite those of the level line (it may
// still follow the nose of a pull): the difference fades over the first stretch, so that nothing
// jumps.
void startOnPath(PlanCurve& plan, const Joint& joint) {
    constexpr double kFadeLength_m = 150;
    const Vec3 v = joint.air_velocity_S_mps;
    const double speed = glm::length(v), level = std::hypot(v.x, v.y);
    const double climb = std::atan2(v.z, level), heading = std::atan2(v.y, v.x);
    const Vec3 a = rotate(joint.q_SB, joint.specific_force_B_mps2) - Vec3(0, 0, kGravity_mps2);
    const Vec3 left(-std::sin(heading), std::cos(heading), 0);
    const Vec3 up = glm::cross(v / speed, left);
    plan.climb_miss = {kFadeLength_m, climb, glm::dot(a, up) / (speed * speed)};
    plan.heading_miss = {kFadeLength_m, std::remainder(heading - plan.heading0_rad, 2 * kPi),
                         glm::dot(a, left) / (speed * level)};
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
    startOnPath(law.plan, flight.joint);
    // Only the bank fades: incidence and sideslip follow from the forces that the track needs.
    flight.fadeShaped(law, kFade_s);
    law.fade.y.value0 = law.fade.y.rate0 = law.fade.z.value0 = law.fade.z.rate0 = 0;
    return law;
}

struct Miss {
    Vec3 place{0};
    double speed = 0;
};

}  // namespace

void flyReposition(Flight& flight, const text::Reposition& wanted) {
    if (!needsUprightLevel(flight, "repositioning")) return;
    settleOnLevelLine(flight);
    if (flight.grounded) return;
    const Joint start = flight.joint;
    const Vec3 along = rotate(start.q_SL, Vec3(1, 0, 0));
    const double heading0 = std::atan2(along.y, along.x), heading1 = wanted.crowd_right ? 0 : kPi;
    const double speed = glm::length(start.air_velocity_S_mps);
    const double fast = std::max(speed, wanted.speed_mps);
    const double wide = fast * fast / (kGravity_mps2 * std::tan(kBank_rad));
    const double ramp = kRollTime_s * fast;

    // Shooting: where the flight ends (wind, the climb's longer way, speed) corrects where the plan
    // aims and the power set.
    const Vec3 target(wanted.x_m, wanted.y_m, wanted.height_m);
    Vec3 aim = target - start.position_S_m;
    PlanCurve plan;
    double radius = wide;
    // The comfortable radius first; a tighter one (to 70 deg of bank) where it saves a good part of
    // the way, a wider one where the climb needs room.
    const auto choosePlan = [&] {
        bool planned = false;
        for (const double share : {1.0, 0.8, 0.63, 1.3, 1.7, 2.2, 3.0}) {
            if (planned && share > 1) break;
            PlanCurve candidate;
            if (!planTo(heading0, aim.x, aim.y, heading1, share * wide, ramp, candidate)) continue;
            if (std::fabs(aim.z) * 1.875 > std::tan(kSteepest_rad) * candidate.length_m()) continue;
            if (planned && costOf(candidate, aim.y) > 0.75 * costOf(plan, aim.y)) continue;
            plan = candidate;
            radius = share * wide;
            planned = true;
            if (strayTowardsCrowd(plan, aim.y) == 0 &&
                plan.length_m() < kDirectEnough * std::hypot(aim.x, aim.y))
                break;
        }
        return planned;
    };
    bool planned = choosePlan();
    // The wind carries the whole curve: aim off by its drift over the time the way will take.
    if (planned && !flight.world.wind.calm()) {
        const double mean_speed = 0.5 * (speed + wanted.speed_mps);
        const Vec3 wind = flight.world.wind.at(0.5 * (start.position_S_m.z + wanted.height_m));
        aim -= wind * (plan.length_m() / mean_speed);
        planned = choosePlan();
    }
    if (!planned) {
        flight.note(SolveNote::Kind::NotFlyable, "no flyable curve to this place was found",
                    lengthText(glm::length(aim)), "",
                    "choose a place farther away, or a height nearer to this one");
        return;
    }
    const Flight::Mark mark = flight.mark();
    const double before = start.wanted_power_frac;
    const double tolerance = flight.shaped_tolerance.relative;
    double power = 0;
    const auto fly = [&](double setting) {
        power = setting;
        flight.rewind(mark);
        flight.setPower(power);
        plan.rise_m = aim.z;
        const Law law = trackLaw(flight, plan);
        const double end_m = law.distance0_m + plan.length_m();
        const auto r = flight.run(
            law,
            [&](double, const StateVector& y) {
                return std::min(end_m - y[kDistance], y[kSpeed] - 15);
            },
            kLongest_s);
        return Miss{target - flight.joint.position_S_m, r.state[kSpeed] - wanted.speed_mps};
    };
    // Trials at a looser tolerance: they only aim.
    flight.shaped_tolerance.relative = std::max(tolerance, kTrialTolerance);
    // The first two settings give the slope of speed over power; the place is aimed at with every
    // flight.
    const double speed_first = fly(kFirstPower).speed;
    Miss miss = fly(kFirstPower + kPowerStep);
    double slope = (miss.speed - speed_first) / kPowerStep;
    const bool by_power = slope > 1e-6;
    for (int round = 0; round < 12 && !flight.grounded; ++round) {
        const bool speed_done = !by_power || std::fabs(miss.speed) < kCloseEnough_mps ||
                                (power <= 0 && miss.speed > 0) || (power >= 1 && miss.speed < 0);
        // The last aim takes up the last miss too, then the flight that counts is made.
        const bool close = speed_done && glm::length(miss.place) < kCloseEnough_m;
        aim += miss.place;
        if (!refine(plan, aim.x, aim.y, radius, ramp) && !choosePlan()) break;
        if (close) break;
        const double old_power = power, old_speed = miss.speed;
        miss = fly(by_power ? std::clamp(power - miss.speed / slope, 0.0, 1.0) : power);
        if (by_power && std::fabs(power - old_power) > 1e-3)
            slope = (miss.speed - old_speed) / (power - old_power);
    }
    flight.shaped_tolerance.relative = tolerance;
    // What the trials' own error leaves is taken up at the tolerance asked: the path is then the
    // one that ends at the place, whichever way the trials came to it.
    constexpr int kCorrections = 2;
    for (int round = 0; round <= kCorrections && !flight.grounded; ++round) {
        if (round > 0) {
            aim += miss.place;
            if (!refine(plan, aim.x, aim.y, radius, ramp)) break;
            if (by_power) power = std::clamp(power - miss.speed / slope, 0.0, 1.0);
        }
        miss = fly(power);
    }
    flight.joint.wanted_power_frac = before;
    if (flight.grounded) return;
    flight.setPower(before);
    if (std::fabs(miss.speed) > 0.5)
        flight.note(SolveNote::Kind::NotFlyable,
                    "the speed asked cannot be had at this place by power alone",
                    speedText(wanted.speed_mps + miss.speed), speedText(wanted.speed_mps),
                    miss.speed > 0 ? "ask more speed, or a greater height"
                                   : "ask less speed, or a lower height");
    if (glm::length(miss.place) > 1)
        flight.note(SolveNote::Kind::NotFlyable, "the place is missed",
                    lengthText(glm::length(miss.place)) + " off", "",
                    "choose a place farther away, or a lower speed");
    const Quat level = quatFromAxes(Vec3(wanted.crowd_right ? 1 : -1, 0, 0),
                                    Vec3(0, wanted.crowd_right ? -1 : 1, 0), Vec3(0, 0, -1));
    flight.joint.q_SL = level;
}

void flyClimb(Flight& flight, const text::Climb& climb) {
    const double rise = climb.height_m - flight.joint.position_S_m.z;
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
    if (flight.grounded || std::fabs(rise) < 0.01) return;
    // As steep as the power carries without loss of speed, a little steeper for the dash of it.
    const Flight::Mark mark = flight.mark();
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    double aim = rise, steepest = kSteepest_rad;
    for (int round = 0; round < 4 && !flight.grounded; ++round) {
        flight.rewind(mark);
        PlanCurve plan;
        plan.heading0_rad = std::atan2(nominal.y, nominal.x);
        // A quintic's steepest slope is 15/8 of its mean.
        // Its greatest curvature, 5.77 rise / length^2, is kept to half a g.
        plan.straight_m =
            std::max(1.875 * std::fabs(aim) / std::tan(steepest),
                     speed * std::sqrt(5.77 * std::fabs(aim) / (0.5 * kGravity_mps2)));
        plan.rise_m = aim;
        const Law law = trackLaw(flight, plan);
        const double end_m = law.distance0_m + law.plan.length_m();
        const Flight::Result r = flight.run(
            law,
            [&](double, const StateVector& y) {
                return std::min(end_m - y[kDistance], y[kSpeed] - 0.6 * speed);
            },
            kLongest_s);
        if (r.state[kDistance] < end_m - 1e-3 && !flight.grounded) {
            steepest *= 0.6;  // too steep for the power: the speed went
            if (round == 2) round = 1;
            if (steepest < 0.03) break;
            continue;
        }
        aim += climb.height_m - flight.joint.position_S_m.z;
    }
    if (flight.grounded) return;
    const double missed = climb.height_m - flight.joint.position_S_m.z;
    if (std::fabs(missed) > 1)
        flight.note(SolveNote::Kind::NotFlyable, "this height is not reached",
                    heightText(flight.joint.position_S_m.z + flight.world.raise_m),
                    heightText(climb.height_m + flight.world.raise_m),
                    "more power, or less height");
    flight.capture(flight.joint.q_SL, kFade_s);
}

}  // namespace plumbline::fly

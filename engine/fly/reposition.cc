#include <algorithm>
#include <cmath>

#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

constexpr double kBank_rad = 60 * kPi / 180;    // chosen: a brisk but comfortable repositioning turn
constexpr double kSteepest_rad = 25 * kPi / 180;
constexpr double kRollTime_s = 1.2;             // chosen: into and out of the turns
constexpr double kLongest_s = 240;
constexpr double kFade_s = 0.4;

// Plan-view displacement of one smooth turn, in axes of its first tangent.
struct Turned {
    double forward, left;
};
Turned turnDisplacement(double turn, double ramp, double arc) {
    PlanCurve c;
    c.turn1_rad = turn;
    c.ramp1_m = ramp;
    c.arc1_m = arc;
    Turned d{0, 0};
    // Simpson over three smooth pieces.
    const double edges[4] = {0, ramp, ramp + arc, 2 * ramp + arc};
    for (int p = 0; p < 3; ++p) {
        const int n = 24;
        const double h = (edges[p + 1] - edges[p]) / n;
        for (int i = 0; i <= n; ++i) {
            const double weight = (i == 0 || i == n ? 1 : i % 2 ? 4 : 2) * h / 3;
            const double a = c.heading_rad(edges[p] + i * h);
            d.forward += weight * std::cos(a);
            d.left += weight * std::sin(a);
        }
    }
    return d;
}

// Ramp and arc of a turn of given radius: peak curvature 1/R where the turn is long enough to reach it.
void turnLengths(double turn, double radius, double ramp_wanted, double& ramp, double& arc) {
    const double length = radius * std::fabs(turn);  // ramp + arc
    ramp = std::min(ramp_wanted, length);
    arc = length - ramp;
}

PlanCurve curveOf(double heading0, double a1, double a2, double straight, double radius, double ramp) {
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

// Two turns (each left or right) and a straight from the origin on heading h0 to (x, y) on heading h1: the first turn and
// the straight are found by Newton from many starts, the shortest that is flyable is kept.
bool planTo(double h0, double x, double y, double h1, double radius, double ramp, PlanCurve& best) {
    double best_length = 1e9;
    const double change = std::remainder(h1 - h0, 2 * kPi);
    for (int first = -6; first <= 6; ++first) {
        for (int wrap = -1; wrap <= 1; ++wrap) {
            double a1 = first * kPi / 4 + 0.02;
            double straight = std::hypot(x, y) * 0.7;
            bool good = false;
            PlanCurve c;
            for (int i = 0; i < 25; ++i) {
                const double a2 = change + 2 * kPi * wrap - a1;
                c = curveOf(h0, a1, a2, straight, radius, ramp);
                const End e = endOf(c);
                const double ex = x - e.x, ey = y - e.y;
                if (std::hypot(ex, ey) < 1e-7) {
                    good = true;
                    break;
                }
                // d(end)/d(straight) is the tangent; d(end)/d(a1) by difference.
                constexpr double kStep = 1e-5;
                const End moved = endOf(curveOf(h0, a1 + kStep, a2 - kStep, straight, radius, ramp));
                const double jx = (moved.x - e.x) / kStep, jy = (moved.y - e.y) / kStep;
                const double tx = std::cos(h0 + a1), ty = std::sin(h0 + a1);
                const double det = jx * ty - jy * tx;
                if (std::fabs(det) < 1e-6) break;
                const double da = std::clamp((ex * ty - ey * tx) / det, -0.5, 0.5);
                const double ds = (jx * ey - jy * ex) / det;
                a1 += da;
                straight += std::clamp(ds, -radius, radius);
            }
            if (!good || straight < 0 || std::fabs(c.turn1_rad) > 1.6 * kPi || std::fabs(c.turn2_rad) > 1.6 * kPi) continue;
            if (c.length_m() < best_length) {
                best_length = c.length_m();
                best = c;
            }
        }
    }
    return best_length < 1e9;
}

struct Miss {
    Vec3 place{0};
    double speed = 0;
};

}  // namespace

void flyReposition(Flight& flight, const text::Reposition& wanted) {
    const LineState now = lineState(flight.joint.q_SL);
    if (now.vertical || std::fabs(now.climb_rad) > 1e-6 || !now.wings_level || now.inverted) {
        flight.note(SolveNote::Kind::NotFlyable, "repositioning starts from upright level flight",
                    "bank is " + angleText(now.bank_rad) + ", climb " + angleText(now.climb_rad), "",
                    "fly to level, wings level, first");
        return;
    }
    const Joint start = flight.joint;
    const Vec3 along = rotate(start.q_SL, Vec3(1, 0, 0));
    const double heading0 = std::atan2(along.y, along.x), heading1 = wanted.crowd_right ? 0 : kPi;
    const double speed = glm::length(start.air_velocity_S_mps);
    const double fast = std::max(speed, wanted.speed_mps);
    double radius = fast * fast / (kGravity_mps2 * std::tan(kBank_rad));
    const double ramp = kRollTime_s * fast;

    // Shooting: where the flight ends (wind, the climb's longer way, speed) corrects where the plan aims and the power set.
    const Vec3 target(wanted.x_m, wanted.y_m, wanted.height_m);
    Vec3 aim = target - start.position_S_m;
    PlanCurve plan;
    bool planned = false;
    for (int i = 0; i < 8 && !planned; ++i) {
        planned = planTo(heading0, aim.x, aim.y, heading1, radius, ramp, plan);
        if (planned && std::fabs(aim.z) * 1.875 > std::tan(kSteepest_rad) * plan.length_m()) planned = false;
        if (!planned) radius *= 1.3;
    }
    if (!planned) {
        flight.note(SolveNote::Kind::NotFlyable, "no flyable curve to this place was found", lengthText(glm::length(aim)), "",
                    "choose a place farther away, or a height nearer to this one");
        return;
    }
    const Flight::Mark mark = flight.mark();
    const double before = start.wanted_power_frac;
    const auto fly = [&](double power) {
        flight.rewind(mark);
        flight.setPower(power);
        Law law = flight.lawFrom(Form::Shaped, Shape::Track);
        law.plan = plan;
        law.plan.height0_m = start.position_S_m.z;
        law.plan.rise_m = aim.z;
        flight.fadeShaped(law, kFade_s);
        const double end_m = law.distance0_m + plan.length_m();
        const auto r = flight.run(law, [&](double, const StateVector& y) { return std::min(end_m - y[kDistance], y[kSpeed] - 15); },
                                  kLongest_s);
        Miss miss;
        miss.place = target - flight.joint.position_S_m;
        miss.speed = r.state[kSpeed] - wanted.speed_mps;
        return miss;
    };
    double power = 0.6, lo = 0, hi = 1, lo_miss = 0, hi_miss = 0;
    Miss miss;
    for (int round = 0; round < 7; ++round) {
        if (round == 0) {
            lo_miss = fly(0).speed;
            hi_miss = fly(1).speed;
            if (flight.grounded) break;
        }
        if (lo_miss >= 0)
            power = 0;
        else if (hi_miss <= 0)
            power = 1;
        else {
            // Regula falsi with halving (Illinois) inside [lo, hi].
            double a = lo, fa = lo_miss, b = hi, fb = hi_miss;
            const int tries = round == 0 ? 8 : 3;
            if (round > 0) {
                a = std::max(0.0, power - 0.02);
                b = std::min(1.0, power + 0.02);
                fa = fly(a).speed;
                fb = fly(b).speed;
                if (fa * fb > 0) {
                    a = 0;
                    b = 1;
                    fa = fly(a).speed;
                    fb = fly(b).speed;
                }
            }
            for (int i = 0; i < tries; ++i) {
                power = std::clamp(a - fa * (b - a) / (fb - fa), 0.0, 1.0);
                const double f = fly(power).speed;
                if (std::fabs(f) < 1e-6) break;
                if (f * fb < 0) {
                    a = b;
                    fa = fb;
                } else {
                    fa *= 0.5;
                }
                b = power;
                fb = f;
            }
        }
        miss = fly(power);
        if (flight.grounded || glm::length(miss.place) < 1e-6) break;
        aim += miss.place;
        PlanCurve next;
        if (!planTo(heading0, aim.x, aim.y, heading1, radius, ramp, next)) break;
        plan = next;
    }
    flight.joint.wanted_power_frac = before;
    if (flight.grounded) return;
    flight.setPower(before);
    if (std::fabs(miss.speed) > 0.5)
        flight.note(SolveNote::Kind::NotFlyable, "the speed asked cannot be had at this place by power alone",
                    speedText(wanted.speed_mps + miss.speed), speedText(wanted.speed_mps),
                    miss.speed > 0 ? "ask more speed, or a greater height" : "ask less speed, or a lower height");
    Quat level = quatFromAxes(Vec3(wanted.crowd_right ? 1 : -1, 0, 0), Vec3(0, wanted.crowd_right ? -1 : 1, 0), Vec3(0, 0, -1));
    flight.capture(level, kFade_s);
}

}  // namespace plumbline::fly

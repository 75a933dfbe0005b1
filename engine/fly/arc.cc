#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/corner.h"
#include "engine/fly/elements.h"

namespace plumbline::fly {
namespace {

using text::Arc;
using text::Direction;

constexpr double kLongestArc_s = 60;
constexpr double kSlowest_mps = 12;   // chosen: below this an arc is no longer flown by the wing
constexpr double kStartFade_s = 0.3;  // chosen: takes up what little sideslip a line leaves
constexpr double kNearEnd_rad = 0.7;  // chosen: more than incidence and capture take together
constexpr double kSlowCapture_s =
    1.5;  // chosen: to the nominal line after an arc that ran out of speed

// The angle in the pitch plane, from upright level: the path's own "circle of directions". Pulling
// increases it.
double planeAngle(const Quat& q_SL) {
    const Vec3 x = rotate(q_SL, Vec3(1, 0, 0)), right = rotate(q_SL, Vec3(0, 1, 0));
    const Vec3 forward = glm::cross(Vec3(0, 0, 1), right);  // upright level with this right wing
    return std::atan2(x.z, glm::dot(x, forward));
}

double wrapTurn(double angle) {
    const double two_pi = 2 * kPi;
    double a = std::fmod(angle, two_pi);
    if (a < 1e-6) a += two_pi;
    if (a > two_pi - 1e-6) a = two_pi;
    return a;
}

// Angle to pull or push to reach a direction; nothing when it is refused (noted).
bool angleTo(Flight& flight, const Arc& arc, bool pushing, double& angle) {
    const LineState now = lineState(flight.joint.q_SL);
    if (!now.wings_level) {
        flight.note(SolveNote::Kind::NotFlyable,
                    "a pull or push to a direction needs wings level or a vertical",
                    "bank is " + angleText(now.bank_rad), "",
                    "roll wings level first, or say the arc in degrees");
        return false;
    }
    const Direction& to = *arc.to;
    double target = 0;
    switch (to.kind) {
        case Direction::Kind::Up:
            target = kPi / 2;
            break;
        case Direction::Kind::Down:
            target = -kPi / 2;
            break;
        case Direction::Kind::Level:
            target = to.inverted ? kPi : 0;
            break;
        case Direction::Kind::Angle:
            target = to.inverted ? kPi - to.climb_rad : to.climb_rad;
            break;
    }
    const double pull = wrapTurn(target - planeAngle(flight.joint.q_SL));
    const double push = wrapTurn(planeAngle(flight.joint.q_SL) - target);
    angle = pushing ? push : pull;
    if (angle > kPi + 1e-6) {
        flight.note(SolveNote::Kind::NotFlyable,
                    "this direction is more than half a loop away and could be meant otherwise",
                    "pull " + angleText(pull) + " or push " + angleText(push), "180 deg",
                    "write the arc in degrees: \"" + std::string(pushing ? "push " : "pull ") +
                        angleText(angle) + "\"");
        return false;
    }
    return true;
}

// What both kinds of arc share.
struct ArcPlan {
    double sense = 1;  ///< +1 pull, -1 push
    double angle_rad = 0;
    Quat q_end_SL;
    bool held = false;      ///< the line after it
    double rolled_rad = 0;  ///< spread over the arc
};

double trimOnLine(const Flight& flight, const Quat& q_SL, const StateVector& y, double throttle) {
    const World& w = flight.world;
    const double v = std::max(y[kSpeed], kSlowest_mps);
    const double density = w.density_kgpm3(y[kZ]);
    const double qs = 0.5 * density * v * v * w.wing_area_m2;
    const double g_n = unrotate(q_SL, Vec3(0, 0, -kGravity_mps2)).z;
    return w.aero.alphaForForce(qs, w.power.thrust_n(throttle, density, v), y[kMass] * g_n) -
           w.aero.alpha0_rad();
}

// After an arc that ran out of speed: take the attitude to where it was going and say so.
void giveUp(Flight& flight, const ArcPlan& plan, double turned) {
    flight.note(SolveNote::Kind::NotFlyable, "too slow to fly this arc to its end",
                angleText(turned) + " of " + angleText(plan.angle_rad) + " flown, " +
                    speedText(glm::length(flight.joint.air_velocity_S_mps)) + " left",
                "", "enter faster, or make it tighter");
    flight.joint.q_SL = plan.q_end_SL;
    flight.run(
        flight.lineLaw(plan.q_end_SL, true, kSlowCapture_s),
        [](double, const StateVector&) { return 1.0; }, kSlowCapture_s);
}

void reportLoad(Flight& flight, const Arc& arc, const Segment& segment, double structural_g) {
    constexpr double kNear_g = 0.05;
    const bool tightest = arc.size == Arc::Size::Tightest;
    const double sense = segment.law.load1_g < 0 ? -1 : 1;
    if (!tightest && flight.reaches(segment, sense * (arc.load_g - kNear_g))) return;
    const Flight::Extremes e = flight.extremes(segment);
    const double reached = sense < 0 ? -e.least_g : e.most_g;
    if (tightest) {
        flight.note(SolveNote::Kind::Information, "load of the tightest arc here",
                    loadText(reached), "", "");
        flight.notes.back().subject = "arc";
        return;
    }
    const double wanted = arc.load_g;
    const bool corner = segment.stop_s - segment.start_s < segment.law.onset_s;
    std::string what = "the load asked is not reached: ";
    if (wanted > structural_g + 1e-9)
        what += "the aircraft's limit is less";
    else
        what += corner ? "the corner is too short to build it" : "the wing gives no more here";
    flight.note(
        SolveNote::Kind::LoadShort, what, loadText(reached), loadText(wanted),
        corner ? "ask a lower load, or a bigger angle" : "enter faster, or ask a lower load");
    flight.notes.back().short_g = wanted - reached;
}

double structuralLoad_g(const Flight& flight, const ArcPlan& plan) {
    const data::AircraftLimits& limits = flight.world.aircraft.limits;
    return plan.sense < 0 ? -limits.load_min_g : limits.load_max_g;
}

// From the meter's reading now to the load asked, at the onset the aircraft stands.
Law loadLaw(const Flight& flight, const Arc& arc, const ArcPlan& plan) {
    const data::AircraftLimits& limits = flight.world.aircraft.limits;
    const double structural = structuralLoad_g(flight, plan);
    Law law = flight.lawFrom(Form::Shaped, Shape::LoadArc);
    law.load0_g = flight.joint.normal_g;
    law.load1_g = arc.floating                      ? arc.load_g
                  : arc.size == Arc::Size::Tightest ? plan.sense * structural
                                                    : plan.sense * std::min(arc.load_g, structural);
    // A smooth step's steepest slope is 1.5 times its mean: that is where the onset limit holds.
    const auto onset = [&](double load_g) {
        return limits.load_onset_gps > 0
                   ? 1.5 * std::fabs(load_g - law.load0_g) / limits.load_onset_gps
                   : 0;
    };
    // No faster than the wing gives it, at the speed then: a load that it does not give would be
    // met with a jerk.
    const World& world = flight.world;
    const Joint& joint = flight.joint;
    const Vec3 velocity = joint.air_velocity_S_mps;
    const double speed = glm::length(velocity);
    const double gain =
        glm::dot(rotate(joint.q_SB, joint.specific_force_B_mps2) - Vec3(0, 0, kGravity_mps2),
                 velocity) /
        speed;
    const auto given = [&](double at_mps) {
        constexpr double kBeforeTheBuffet = 0.95;
        const double per_g = kBeforeTheBuffet * 0.5 * world.density_kgpm3(joint.position_S_m.z) *
                             at_mps * at_mps * world.wing_area_m2 / (joint.mass_kg * kGravity_mps2);
        return std::clamp(law.load1_g, per_g * world.aero.normal(world.aero.alphaMin_rad()),
                          per_g * world.aero.normal(world.aero.alphaMax_rad()));
    };
    const double first_g = given(std::max(speed + gain * onset(given(speed)), 0.5 * speed));
    law.late_g = law.load1_g - first_g;
    law.onset_s = onset(first_g);
    // What a whole roll goes with, of a barrel.
    if (plan.rolled_rad != 0)
        law.spread_rad_per_rad = plan.sense * plan.rolled_rad / plan.angle_rad;
    flight.fadeShaped(law, kStartFade_s);
    return law;
}

void flyLoadArc(Flight& flight, const Arc& arc, const ArcPlan& plan) {
    const World& world = flight.world;
    const Law law = loadLaw(flight, arc, plan);

    // Angle of the nose from the nominal line the arc starts from, in the sense of the arc.
    const StateVector y0 = flight.stateAt(Form::Shaped);
    const Dynamics dynamics(world, law);
    const double alpha0 = dynamics.moment(flight.joint.time_s, y0).alpha_rad;
    const Quat nominal = flight.joint.q_SL * rotationY(world.aero.alpha0_rad());
    const double nose0 =
        plan.sense * vectorFromRotation(glm::conjugate(nominal) * flight.joint.q_SB).y;
    const double settle = world.aircraft.limits.nose_capture_s;

    double remaining_last = plan.angle_rad;
    const auto event = [&](double t, const StateVector& y) {
        // Far from the end the path's own angle will do.
        const double by_path = plan.angle_rad - plan.sense * y[kTurned];
        if (by_path > kNearEnd_rad) {
            remaining_last = by_path;
            return std::min(by_path, (y[kSpeed] - kSlowest_mps) * 0.1);
        }
        StateVector dy;
        const Moment m = dynamics.derivativeAndMoment(t, y, dy);
        const double nose = nose0 + plan.sense * (y[kTurned] + m.alpha_rad - alpha0);
        const double trim =
            plan.held ? 0 : trimOnLine(flight, plan.q_end_SL, y, law.throttle.at(t));
        const double remaining = plan.angle_rad + plan.sense * trim - nose;
        // Nose rate: the path's, and the incidence's as load grows and speed changes (alpha -
        // alpha0 ~ n / V^2).
        const double load_now = loadFactors(m.specific_force_B_mps2).normal_g;
        const double load_rate = law.loadRate_gps(t);
        const bool stalled =
            m.alpha_rad >= world.aero.alphaMax_rad() || m.alpha_rad <= world.aero.alphaMin_rad();
        const double incidence_rate = stalled || std::fabs(load_now) < 1e-3
                                          ? 0
                                          : (m.alpha_rad - world.aero.alpha0_rad()) *
                                                (load_rate / load_now - 2 * dy[kSpeed] / y[kSpeed]);
        const double nose_rate = plan.sense * (dy[kTurned] + incidence_rate);
        remaining_last = remaining;
        return std::min(remaining - 0.5 * settle * std::max(nose_rate, 0.0),
                        (y[kSpeed] - kSlowest_mps) * 0.1);
    };
    const std::size_t before = flight.segments.size();
    const Flight::Result r = flight.run(law, event, kLongestArc_s);
    if (flight.segments.size() > before && !arc.floating)
        reportLoad(flight, arc, flight.segments.back(), structuralLoad_g(flight, plan));
    if (flight.grounded) return;
    if (r.stop != ode::Stop::Event || r.state[kSpeed] <= kSlowest_mps + 1e-3)
        giveUp(flight, plan, plan.angle_rad - remaining_last);
    else
        flight.capture(plan.q_end_SL, settle);
}

// A roll spread over an arc must be had at this speed: its mean rate counts.
void checkSpreadRate(Flight& flight, double rate_radps, double speed_mps, const char* remedy) {
    const double limit = rollRateLimit_radps(flight.world, speed_mps);
    if (rate_radps > limit)
        flight.note(SolveNote::Kind::NotFlyable, "the roll spread over the arc is too fast",
                    angleText(rate_radps) + "/s", angleText(limit) + "/s", remedy);
}

void flyRadiusArc(Flight& flight, const Arc& arc, const ArcPlan& plan, const ArcWay& way) {
    Law law = flight.lawFrom(Form::Shaped, Shape::RadiusArc);
    const double radius = arc.size == Arc::Size::Radius
                              ? arc.radius_m
                              : radiusForLoad(flight, arc.load_g, plan.sense);
    // The path turns from where it points now to where the next line's path points: the line
    // itself, or for a line held by attitude the line less its trim incidence at about the speed
    // left.
    const Vec3 path_L =
        unrotate(flight.joint.q_SL, glm::normalize(flight.joint.air_velocity_S_mps));
    double start = plan.sense * std::atan2(-path_L.z, path_L.x);
    if (arc.over_ground) {
        const Vec3 ground_L =
            unrotate(flight.joint.q_SL, flight.joint.air_velocity_S_mps +
                                            flight.world.wind.at(flight.joint.position_S_m.z));
        start = plan.sense * std::atan2(-ground_L.z, ground_L.x);
    }
    double stop = 0;
    if (plan.held) {
        StateVector y = flight.stateAt(Form::Shaped);
        const double rise = radius * plan.sense *
                            (std::cos(planeAngle(flight.joint.q_SL)) -
                             std::cos(planeAngle(flight.joint.q_SL) + plan.sense * plan.angle_rad));
        const double left = y[kSpeed] * y[kSpeed] - 2 * kGravity_mps2 * rise;
        y[kSpeed] = std::sqrt(std::max(left, kSlowest_mps * kSlowest_mps));
        stop = -plan.sense * trimOnLine(flight, plan.q_end_SL, y, law.throttle.at(law.start_s));
    }
    const double angle = std::max(plan.angle_rad + stop - start, 1e-3);
    shapeCorner(radius, angle, law);
    law.curvature_pm *= plan.sense;
    law.spread_rad_per_rad = plan.rolled_rad / (plan.sense * angle);
    law.over_ground = arc.over_ground;
    if (plan.rolled_rad != 0) {
        const double speed = glm::length(flight.joint.air_velocity_S_mps);
        const double length = 2 * law.ramp_m + law.plateau_m;
        checkSpreadRate(flight, std::fabs(plan.rolled_rad) * speed / length, speed,
                        "ask fewer rolls, or a wider arc");
    }
    flight.fadeShaped(law, kStartFade_s);
    const double end_m = law.distance0_m + 2 * law.ramp_m + law.plateau_m;
    const auto event = [&](double, const StateVector& y) {
        return std::min(end_m - y[kDistance], (y[kSpeed] - kSlowest_mps) * 10);
    };
    const std::size_t before = flight.segments.size();
    const Flight::Result r = flight.run(law, event, kLongestArc_s);
    if (flight.segments.size() > before) {
        const Flight::Extremes e = flight.extremes(flight.segments.back());
        if (e.short_share > 0.02)
            flight.note(SolveNote::Kind::NotFlyable,
                        "the wing or the load limit does not give this radius; it is flown wider",
                        formatFixed(100 * (1 - e.short_share), 0) + " % of the lift needed",
                        "100 %", "fly it slower, faster or wider, as the load shows");
    }
    if (flight.grounded) return;
    if (r.stop != ode::Stop::Event || r.state[kDistance] < end_m - 1e-3)
        giveUp(flight, plan, std::fabs(r.state[kTurned]));
    else
        flight.capture(plan.q_end_SL * rotationX(plan.rolled_rad),
                       way.by_path ? 0 : flight.world.aircraft.limits.nose_capture_s);
}

// A barrel: the frame turns about an axis between those of roll and pitch, fixed in the air, so
// that a whole roll comes out where it began. The load is the meter's; pull and roll keep step.
void flyBarrel(Flight& flight, const Arc& arc, const ArcPlan& plan) {
    constexpr double kCapture_s = 0.5;
    // The axis lies this far from the roll axis; what is turned about it is what is rolled.
    const double tilt = std::atan2(plan.angle_rad, std::fabs(plan.rolled_rad));
    const double all = std::fabs(plan.rolled_rad), side = plan.rolled_rad < 0 ? -1 : 1;
    const Law law = loadLaw(flight, arc, plan);
    const double pulled = all * std::sin(tilt);
    const Dynamics dynamics(flight.world, law);
    const auto event = [&](double t, const StateVector& y) {
        const double left = pulled - plan.sense * y[kTurned];
        if (left > kNearEnd_rad) return std::min(left, (y[kSpeed] - kSlowest_mps) * 0.1);
        StateVector dy;
        dynamics.derivative(t, y, dy);
        // The rates fade out after it: half of what they would turn meanwhile.
        return std::min(left - 0.5 * kCapture_s * std::max(plan.sense * dy[kTurned], 0.0),
                        (y[kSpeed] - kSlowest_mps) * 0.1);
    };
    const double start_s = flight.joint.time_s;
    const std::size_t before = flight.segments.size();
    const Flight::Result r = flight.run(law, event, kLongestArc_s);
    if (flight.segments.size() > before && !arc.floating)
        reportLoad(flight, arc, flight.segments.back(), structuralLoad_g(flight, plan));
    if (flight.grounded) return;
    const double rate = all * std::cos(tilt) / std::max(flight.joint.time_s - start_s, 0.1);
    checkSpreadRate(flight, rate, glm::length(flight.joint.air_velocity_S_mps),
                    "ask fewer rolls, or less load");
    const Vec3 axis(side * std::cos(tilt), plan.sense * std::sin(tilt), 0);
    const Quat q_end = flight.joint.q_SL * axisAngle(axis, all);
    if (r.stop != ode::Stop::Event || r.state[kSpeed] <= kSlowest_mps + 1e-3)
        giveUp(flight, plan, std::fabs(r.state[kTurned]));
    else
        flight.capture(q_end, kCapture_s);
}

// Sense of a float: which way the path bends at the load asked, +1 as in a pull. Zero: it does not.
double floatSense(const Flight& flight, double load_g) {
    const double across = load_g + unrotate(flight.joint.q_SB, Vec3(0, 0, -1)).z * -1;
    return std::fabs(across) < 0.02 ? 0 : across > 0 ? 1 : -1;
}

// Roll spread over an arc: one angle; what has no meaning there is said.
double spreadRoll(Flight& flight, const Arc& arc) {
    double rolled = 0;
    bool points = false, both_ways = false;
    for (const text::RollPart& part : arc.rolls.parts) {
        points = points || part.points > 0;
        both_ways = both_ways || rolled * part.angle_rad < 0;
        rolled += part.angle_rad;
    }
    if (points)
        flight.note(SolveNote::Kind::NotFlyable, "points on an arc are flown as a steady roll", "",
                    "", "roll by points on a line");
    if (both_ways)
        flight.note(SolveNote::Kind::NotFlyable,
                    "rolls both ways on one arc are flown as what is left of them",
                    angleText(std::fabs(rolled)), "", "write an arc for each");
    return rolled;
}

}  // namespace

void flyArc(Flight& flight, const Arc& arc, const ArcWay& way) {
    ArcPlan plan;
    plan.sense = arc.push ? -1 : 1;
    if (arc.floating) {
        plan.sense = floatSense(flight, arc.load_g);
        if (plan.sense == 0) {
            flight.note(SolveNote::Kind::NotFlyable, "at this load the path here is straight",
                        loadText(arc.load_g), "", "ask less load, so that the nose falls");
            return;
        }
    }
    plan.angle_rad = arc.angle_rad;
    if (arc.to && !angleTo(flight, arc, plan.sense < 0, plan.angle_rad)) return;
    plan.rolled_rad = spreadRoll(flight, arc);
    plan.q_end_SL = flight.joint.q_SL * rotationY(plan.sense * plan.angle_rad);
    plan.held = !way.by_path && holdsAttitude(plan.q_end_SL);
    const bool by_load = arc.size == Arc::Size::Load || arc.size == Arc::Size::Tightest;
    if (by_load && plan.rolled_rad != 0) {
        if (arc.to)
            flight.note(
                SolveNote::Kind::NotFlyable,
                "rolled and pulled by load, the arc goes round a cone: it does not end in a "
                "direction said beforehand",
                "", "", "say it in degrees, or by radius to keep its plane");
        flyBarrel(flight, arc, plan);
    } else if (by_load) {
        flyLoadArc(flight, arc, plan);
    } else {
        flyRadiusArc(flight, arc, plan, way);
    }
}

}  // namespace plumbline::fly

// Where there is too little air over the wings: pivot, slide, fall.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/elements.h"
#include "engine/units/units.h"

namespace plumbline::fly {
namespace {

constexpr double kLongestVertical_s = 60;
constexpr double kVerticalFade_s = 0.3;
constexpr double kDefaultTilt_rad = 5 * units::kDegree_rad;
constexpr double kTiltTime_s = 0.6;  // chosen: a stick's worth of time for the tilt
constexpr double kSettledAoa_rad = 5 * units::kDegree_rad;
constexpr double kSettledRate_radps = 8 * units::kDegree_rad;
constexpr double kFastPivot_mps =
    25;  // chosen: above this the fin holds the nose against the rudder

constexpr double kBackFromOver_s = 1.5;  // chosen: the rudder let back slowly
constexpr double kDownline_m = 200;      // by then side force has done most of its work

Vec3 velocityOf(const StateVector& y) {
    return Vec3(y[kVelocity], y[kVelocity + 1], y[kVelocity + 2]);
}

// How far the flight stands beside a place it was at, through the air: the wind's drift is not the
// pilot's.
double asideOf(const Flight& flight, const Vec3& from, double from_s) {
    const Vec3 to = flight.joint.position_S_m;
    const Vec3 moved =
        to - from - flight.world.wind.at(0.5 * (from.z + to.z)) * (flight.joint.time_s - from_s);
    return std::hypot(moved.x, moved.y);
}

// Where a downline from here settles beside the upline: flown on for a trial, since side force is
// weak and takes its time.
double downlineAside(Flight& flight, const Vec3& from, double from_s) {
    constexpr double kTrialTolerance = 1e-4;  // centimetres; only metres are told
    const Flight::Mark here = flight.mark();
    const double tolerance = flight.held_tolerance.relative;
    flight.held_tolerance.relative = std::max(tolerance, kTrialTolerance);
    const double height = flight.joint.position_S_m.z;
    flight.run(
        flight.lineLaw(flight.joint.q_SL, true, kVerticalFade_s),
        [&](double, const StateVector& y) { return kDownline_m - (height - y[kZ]); },
        kLongestVertical_s);
    const double aside = asideOf(flight, from, from_s);
    flight.held_tolerance.relative = tolerance;
    flight.rewind(here);
    return aside;
}

}  // namespace

bool needsUpline(Flight& flight, const char* what) {
    const LineState now = lineState(flight.joint.q_SL);
    if (now.vertical && now.climb_rad > 0) return true;
    flight.note(SolveNote::Kind::NotFlyable, std::string(what) + " starts from a vertical upline",
                "climb is " + angleText(now.climb_rad), "90 deg", "pull or push to up first");
    return false;
}

void flyPivot(Flight& flight, const text::Pivot& pivot) {
    if (!needsUpline(flight, "a pivot")) return;
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    if (speed > kFastPivot_mps)
        flight.note(SolveNote::Kind::NotFlyable, "too fast to pivot: the fin holds the nose",
                    speedText(speed), speedText(kFastPivot_mps),
                    "end the upline at a lower speed, such as \"until 25 kt\"");
    const double before = flight.joint.wanted_power_frac;
    flight.setPower(pivot.power_frac.value_or(before));
    const double side = pivot.left ? -1 : 1, half_turns = kPi * pivot.count;
    Law law = flight.lawFrom(Form::Held, Shape::Yaw);
    law.profile_angle_rad = side * (half_turns + pivot.over_rad);
    law.profile_s = pivot.duration_s * pivot.count * (1 + pivot.over_rad / half_turns);
    flight.fadeHeld(law, kVerticalFade_s);
    const Vec3 from = flight.joint.position_S_m;
    const double start_s = flight.joint.time_s;
    flight.run(
        law, [](double, const StateVector&) { return 1.0; }, law.profile_s);
    if (flight.grounded) return;
    const double half_spans =
        asideOf(flight, from, start_s) / (0.5 * flight.world.aircraft.geometry.span_m);
    flight.setPower(before);
    const Quat q_SL = flight.joint.q_SL * rotationZ(side * half_turns);
    // The nose past the downline draws the path to it sooner; then it comes back. Else the next
    // line begins at once, and its length counts from here.
    if (pivot.over_rad > 0)
        flight.capture(q_SL, kBackFromOver_s);
    else
        flight.joint.q_SL = q_SL;
    if (flight.grounded) return;
    std::string found = formatFixed(half_spans, 1) + " half spans";
    if (pivot.count % 2 == 1)
        found += ", the downline " + lengthText(downlineAside(flight, from, start_s)) +
                 " from the upline";
    flight.note(SolveNote::Kind::Information, "sideways from the upline at the end of the yaw",
                std::move(found), "", "");
    flight.notes.back().subject = "pivot";
}

void flySlide(Flight& flight, const text::Slide& slide) {
    if (!needsUpline(flight, "a slide")) return;
    flight.setPower(slide.power_frac.value_or(0.0));
    const Law law = flight.lineLaw(flight.joint.q_SL, true, kVerticalFade_s);
    // Coast to the top, then back: one law, one signed speed; the top only starts the measure.
    const Flight::Result top = flight.run(
        law, [](double, const StateVector& y) { return y[kVelocity + 2]; }, kLongestVertical_s);
    if (flight.grounded || top.stop != ode::Stop::Event) return;
    const double height = flight.joint.position_S_m.z, start = flight.joint.time_s;
    const auto event = [&](double t, const StateVector& y) {
        switch (slide.until) {
            case text::Slide::Until::Distance:
                return slide.value - (height - y[kZ]);
            case text::Slide::Until::Duration:
                return slide.value - (t - start);
            case text::Slide::Until::Speed:
                break;
        }
        return slide.value - glm::length(velocityOf(y));
    };
    Law back = law;
    back.throttle = flight.joint.throttle;
    const Flight::Result end = flight.run(back, event, kLongestVertical_s);
    if (flight.grounded) return;
    const double speed = glm::length(flight.joint.air_velocity_S_mps);
    if (end.stop != ode::Stop::Event)
        flight.note(SolveNote::Kind::NeverMet, "the slide never reaches its end",
                    "settles at " + speedText(speed), "", "ask a lower speed or less power");
    flight.note(SolveNote::Kind::Information, "length and speed of the slide",
                lengthText(height - flight.joint.position_S_m.z) + " long, " + speedText(speed) +
                    " tail first at its end",
                "", "");
    flight.notes.back().subject = "slide";
}

void flyFall(Flight& flight, const text::Fall& fall) {
    if (!needsUpline(flight, "a fall")) return;
    const Vec3 nose = rotate(flight.joint.q_SL, Vec3(1, 0, 0));
    if (glm::dot(flight.joint.air_velocity_S_mps, nose) > 0) {
        flight.note(SolveNote::Kind::NotFlyable, "a fall starts tail first, after a slide",
                    speedText(glm::length(flight.joint.air_velocity_S_mps)) + " nose first", "",
                    "slide first");
        return;
    }
    // The stick's small tilt starts it; from there the reversed flow over the tail does the rest.
    const double from_m = flight.joint.position_S_m.z;
    const double sense = fall.wheels_down ? -1 : 1;
    const double tilt = sense * (fall.tilt_rad > 0 ? fall.tilt_rad : kDefaultTilt_rad);
    Law law = flight.lawFrom(Form::Held, Shape::Tilt);
    law.profile_angle_rad = tilt;
    law.profile_s = kTiltTime_s;
    flight.fadeHeld(law, kTiltTime_s);
    flight.run(
        law, [](double, const StateVector&) { return 1.0; }, kTiltTime_s);
    if (flight.grounded) return;

    Law free = flight.lawFrom(Form::Held, Shape::Free);
    free.q_SL = law.q_SL;
    flight.joint.pitch_rad = tilt;
    flight.joint.pitch_rate_radps = 3 * tilt / kTiltTime_s;  // end rate of the tilt's cubic
    const Dynamics dynamics(flight.world, free);
    const auto settled = [&](double t, const StateVector& y) {
        const Moment m = dynamics.moment(t, y);
        const double past_half = std::fabs(y[kPitch]) - 0.5 * kPi;
        const double aoa = std::fabs(m.alpha_rad) - kSettledAoa_rad;
        const double rate = std::fabs(y[kPitchRate]) - kSettledRate_radps;
        return std::max({aoa, rate, -past_half});
    };
    const Flight::Result r = flight.run(free, settled, kLongestVertical_s);
    flight.joint.pitch_rad = flight.joint.pitch_rate_radps = 0;
    if (flight.grounded) return;
    if (r.stop != ode::Stop::Event)
        flight.note(SolveNote::Kind::NeverMet, "the fall does not settle nose down",
                    angleText(std::fabs(r.state[kPitch])), "180 deg",
                    "slide longer, or use less power");
    flight.note(SolveNote::Kind::Information, "from the end of the slide to nose down, settled",
                formatFixed(flight.joint.time_s - law.start_s, 1) + " s, " +
                    lengthText(from_m - flight.joint.position_S_m.z) + ", " +
                    speedText(glm::length(flight.joint.air_velocity_S_mps)),
                "", "");
    flight.notes.back().subject = "fall";
    flight.setPower(flight.joint.wanted_power_frac);
    const double left = std::fabs(kPi - std::fabs(r.state[kPitch]));
    // chosen: what is left to vertical is taken out at a few tens of degrees a second
    flight.capture(law.q_SL * rotationY(sense * kPi), std::max(0.5, 3 * left));
}

}  // namespace plumbline::fly

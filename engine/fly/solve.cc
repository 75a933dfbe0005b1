#include "engine/fly/solve.h"

#include <algorithm>
#include <cmath>

#include "engine/fly/elements.h"
#include "engine/fly/flight.h"

namespace plumbline::fly {

struct Solution::Impl {
    World world;
    Flight flight;
    path::Path frame;  ///< everything of the path but its samples
    double fuel_at_start_kg = 0, mass_at_start_kg = 0;
    double duration_s = 0;

    Impl(const data::Aircraft& a, const data::Site& s, const data::Weather& w,
         const SolveOptions& options)
        : world(a, s, w, options.raise_m), flight(world, options) {}

    path::Sample sampleIn(const Segment& segment, double time_s) const;
};

namespace {

std::string directionWords(const text::Direction& d) {
    switch (d.kind) {
        case text::Direction::Kind::Up:
            return "up";
        case text::Direction::Kind::Down:
            return "down";
        case text::Direction::Kind::Level:
            return d.inverted ? "inverted level" : "level";
        case text::Direction::Kind::Angle:
            break;
    }
    return std::string(d.inverted ? "inverted " : "") + angleText(std::fabs(d.climb_rad)) +
           (d.climb_rad < 0 ? " down" : " up");
}

// Short trade words for an element, for lists and the CSV.
std::string labelOf(const text::ElementBody& body) {
    struct Namer {
        std::string operator()(const text::Line& l) const {
            return std::string("line") + (l.direction ? " " + directionWords(*l.direction) : "") +
                   (l.rolls.parts.empty() ? "" : " with roll");
        }
        std::string operator()(const text::Arc& a) const {
            return std::string(a.floating ? "float"
                               : a.push   ? "push"
                                          : "pull") +
                   (a.to ? " to " + directionWords(*a.to) : " " + angleText(a.angle_rad));
        }
        std::string operator()(const text::Polygon& p) const {
            return std::string(p.push ? "push " : "pull ") + std::to_string(p.sides) + " sides";
        }
        std::string operator()(const text::Turn& t) const {
            return t.left ? "turn left" : "turn right";
        }
        std::string operator()(const text::RollingTurn& t) const {
            return t.left ? "rolling turn left" : "rolling turn right";
        }
        std::string operator()(const text::Pivot& p) const {
            return p.left ? "pivot left" : "pivot right";
        }
        std::string operator()(const text::Slide&) const { return "slide"; }
        std::string operator()(const text::Fall& f) const {
            return f.wheels_down ? "fall wheels-down" : "fall wheels-up";
        }
        std::string operator()(const text::Reposition&) const { return "reposition"; }
        std::string operator()(const text::Climb& c) const {
            return c.descend ? "descend" : "climb";
        }
        std::string operator()(const text::Wait&) const { return "wait"; }
        std::string operator()(const text::PowerSetting&) const { return "power"; }
        std::string operator()(const text::SmokeSwitch&) const { return "smoke"; }
        std::string operator()(const text::CueMark&) const { return "cue"; }
        std::string operator()(const text::Ribbon&) const { return "ribbon"; }
        std::string operator()(const text::Expect&) const { return "expect"; }
    };
    return std::visit(Namer{}, body);
}

constexpr std::size_t kStepsAnElement = 60;  // with room: a rich routine takes some 35

bool sameDirection(const text::Line& a, const text::Line& b) {
    if (a.reference != b.reference && b.reference != text::LineReference::Default) return false;
    if (!b.direction) return true;
    return a.direction && a.direction->kind == b.direction->kind &&
           a.direction->climb_rad == b.direction->climb_rad;
}

class RoutineFlyer {
public:
    explicit RoutineFlyer(Solution::Impl& impl) : impl_(impl), flight_(impl.flight) {}

    void start(const routine::Routine& routine) {
        const data::Aircraft& aircraft = impl_.world.aircraft;
        const double fuel_kg = routine.start.fuel_l * 1e-3 * aircraft.mass.fuel_density_kgpm3;
        Joint& j = flight_.joint;
        j.position_S_m = Vec3(routine.start.x_m, routine.start.y_m, routine.start.height_m);
        j.q_SL = routine.start.crowd_right ? Quat(0, 1, 0, 0) : Quat(0, 0, 1, 0);
        j.air_velocity_S_mps = rotate(j.q_SL, Vec3(routine.start.speed_mps, 0, 0));
        j.mass_kg = aircraft.mass.empty_kg + aircraft.mass.pilot_kg + fuel_kg;
        j.head_k = aircraft.power.head_limit_k > 0
                       ? 0.9 * aircraft.power.head_limit_k
                       : impl_.world.air(j.position_S_m.z).temperature_k;
        j.wanted_power_frac = routine.start.power_frac;
        j.throttle = {0, routine.start.power_frac, routine.start.power_frac,
                      aircraft.power.throttle_lag_s};
        impl_.fuel_at_start_kg = fuel_kg;
        impl_.mass_at_start_kg = j.mass_kg;
        // Trimmed at the start: the attitude that holds this line here.
        Law law = flight_.lawFrom(Form::Shaped, Shape::PathLine);
        j.q_SB = j.q_SL;
        const StateVector y = flight_.stateAt(Form::Shaped);
        const Moment m = Dynamics(impl_.world, law).moment(0, y);
        j.q_SB = m.q_SB;
        j.specific_force_B_mps2 = m.specific_force_B_mps2;
        j.normal_g = loadFactors(m.specific_force_B_mps2).normal_g;
    }

    void figure(std::int32_t index, const routine::RoutineFigure& figure) {
        flight_.figure = index;
        path::Figure out;
        out.name = figure.name;
        out.start_s = flight_.joint.time_s;
        const std::vector<text::Element>& elements = figure.elements;
        for (std::size_t i = 0; i < elements.size() && !flight_.grounded; ++i)
            i = element(index, elements, i);
        out.stop_s = flight_.joint.time_s;
        impl_.frame.figures.push_back(out);
    }

    void finish() {
        if (smoke_on_) impl_.frame.smoke.push_back({smoke_from_s_, flight_.joint.time_s});
        impl_.duration_s = flight_.joint.time_s;
        // What each element's segments cover.
        for (path::Element& e : impl_.frame.elements) e.stop_s = e.start_s = -1;
        for (const Segment& s : flight_.segments) {
            path::Element& e = impl_.frame.elements[static_cast<std::size_t>(s.element)];
            if (e.start_s < 0) e.start_s = s.start_s;
            e.stop_s = s.stop_s;
        }
        double last = 0;
        for (path::Element& e : impl_.frame.elements) {
            if (e.start_s < 0) e.start_s = e.stop_s = last;
            last = e.stop_s;
        }
    }

private:
    std::int32_t newElement(std::int32_t figure, const text::Element& e) {
        path::Element out;
        out.figure = figure;
        out.label = labelOf(e.body);
        out.source_line = e.span.line;
        impl_.frame.elements.push_back(out);
        flight_.element = static_cast<std::int32_t>(impl_.frame.elements.size()) - 1;
        flight_.source_line = e.span.line;
        return flight_.element;
    }

    // Flies elements[i], or the run of lines that begins there; the index of the last one flown.
    std::size_t element(std::int32_t figure, const std::vector<text::Element>& elements,
                        std::size_t i) {
        const text::Element& e = elements[i];
        if (const auto* power = std::get_if<text::PowerSetting>(&e.body)) {
            flight_.joint.wanted_power_frac = power->frac;
            flight_.setPower(power->frac);
            return i;
        }
        if (const auto* smoke = std::get_if<text::SmokeSwitch>(&e.body)) {
            if (smoke_on_ && !smoke->on)
                impl_.frame.smoke.push_back({smoke_from_s_, flight_.joint.time_s});
            if (!smoke_on_ && smoke->on) smoke_from_s_ = flight_.joint.time_s;
            smoke_on_ = smoke->on;
            return i;
        }
        if (const auto* cue = std::get_if<text::CueMark>(&e.body)) {
            impl_.frame.cues.push_back({flight_.joint.time_s, cue->words});
            return i;
        }
        if (const auto* expect = std::get_if<text::Expect>(&e.body)) {
            flight_.source_line = e.span.line;
            checkExpectation(flight_, *expect, e.words);
            return i;
        }
        if (const auto* ribbon = std::get_if<text::Ribbon>(&e.body)) {
            flight_.source_line = e.span.line;
            passRibbon(flight_, *ribbon);
            return i;
        }
        const std::int32_t index = newElement(figure, e);
        if (const auto* line = std::get_if<text::Line>(&e.body)) {
            std::vector<LinePart> parts{{line, index, e.span.line}};
            while (i + 1 < elements.size()) {
                const auto* next = std::get_if<text::Line>(&elements[i + 1].body);
                if (!next || !sameDirection(*line, *next)) break;
                ++i;
                parts.push_back({next, newElement(figure, elements[i]), elements[i].span.line});
            }
            flyLines(flight_, parts);
        } else if (const auto* arc = std::get_if<text::Arc>(&e.body)) {
            flyArc(flight_, *arc);
        } else if (const auto* polygon = std::get_if<text::Polygon>(&e.body)) {
            flyPolygon(flight_, *polygon);
        } else if (const auto* rolling = std::get_if<text::RollingTurn>(&e.body)) {
            flyRollingTurn(flight_, *rolling);
        } else if (const auto* wait = std::get_if<text::Wait>(&e.body)) {
            flyWait(flight_, *wait);
        } else if (const auto* climb = std::get_if<text::Climb>(&e.body)) {
            flyClimb(flight_, *climb);
        } else if (const auto* turn = std::get_if<text::Turn>(&e.body)) {
            flyTurn(flight_, *turn);
        } else if (const auto* pivot = std::get_if<text::Pivot>(&e.body)) {
            flyPivot(flight_, *pivot);
        } else if (const auto* slide = std::get_if<text::Slide>(&e.body)) {
            flySlide(flight_, *slide);
        } else if (const auto* fall = std::get_if<text::Fall>(&e.body)) {
            flyFall(flight_, *fall);
        } else if (const auto* reposition = std::get_if<text::Reposition>(&e.body)) {
            flyReposition(flight_, *reposition);
        }
        return i;
    }

    Solution::Impl& impl_;
    Flight& flight_;
    bool smoke_on_ = false;
    double smoke_from_s_ = 0;
};

}  // namespace

path::Sample Solution::Impl::sampleIn(const Segment& segment, double time_s) const {
    const StateVector y = flight.stateOf(segment, time_s);
    const Moment m = Dynamics(world, segment.law).moment(time_s, y);
    path::Sample s;
    s.time_s = time_s;
    s.position_S_m = Vec3(y[kX], y[kY], y[kZ] + world.raise_m);
    s.velocity_S_mps = m.air_velocity_S_mps + world.wind.at(y[kZ]);
    s.q_SB = glm::normalize(m.q_SB);
    s.rate_B_radps = flight.bodyRate(segment, time_s);
    s.specific_force_B_mps2 = m.specific_force_B_mps2;
    s.airspeed_mps = m.speed_mps;
    s.aoa_rad = m.alpha_rad;
    s.sideslip_rad = m.beta_rad;
    s.power_frac = segment.law.throttle.at(time_s);
    s.mass_kg = y[kMass];
    s.fuel_kg = fuel_at_start_kg - (mass_at_start_kg - y[kMass]);
    s.head_temperature_k = y[kHead];
    s.element = segment.element;
    return s;
}

Solution::Solution() = default;
Solution::Solution(std::shared_ptr<const Impl> impl) : impl_(std::move(impl)) {}

bool Solution::empty() const { return !impl_ || impl_->flight.segments.empty(); }
double Solution::duration_s() const { return impl_ ? impl_->duration_s : 0; }
std::int64_t Solution::evaluations() const { return impl_ ? impl_->flight.evaluations : 0; }

const std::vector<SolveNote>& Solution::notes() const {
    static const std::vector<SolveNote> kNone;
    return impl_ ? impl_->flight.notes : kNone;
}

namespace {

// Consecutive quaternions on one side, so that files and interpolation never jump sign.
void alignSigns(std::vector<path::Sample>& samples) {
    for (std::size_t i = 1; i < samples.size(); ++i)
        if (glm::dot(samples[i - 1].q_SB, samples[i].q_SB) < 0) samples[i].q_SB = -samples[i].q_SB;
}

}  // namespace

path::Path Solution::samplePath(double rate_hz) const {
    path::Path path;
    if (!impl_) return path;
    path = impl_->frame;
    const std::vector<Segment>& segments = impl_->flight.segments;
    path.samples.reserve(static_cast<std::size_t>(impl_->duration_s * rate_hz) +
                         2 * segments.size() + 2);
    std::int64_t tick = 0;
    const double joint_gap_s = 1e-6;
    for (std::size_t i = 0; i < segments.size(); ++i) {
        const Segment& s = segments[i];
        const bool new_element = i == 0 || segments[i - 1].element != s.element;
        if (new_element &&
            (path.samples.empty() || path.samples.back().time_s < s.start_s - joint_gap_s)) {
            path.samples.push_back(impl_->sampleIn(s, s.start_s));
            if (std::fabs(static_cast<double>(tick) / rate_hz - s.start_s) < joint_gap_s) ++tick;
        }
        for (; static_cast<double>(tick) / rate_hz < s.stop_s; ++tick) {
            const double t = std::max(static_cast<double>(tick) / rate_hz, s.start_s);
            if (!path.samples.empty() && t < path.samples.back().time_s + joint_gap_s) continue;
            path.samples.push_back(impl_->sampleIn(s, t));
        }
    }
    if (!segments.empty() && path.samples.back().time_s < segments.back().stop_s - joint_gap_s)
        path.samples.push_back(impl_->sampleIn(segments.back(), segments.back().stop_s));
    alignSigns(path.samples);
    return path;
}

std::vector<path::Sample> Solution::sampleTimes(const std::vector<double>& times_s) const {
    std::vector<path::Sample> out;
    if (!impl_ || impl_->flight.segments.empty()) return out;
    const std::vector<Segment>& segments = impl_->flight.segments;
    std::size_t i = 0;
    out.reserve(times_s.size());
    for (const double t : times_s) {
        while (i + 1 < segments.size() && segments[i].stop_s < t) ++i;
        out.push_back(
            impl_->sampleIn(segments[i], std::clamp(t, segments[i].start_s, segments[i].stop_s)));
    }
    alignSigns(out);
    return out;
}

Solution solve(const data::Aircraft& aircraft, const data::Site& site, const data::Weather& weather,
               const routine::Routine& routine, const SolveOptions& options) {
    auto impl = std::make_shared<Solution::Impl>(aircraft, site, weather, options);
    impl->frame.origin = path::Origin::Plan;
    impl->frame.name = routine.name;
    impl->frame.show_line_bearing_rad = site.show_line_bearing_rad;
    std::size_t elements = 0;
    for (const routine::RoutineFigure& figure : routine.figures) elements += figure.elements.size();
    impl->flight.steps.reserve(kStepsAnElement *
                               elements);  // so that trials do not move them about
    RoutineFlyer flyer(*impl);
    flyer.start(routine);
    for (std::size_t i = 0; i < routine.figures.size() && !impl->flight.grounded; ++i)
        flyer.figure(static_cast<std::int32_t>(i), routine.figures[i]);
    flyer.finish();
    return Solution(std::move(impl));
}

}  // namespace plumbline::fly

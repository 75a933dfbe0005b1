#include "engine/fly/solve.h"

#include <algorithm>
#include <cmath>

#include "engine/fly/aims.h"
#include "engine/fly/elements.h"
#include "engine/fly/label.h"
#include "engine/fly/routine_flyer.h"

namespace plumbline::fly {

namespace {

constexpr std::size_t kStepsAnElement = 60;  // with room: a rich routine takes some 35

bool sameDirection(const text::Line& a, const text::Line& b) {
    if (a.reference != b.reference && b.reference != text::LineReference::Default) return false;
    if (!b.direction) return true;
    return a.direction && a.direction->kind == b.direction->kind &&
           a.direction->climb_rad == b.direction->climb_rad;
}

}  // namespace

void RoutineFlyer::start(const routine::Start& start) {
    const data::Aircraft& aircraft = impl_.world->aircraft;
    const double fuel_kg = start.fuel_l * 1e-3 * aircraft.mass.fuel_density_kgpm3;
    Standing standing;
    standing.position_S_m = Vec3(start.x_m, start.y_m, start.height_m);
    standing.q_SL = start.crowd_right ? Quat(0, 1, 0, 0) : Quat(0, 0, 1, 0);
    standing.airspeed_mps = start.speed_mps;
    standing.mass_kg = aircraft.mass.empty_kg + aircraft.mass.pilot_kg + fuel_kg;
    standing.fuel_kg = fuel_kg;
    standing.head_temperature_k = aircraft.power.head_limit_k > 0
                                      ? 0.9 * aircraft.power.head_limit_k
                                      : impl_.world->air(start.height_m).temperature_k;
    standing.power_frac = start.power_frac;
    stand(standing);
}

void RoutineFlyer::stand(const Standing& standing) {
    Joint& j = flight_.joint;
    j.position_S_m = standing.position_S_m;
    j.q_SL = standing.q_SL;
    j.air_velocity_S_mps = rotate(j.q_SL, Vec3(standing.airspeed_mps, 0, 0));
    j.mass_kg = standing.mass_kg;
    j.head_k = standing.head_temperature_k;
    j.wanted_power_frac = standing.power_frac;
    j.throttle = {0, standing.power_frac, standing.power_frac,
                  impl_.world->aircraft.power.throttle_lag_s};
    impl_.fuel_at_start_kg = standing.fuel_kg;
    impl_.mass_at_start_kg = j.mass_kg;
    // Trimmed: the attitude that holds this line here.
    j.q_SB = j.q_SL;
    const bool held = holdsAttitude(j.q_SL);
    const Law law = held ? flight_.lawFrom(Form::Held, Shape::Hold)
                         : flight_.lawFrom(Form::Shaped, Shape::PathLine);
    const StateVector y = flight_.stateAt(held ? Form::Held : Form::Shaped);
    const Moment m = Dynamics(*impl_.world, law).moment(0, y);
    j.q_SB = m.q_SB;
    j.specific_force_B_mps2 = m.specific_force_B_mps2;
    j.normal_g = loadFactors(m.specific_force_B_mps2).normal_g;
    impl_.checkpoints.assign(1, checkpoint());
}

Checkpoint RoutineFlyer::checkpoint() const {
    Checkpoint c;
    c.flight = flight_.mark();
    c.elements = impl_.frame.elements.size();
    c.cues = impl_.frame.cues.size();
    c.smoke = impl_.frame.smoke.size();
    c.found = impl_.found.size();
    c.smoke_on = smoke_on_;
    c.smoke_from_s = smoke_from_s_;
    return c;
}

void RoutineFlyer::rewind(std::size_t figures) {
    const Checkpoint& c = impl_.checkpoints[figures];
    flight_.rewind(c.flight);
    impl_.frame.figures.resize(figures);
    impl_.frame.elements.resize(c.elements);
    impl_.frame.cues.resize(c.cues);
    impl_.frame.smoke.resize(c.smoke);
    impl_.found.resize(c.found);
    smoke_on_ = c.smoke_on;
    smoke_from_s_ = c.smoke_from_s;
    impl_.checkpoints.resize(figures + 1);
}

void RoutineFlyer::resume(const Solution::Impl& before, std::size_t figures) {
    const Checkpoint& c = before.checkpoints[figures];
    const auto copy = [](const auto& from, std::size_t count, auto& to) {
        to.assign(from.begin(), from.begin() + static_cast<std::ptrdiff_t>(count));
    };
    copy(before.flight.segments, c.flight.segments, flight_.segments);
    copy(before.flight.steps, c.flight.steps, flight_.steps);
    copy(before.flight.notes, c.flight.notes, flight_.notes);
    copy(before.frame.figures, figures, impl_.frame.figures);
    copy(before.frame.elements, c.elements, impl_.frame.elements);
    copy(before.frame.cues, c.cues, impl_.frame.cues);
    copy(before.frame.smoke, c.smoke, impl_.frame.smoke);
    copy(before.found, c.found, impl_.found);
    copy(before.checkpoints, figures + 1, impl_.checkpoints);
    flight_.joint = c.flight.joint;
    flight_.grounded = c.flight.grounded;
    impl_.fuel_at_start_kg = before.fuel_at_start_kg;
    impl_.mass_at_start_kg = before.mass_at_start_kg;
    smoke_on_ = c.smoke_on;
    smoke_from_s_ = c.smoke_from_s;
}

void RoutineFlyer::figure(const routine::RoutineFigure& figure) {
    const auto index = static_cast<std::int32_t>(flown());
    flight_.figure = index;
    if (impl_.options.before_figure) startElsewhere(flown());
    // What stands before the first element belongs to the last one of the figure before.
    flight_.element = std::max(static_cast<std::int32_t>(impl_.frame.elements.size()) - 1, 0);
    path::Figure out;
    out.name = figure.name;
    out.start_s = flight_.joint.time_s;
    const std::vector<text::Element>& elements = figure.elements;
    for (std::size_t i = 0; i < elements.size() && !flight_.grounded; ++i)
        i = element(index, elements, i);
    out.stop_s = flight_.joint.time_s;
    impl_.frame.figures.push_back(out);
    impl_.checkpoints.push_back(checkpoint());
}

void RoutineFlyer::startElsewhere(std::size_t figure) {
    Joint& j = flight_.joint;
    FigureStart start;
    start.position_S_m = j.position_S_m;
    start.air_velocity_S_mps = j.air_velocity_S_mps;
    const double was_mps = start.airspeed_mps = glm::length(j.air_velocity_S_mps);
    impl_.options.before_figure(figure, start);
    j.position_S_m = start.position_S_m;
    const Quat turn = rotationZ(start.turn_rad);
    if (was_mps > 0)
        j.air_velocity_S_mps = rotate(turn, j.air_velocity_S_mps * (start.airspeed_mps / was_mps));
    j.q_SB = glm::normalize(turn * j.q_SB);
    j.q_SL = glm::normalize(turn * j.q_SL);
}

void RoutineFlyer::finish() {
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

std::int32_t RoutineFlyer::newElement(std::int32_t figure, const text::Element& e) {
    path::Element out;
    out.figure = figure;
    out.label = labelOf(e.body);
    out.source_line = e.span.line;
    impl_.frame.elements.push_back(out);
    flight_.element = static_cast<std::int32_t>(impl_.frame.elements.size()) - 1;
    flight_.source_line = e.span.line;
    return flight_.element;
}

void RoutineFlyer::mark(const text::Element& e) {
    if (const auto* power = std::get_if<text::PowerSetting>(&e.body)) {
        flight_.joint.wanted_power_frac = power->frac;
        flight_.setPower(power->frac);
    } else if (const auto* smoke = std::get_if<text::SmokeSwitch>(&e.body)) {
        if (smoke_on_ && !smoke->on)
            impl_.frame.smoke.push_back({smoke_from_s_, flight_.joint.time_s});
        if (!smoke_on_ && smoke->on) smoke_from_s_ = flight_.joint.time_s;
        smoke_on_ = smoke->on;
    } else if (const auto* cue = std::get_if<text::CueMark>(&e.body)) {
        impl_.frame.cues.push_back({flight_.joint.time_s, cue->words});
    } else if (const auto* expect = std::get_if<text::Expect>(&e.body)) {
        flight_.source_line = e.span.line;
        checkExpectation(flight_, *expect, e.words);
    } else if (const auto* ribbon = std::get_if<text::Ribbon>(&e.body)) {
        flight_.source_line = e.span.line;
        passRibbon(flight_, *ribbon);
    }
}

// Flies elements[i], or the run of lines that begins there; the index of the last one flown.
std::size_t RoutineFlyer::element(std::int32_t figure, const std::vector<text::Element>& elements,
                                  std::size_t i) {
    const text::Element& e = elements[i];
    if (text::isMark(e.body)) {
        mark(e);
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
    } else if (const auto* roll = std::get_if<text::TorqueRoll>(&e.body)) {
        flyTorqueRoll(flight_, *roll);
    } else if (const auto* spin = std::get_if<text::Spin>(&e.body)) {
        flySpin(flight_, *spin);
    } else if (const auto* tumble = std::get_if<text::Tumble>(&e.body)) {
        flyTumble(flight_, *tumble);
    }
    return i;
}

namespace {

/// Figures from the first on that are the same in both, with all that the values found in them
/// depend on.
std::size_t sameFigures(const std::vector<routine::RoutineFigure>& a,
                        const std::vector<routine::RoutineFigure>& b) {
    std::size_t same = 0;
    while (same < a.size() && same < b.size() && a[same] == b[same]) ++same;
    const std::vector<AimGroup> groups_a = groupAims(a), groups_b = groupAims(b);
    for (std::size_t before = same + 1; same < before;) {
        before = same;
        for (const auto* groups : {&groups_a, &groups_b})
            for (const AimGroup& group : *groups)
                if (group.first < same && same <= group.last) same = group.first;
    }
    return same;
}

Solution flyRoutine(std::shared_ptr<const World> world, const SolveOptions& options,
                    const routine::Routine& routine, const Solution::Impl* before) {
    auto impl = std::make_shared<Solution::Impl>(std::move(world), options);
    impl->frame.origin = path::Origin::Plan;
    impl->frame.name = routine.name;
    impl->frame.show_line_bearing_rad = impl->world->site.show_line_bearing_rad;
    impl->start = routine.start;
    impl->figures = routine.figures;
    std::size_t elements = 0;
    for (const routine::RoutineFigure& figure : routine.figures) elements += figure.elements.size();
    impl->flight.steps.reserve(kStepsAnElement *
                               elements);  // so that trials do not move them about
    RoutineFlyer flyer(*impl);
    std::size_t same = 0;
    if (before && before->start == routine.start)
        same =
            std::min(sameFigures(before->figures, routine.figures), before->checkpoints.size() - 1);
    if (same > 0) {
        flyer.resume(*before, same);
        impl->same_until_s = impl->flight.joint.time_s;
    } else {
        flyer.start(routine.start);
    }
    const std::vector<AimGroup> groups = groupAims(routine.figures);
    auto group = groups.begin();
    while (flyer.flown() < routine.figures.size() && !flyer.grounded()) {
        const std::size_t next = flyer.flown();
        while (group != groups.end() && group->first < next) ++group;
        if (group != groups.end() && group->first == next)
            flyAims(flyer, *group, routine.figures);
        else
            flyer.figure(routine.figures[next]);
    }
    flyer.finish();
    return Solution(std::move(impl));
}

}  // namespace

Solution solve(const data::Aircraft& aircraft, const data::Site& site, const data::Weather& weather,
               const routine::Routine& routine, const SolveOptions& options) {
    return flyRoutine(std::make_shared<World>(aircraft, site, weather, options.raise_m), options,
                      routine, nullptr);
}

Solution solveAgain(const Solution& before, const routine::Routine& routine) {
    if (!before.impl_) return {};
    return flyRoutine(before.impl_->world, before.impl_->options, routine, before.impl_.get());
}

Solution flyFrom(const Solution& like, const Standing& standing,
                 const routine::RoutineFigure& figure, double relative_tolerance) {
    if (!like.impl_) return {};
    SolveOptions options = like.impl_->options;
    options.relative_tolerance = relative_tolerance;
    auto impl = std::make_shared<Solution::Impl>(like.impl_->world, options);
    impl->frame.show_line_bearing_rad = impl->world->site.show_line_bearing_rad;
    impl->frame.origin = path::Origin::Plan;
    RoutineFlyer flyer(*impl);
    flyer.stand(standing);
    flyer.figure(figure);
    flyer.finish();
    return Solution(std::move(impl));
}

}  // namespace plumbline::fly

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/elements.h"
#include "engine/fly/snap.h"
#include "engine/math/root.h"

namespace plumbline::fly {
namespace {

using text::Condition;
using text::Direction;
using text::Extent;
using text::RollPlacement;

constexpr double kLongestLine_s = 120;
constexpr double kFadeOnLine_s = 0.4;  // chosen: small mismatches of incidence are taken up unseen
constexpr double kDefaultPause_s = 0.4;    // the language's default between points
constexpr double kThenPause_s = 0.15;      // chosen: stick from stop to stop between joined rolls
constexpr double kLineTolerance = 1e-3;    // a decimetre of place at most
constexpr double kSlowestByPath_mps = 12;  // chosen: below this no path is held by the wing
constexpr double kAlong = 0.999;           // cosine within which two directions are the same

double airSpeed(const Law& law, const StateVector& y) {
    if (law.form == Form::Shaped) return y[kSpeed];
    return std::sqrt(y[kVelocity] * y[kVelocity] + y[kVelocity + 1] * y[kVelocity + 1] +
                     y[kVelocity + 2] * y[kVelocity + 2]);
}

// A line of the text with its extent as an event, and what to say when it cannot be met.
struct ExtentEvent {
    Flight::Event event;
    bool impossible = false;
    double late_s = 1e9;  ///< where impossible: for how long the end has been passed
    std::string now;      ///< what the quantity does, for the note
};

// Value of a condition's quantity and its rate at the joint.
struct Quantity {
    double value, rate;
};

Quantity quantityAt(const Flight& flight, const Law& law, const Condition& c) {
    const Dynamics dynamics(flight.world, law);
    const StateVector y = flight.startOf(law, dynamics);
    StateVector dy;
    dynamics.derivative(flight.joint.time_s, y, dy);
    switch (c.kind) {
        case Condition::Kind::X:
            return {y[kX], dy[kX]};
        case Condition::Kind::Y:
            return {y[kY], dy[kY]};
        case Condition::Kind::Height:
            return {y[kZ], dy[kZ]};
        case Condition::Kind::Speed:
            break;
    }
    const double v = airSpeed(law, y);
    if (law.form == Form::Shaped) return {v, dy[kSpeed]};
    const Vec3 velocity(y[kVelocity], y[kVelocity + 1], y[kVelocity + 2]);
    const Vec3 rate(dy[kVelocity], dy[kVelocity + 1], dy[kVelocity + 2]);
    return {v, v > 0 ? glm::dot(velocity, rate) / v : 0};
}

ExtentEvent untilEvent(const Flight& flight, const Law& law, const Condition& c) {
    ExtentEvent out;
    const Quantity q = quantityAt(flight, law, c);
    const double side = q.value < c.value ? 1.0 : -1.0;
    const bool speed = c.kind == Condition::Kind::Speed;
    const double raise = c.kind == Condition::Kind::Height ? flight.world.raise_m : 0;
    out.impossible = std::fabs(q.value - c.value) > 1e-9 && q.rate * side <= (speed ? 0.0 : 0.2);
    if (out.impossible && q.rate * side < 0) out.late_s = (q.value - c.value) / q.rate;
    out.now = speed
                  ? "speed is " + speedText(q.value) + (q.rate < 0 ? " and falling" : " and rising")
                  : (c.kind == Condition::Kind::Height ? "height is " : "place is ") +
                        lengthText(q.value + raise) + " and not getting nearer";
    const StateIndex index = c.kind == Condition::Kind::X   ? kX
                             : c.kind == Condition::Kind::Y ? kY
                                                            : kZ;
    const double wanted = c.value;
    if (speed) {
        out.event = [&law, side, wanted](double, const StateVector& y) {
            return side * (wanted - airSpeed(law, y));
        };
    } else {
        out.event = [index, side, wanted](double, const StateVector& y) {
            return side * (wanted - y[index]);
        };
    }
    return out;
}

ExtentEvent extentEvent(const Flight& flight, const Law& law, const Extent& extent) {
    ExtentEvent out;
    const Joint& j = flight.joint;
    switch (extent.kind) {
        case Extent::Kind::Distance: {
            // Along the line, over the ground: what somebody beside the line would measure.
            const Vec3 origin = j.position_S_m, along = rotate(law.q_SL, Vec3(1, 0, 0));
            const double length = extent.distance_m;
            out.event = [origin, along, length](double, const StateVector& y) {
                return length - glm::dot(Vec3(y[kX], y[kY], y[kZ]) - origin, along);
            };
            break;
        }
        case Extent::Kind::Duration: {
            const double stop = j.time_s + extent.duration_s;
            out.event = [stop](double t, const StateVector&) { return stop - t; };
            break;
        }
        case Extent::Kind::Until: {
            out = untilEvent(flight, law, extent.until);
            if (extent.duration_s > 0) {
                const double stop = j.time_s + extent.duration_s;
                const Flight::Event inner = out.event;
                out.event = [stop, inner](double t, const StateVector& y) {
                    return std::min(inner(t, y), stop - t);
                };
                out.impossible = false;
            }
            break;
        }
    }
    return out;
}

// A condition that can no longer come about: passed a moment ago, or never to be met.
void noteImpossible(Flight& flight, const Extent& extent, const ExtentEvent& wanted) {
    if (wanted.late_s > kLate_s) {
        flight.note(SolveNote::Kind::NeverMet,
                    "\"" + extent.until.words + "\" is never met on this line", wanted.now, "",
                    "choose a condition this line reaches, or add a cap such as \"or 8 s\"");
        return;
    }
    flight.note(SolveNote::Kind::Late,
                "\"" + extent.until.words + "\" is passed when the line begins; it is left out",
                formatFixed(wanted.late_s, 1) + " s late", "",
                "make what comes before it shorter, or let this line end later");
    flight.notes.back().late_s = wanted.late_s;
}

// A path that the wing no longer carries: the attitude is held from here on.
void holdAttitude(Flight& flight, Law& law) {
    Law held = flight.lawFrom(Form::Held, Shape::Hold);
    held.q_SL = law.q_SL;
    held.roll = law.roll;
    law = held;
    flight.fadeHeld(law, kFadeOnLine_s);
}

// Flies the parts one after the other under one law; false when a part could not be met.
struct GroupEnd {
    double start_s = 0, stop_s = 0;
    bool met = true;
};

GroupEnd flyParts(Flight& flight, const std::vector<LinePart>& parts, Law law,
                  double at_least_until_s, const std::vector<Snap>& snaps = {}) {
    GroupEnd end;
    const RollProgram program = law.roll;
    std::size_t snapped = 0, law_from = 0;  // of the program: snaps flown, the law's first piece
    const auto untilSnap_s = [&] {
        if (snapped == snaps.size()) return kLongestLine_s;
        const RollProgram::Piece& piece = program.pieces()[snaps[snapped].piece];
        return std::max(program.start_s() + piece.start_s - flight.joint.time_s, 0.0);
    };
    end.start_s = flight.joint.time_s;
    const Vec3 along = rotate(law.q_SL, Vec3(1, 0, 0));
    const bool upward = along.z > 0.5;
    for (std::size_t i = 0; i < parts.size() && !flight.grounded; ++i) {
        flight.element = parts[i].element;
        flight.source_line = parts[i].source_line;
        const Extent& extent = parts[i].line->extent;
        ExtentEvent wanted = extentEvent(flight, law, extent);
        // A roll still going on holds the line on until it is done. An upline that tops out ends
        // there.
        const double hold_s = i + 1 == parts.size() ? at_least_until_s : 0;
        if (wanted.impossible) {
            end.met = false;
            noteImpossible(flight, extent, wanted);
            if (!(hold_s > flight.joint.time_s)) continue;
            wanted.event = [](double, const StateVector&) { return -1.0; };
        }
        const auto topped = [&law, along, upward](const StateVector& y) {
            if (!upward || law.form != Form::Held) return 1.0;
            return glm::dot(Vec3(y[kVelocity], y[kVelocity + 1], y[kVelocity + 2]), along);
        };
        const auto event = [&](double t, const StateVector& y) {
            const double top = topped(y);
            const double g = std::min(wanted.event(t, y), 1e3);
            const double slow = law.form == Form::Shaped ? y[kSpeed] - kSlowestByPath_mps : 1.0;
            return std::min({std::max(g, hold_s - t), top, slow});
        };
        Flight::Result r = flight.run(law, event, untilSnap_s());
        if (law.form == Form::Shaped && r.state[kSpeed] <= kSlowestByPath_mps + 1e-6) {
            holdAttitude(flight, law);
            if (!flight.grounded) r = flight.run(law, event, untilSnap_s());
        }
        while (snapped < snaps.size() && r.stop == ode::Stop::Time && !flight.grounded) {
            flySnap(flight, law, {snaps[snapped].piece - law_from, snaps[snapped].negative});
            law_from = snaps[snapped++].piece + 1;
            if (!flight.grounded) r = flight.run(law, event, untilSnap_s());
        }
        if (flight.grounded) break;
        const bool stopped_at_top = upward && topped(r.state) <= 1e-6;
        const bool coasted_to_rest = extent.kind == Extent::Kind::Until &&
                                     extent.until.kind == Condition::Kind::Speed &&
                                     extent.until.value < 0.5;
        if (r.stop != ode::Stop::Event || (stopped_at_top && !coasted_to_rest)) {
            end.met = false;
            flight.note(
                SolveNote::Kind::NeverMet,
                stopped_at_top ? "the line tops out before its end"
                               : "the line never reaches its end",
                "at " + speedText(airSpeed(law, r.state)) + ", height " +
                    heightText(r.state[kZ] + flight.world.raise_m),
                "",
                stopped_at_top
                    ? "make it shorter, or enter faster"
                    : "choose a condition this line reaches, or add a cap such as \"or 8 s\"");
        }
    }
    end.stop_s = flight.joint.time_s;
    return end;
}

double requestedRate(Flight& flight, const text::RollPart& part, double limit) {
    if (part.rate_radps <= 0) return limit;
    if (part.rate_radps > limit * 1.0001) {
        flight.note(SolveNote::Kind::NotFlyable,
                    "the roll asked is faster than the aircraft rolls here",
                    angleText(part.rate_radps) + "/s", angleText(limit) + "/s",
                    "ask a slower roll, or roll where it is faster");
        return limit;
    }
    return part.rate_radps;
}

RollProgram makeProgram(Flight& flight, const text::Rolls& rolls, double speed_mps,
                        double begin_mps, std::vector<Snap>& snaps) {
    RollProgram program;
    snaps.clear();
    const double limit = rollRateLimit_radps(flight.world, speed_mps);
    const double accel = flight.world.aircraft.limits.roll_accel_radps2;
    for (const text::RollPart& part : rolls.parts) {
        if (part.kind != text::RollPart::Kind::Roll && canSnap(flight, part, begin_mps)) {
            snaps.push_back(
                {program.pieces().size(), part.kind == text::RollPart::Kind::NegativeSnap});
            program.add(part.angle_rad, snapRate_radps(flight.world, speed_mps), accel,
                        kThenPause_s);
            continue;
        }
        const double rate = requestedRate(flight, part, limit);
        const std::int32_t pieces = std::max(part.points, 1);
        for (std::int32_t i = 0; i < pieces; ++i) {
            const double pause = i == 0             ? kThenPause_s
                                 : part.pause_s > 0 ? part.pause_s
                                                    : kDefaultPause_s;
            program.add(part.angle_rad / pieces, rate, accel, pause);
        }
    }
    return program;
}

// Distance flown along the line at a time, from the group's dense output.
class AlongLine {
public:
    AlongLine(const Flight& flight, std::size_t first_segment, const Vec3& along)
        : flight_(flight), first_(first_segment), along_(along) {}
    Vec3 position(double t) const {
        const Segment& s = segmentAt(t);
        return flight_.positionOf(s, std::min(t, s.stop_s));
    }
    double distance(double t) const { return glm::dot(position(t), along_); }
    double speed(double t) const {
        const Segment& s = segmentAt(t);
        return airSpeed(s.law, flight_.stateOf(s, std::min(t, s.stop_s)));
    }

private:
    const Segment& segmentAt(double t) const {
        std::size_t i = first_;
        while (i + 1 < flight_.segments.size() && flight_.segments[i].stop_s < t) ++i;
        return flight_.segments[i];
    }
    const Flight& flight_;
    std::size_t first_;
    Vec3 along_;
};

void noteTooLong(Flight& flight, double roll_s, double line_s, double room_m) {
    const double late_s = roll_s - line_s;
    flight.note(late_s > kLate_s ? SolveNote::Kind::NotFlyable : SolveNote::Kind::Late,
                "the roll is longer than its line; the line is flown on until it is done",
                "roll " + lengthText(room_m / line_s * roll_s), "line " + lengthText(room_m),
                "make the line longer, or the roll shorter or faster");
    flight.notes.back().late_s = late_s;
}

// The line's end is passed when it begins: what is rolled on it is rolled at once.
void rollAtOnce(Flight& flight, const std::vector<LinePart>& parts, const LinePart& rolling,
                Law& law) {
    flight.element = rolling.element;
    flight.source_line = rolling.source_line;
    const double speed_mps = glm::length(flight.joint.air_velocity_S_mps);
    std::vector<Snap> snaps;
    RollProgram program = makeProgram(flight, rolling.line->rolls, speed_mps, speed_mps, snaps);
    program.setStart(flight.joint.time_s);
    law.roll = program;
    flyParts(flight, parts, law, flight.joint.time_s + program.duration_s(), snaps);
    flight.joint.q_SL = law.q_SL * rotationX(law.roll.total_rad());
}

// When the roll starts, from a flight of the group (with or without the roll in it).
double placeRoll(const AlongLine& line, const GroupEnd& group, const RollPlacement& placement,
                 double roll_s) {
    const double latest = std::max(group.start_s, group.stop_s - roll_s);
    const auto firstAbove = [&](auto&& f) {
        const double at_start = f(group.start_s), at_latest = f(latest);
        if (at_start >= 0) return group.start_s;
        if (at_latest <= 0) return latest;
        return zeroBetween(f, group.start_s, latest, at_start, at_latest, 1e-10);
    };
    switch (placement.kind) {
        case RollPlacement::Kind::AtStart:
            return group.start_s;
        case RollPlacement::Kind::AtEnd:
            return latest;
        case RollPlacement::Kind::AtSpeed: {
            const double side = line.speed(group.start_s) < placement.value ? 1.0 : -1.0;
            return firstAbove([&](double t) { return side * (line.speed(t) - placement.value); });
        }
        case RollPlacement::Kind::AtHeight: {
            const double side = line.position(group.start_s).z < placement.value ? 1.0 : -1.0;
            return firstAbove(
                [&](double t) { return side * (line.position(t).z - placement.value); });
        }
        case RollPlacement::Kind::AfterDistance: {
            const double from = line.distance(group.start_s);
            return firstAbove([&](double t) { return line.distance(t) - from - placement.value; });
        }
        case RollPlacement::Kind::Middle:
            break;
    }
    const double ends = line.distance(group.start_s) + line.distance(group.stop_s);
    return firstAbove(
        [&](double t) { return line.distance(t) + line.distance(t + roll_s) - ends; });
}

void flyWithRolls(Flight& flight, const std::vector<LinePart>& parts, const LinePart& rolling,
                  Law law) {
    const Flight::Mark start = flight.mark();
    const std::size_t first_segment = flight.segments.size();
    const Vec3 along = rotate(law.q_SL, Vec3(1, 0, 0));
    const text::Rolls& rolls = rolling.line->rolls;
    // Trials at a looser tolerance: they only place the roll.
    const double tolerance = flight.held_tolerance.relative;
    const auto setTolerance = [&](double relative) {
        flight.held_tolerance.relative = flight.shaped_tolerance.relative = relative;
    };
    setTolerance(std::max(tolerance, kLineTolerance));
    GroupEnd group = flyParts(flight, parts, law, 0);
    if (flight.segments.size() == first_segment) {
        setTolerance(tolerance);
        flight.rewind(start);
        rollAtOnce(flight, parts, rolling, law);
        return;
    }

    // The roll's time depends on the speed where it is placed, its place on how the line goes with
    // the roll in it: two rounds settle both to some centimetres (on a vertical the first is
    // exact). Always the same number of rounds: a threshold would make mirror images differ by
    // chance.
    double begin = 0;
    bool settled = law.form == Form::Held && lineState(law.q_SL).vertical;
    for (int round = 0; round < 2; ++round) {
        const AlongLine line(flight, first_segment, along);
        Flight::Mark now = flight.mark();
        double guess = round == 0 ? 0.5 * (group.start_s + group.stop_s) : begin;
        RollProgram program;
        std::vector<Snap> snaps;
        for (int i = 0; i < 3; ++i) {
            // The rate must be had all through the roll: the slower end counts.
            const double v =
                std::min(line.speed(guess),
                         line.speed(std::min(guess + program.duration_s(), group.stop_s)));
            flight.notes.resize(now.notes);
            flight.element = rolling.element;
            flight.source_line = rolling.source_line;
            program = makeProgram(flight, rolls, v, line.speed(guess), snaps);
            guess = placeRoll(line, group, rolls.placement, program.duration_s());
        }
        const double room = line.distance(group.stop_s) - line.distance(group.start_s);
        const double line_s = group.stop_s - group.start_s;
        const bool too_long = program.duration_s() > line_s + 1e-9;
        std::vector<SolveNote> roll_notes(
            flight.notes.begin() + static_cast<std::ptrdiff_t>(now.notes), flight.notes.end());
        settled = (settled && snaps.empty()) || round == 1;
        begin = guess;
        flight.rewind(start);
        for (SolveNote& n : roll_notes) flight.notes.push_back(n);
        if (too_long) {
            flight.element = rolling.element;
            flight.source_line = rolling.source_line;
            noteTooLong(flight, program.duration_s(), line_s, room);
        }
        program.setStart(begin);
        law.roll = program;
        const bool last = settled || too_long;
        if (last) setTolerance(tolerance);
        group = flyParts(flight, parts, law, too_long ? begin + program.duration_s() : 0, snaps);
        if (last || flight.grounded) break;
    }
    setTolerance(tolerance);
    flight.joint.q_SL = law.q_SL * rotationX(law.roll.total_rad());
}

double climbOf(const Direction& d) {
    switch (d.kind) {
        case Direction::Kind::Level:
            return 0;
        case Direction::Kind::Up:
            return kPi / 2;
        case Direction::Kind::Down:
            return -kPi / 2;
        case Direction::Kind::Angle:
            return d.climb_rad;
    }
    return 0;
}

void checkDirection(Flight& flight, const Direction& wanted) {
    const LineState now = lineState(flight.joint.q_SL);
    const double want = climbOf(wanted);
    if (std::cos(now.climb_rad - want) >= kAlong) return;
    flight.note(SolveNote::Kind::NotFlyable,
                "a line cannot change direction: it is flown in the direction it starts in",
                angleText(now.climb_rad), angleText(want), "pull or push to the direction first");
}

}  // namespace

double rollRateLimit_radps(const World& world, double speed_mps) {
    const data::AircraftLimits& l = world.aircraft.limits;
    double rate = l.roll_rate_radps;
    if (l.roll_helix > 0) {
        const double helix = 2 * speed_mps * l.roll_helix / world.aircraft.geometry.span_m;
        rate = rate > 0 ? std::min(rate, helix) : helix;
    }
    return std::max(rate, 0.05);
}

LineState lineState(const Quat& q_SL) {
    LineState s;
    const Vec3 x = rotate(q_SL, Vec3(1, 0, 0)), y = rotate(q_SL, Vec3(0, 1, 0)),
               z = rotate(q_SL, Vec3(0, 0, 1));
    s.climb_rad = std::atan2(x.z, std::hypot(x.x, x.y));
    s.vertical = std::hypot(x.x, x.y) < 1e-6;
    s.wings_level = std::fabs(y.z) < 1e-6;
    s.inverted = !s.vertical && z.z > 1e-6;
    s.bank_rad = s.vertical ? 0 : std::atan2(-y.z, -z.z);
    return s;
}

bool needsUprightLevel(Flight& flight, const char* what) {
    const LineState now = lineState(flight.joint.q_SL);
    if (!now.vertical && std::fabs(now.climb_rad) <= 1e-6 && now.wings_level && !now.inverted)
        return true;
    flight.note(SolveNote::Kind::NotFlyable,
                std::string(what) + " starts from upright level flight",
                "bank is " + angleText(now.bank_rad) + ", climb " + angleText(now.climb_rad), "",
                "fly to level, wings level, first");
    return false;
}

void flyLines(Flight& flight, const std::vector<LinePart>& parts) {
    const text::LineReference reference = parts.front().line->reference;
    for (const LinePart& part : parts) {
        flight.element = part.element;
        flight.source_line = part.source_line;
        if (part.line->direction) checkDirection(flight, *part.line->direction);
    }
    const Quat q_SL = flight.joint.q_SL;
    const bool held = reference == text::LineReference::Nose ||
                      (reference == text::LineReference::Default && holdsAttitude(q_SL));
    Law law = flight.lineLaw(q_SL, held, kFadeOnLine_s);
    law.over_ground = reference == text::LineReference::Ground;
    law.origin_S_m = flight.joint.position_S_m;
    if (law.over_ground) flight.fadeShaped(law, kFadeOnLine_s);

    const std::size_t first_segment = flight.segments.size();
    const LinePart* rolling = nullptr;
    int with_rolls = 0;
    for (const LinePart& part : parts)
        if (!part.line->rolls.parts.empty()) {
            rolling = &part;
            ++with_rolls;
        }
    if (with_rolls == 0) {
        flyParts(flight, parts, law, 0);
    } else if (with_rolls == 1 &&
               rolling->line->rolls.placement.kind == RollPlacement::Kind::Middle) {
        flyWithRolls(flight, parts, *rolling, law);
    } else {
        // Rolls with places of their own: each on its own part.
        for (const LinePart& part : parts) {
            if (flight.grounded) break;
            Law part_law = flight.lineLaw(flight.joint.q_SL, held, kFadeOnLine_s);
            if (law.over_ground) {
                part_law.over_ground = true;
                part_law.origin_S_m = law.origin_S_m;
                flight.fadeShaped(part_law, kFadeOnLine_s);
            }
            if (part.line->rolls.parts.empty())
                flyParts(flight, {part}, part_law, 0);
            else
                flyWithRolls(flight, {part}, part, part_law);
        }
    }
    double missing = 0;
    for (std::size_t i = first_segment; i < flight.segments.size(); ++i) {
        const Segment& segment = flight.segments[i];
        if (segment.law.form == Form::Held || flight.hasLiftToSpare(segment)) continue;
        missing = std::max(missing, flight.extremes(segment).short_share);
    }
    if (missing > 0.02)
        flight.note(SolveNote::Kind::NotFlyable, "too slow for the wing to hold this line; it sags",
                    formatFixed(100 * (1 - missing), 0) + " % of the lift needed", "100 %",
                    "fly it faster, or shorten it");
}

}  // namespace plumbline::fly

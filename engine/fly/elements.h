#pragma once
// One solver a kind of element. Each flies from the flight's joint, moves it, and notes what could
// not be flown as written.

#include <vector>

#include "engine/fly/flight.h"
#include "engine/text/figure_text.h"

namespace plumbline::fly {

/// A line of a run of consecutive lines in one direction, which are one line: rolls in the middle
/// centre on the whole.
struct LinePart {
    const text::Line* line = nullptr;
    std::int32_t element = 0;
    std::int32_t source_line = 0;
};
/// Valid for: any direction and bank. By nose: attitude held about the zero-lift axis; by path: the
/// path held.
void flyLines(Flight& flight, const std::vector<LinePart>& parts);

/// How an arc hands over to the line after it.
struct ArcWay {
    bool by_path = false;  ///< the path itself turns the whole angle, also to verticals and 45s
};
/// Pull, push or float. Load arcs end on the nose, with the pitch rate ramped out; radius arcs are
/// geometry. Rolls: on a radius arc about its path, which keeps its plane; on a load arc the lift
/// rolls with the aircraft, round a cone whose whole turn comes out where it began (a barrel).
void flyArc(Flight& flight, const text::Arc& arc, const ArcWay& way = {});

/// A loop of straight sides; by path, so that it closes where it began.
void flyPolygon(Flight& flight, const text::Polygon& polygon);

/// Turn, level or to a height: roll in, steady bank, roll out on the heading.
void flyTurn(Flight& flight, const text::Turn& turn);

/// Turn with rolls spread over it, level: the turning follows what lift and fuselage give at each
/// bank. Faster than that is flown as the fastest there is.
void flyRollingTurn(Flight& flight, const text::RollingTurn& turn);

/// Level turns, whole ones where the time allows, that end on the heading they began on.
void flyWait(Flight& flight, const text::Wait& wait);

/// Yaw through 180 deg at the top of an upline, the centre of gravity on its ballistic path.
void flyPivot(Flight& flight, const text::Pivot& pivot);

/// Level and idle to the stall, round in autorotation, stopped, and into a downline.
void flySpin(Flight& flight, const text::Spin& spin);

/// On an upline: rolled by the propeller's torque against inertia and damping, up, hanging,
/// backing.
void flyTorqueRoll(Flight& flight, const text::TorqueRoll& roll);

/// Turned end over end or over a wing tip by a given profile, as fast as is plausible; the centre
/// of gravity flies with the forces of the full range.
void flyTumble(Flight& flight, const text::Tumble& tumble);

/// Tail first down a vertical, measured from the top.
void flySlide(Flight& flight, const text::Slide& slide);

/// Out of a slide: a small tilt, then pitch from moments until settled nose down.
void flyFall(Flight& flight, const text::Fall& fall);

/// A flyable curve to a place, height, heading and speed.
void flyReposition(Flight& flight, const text::Reposition& reposition);

/// Straight ahead to a height and level there.
void flyClimb(Flight& flight, const text::Climb& climb);

/// Checks what must be true here; a note where it is not.
void checkExpectation(Flight& flight, const text::Expect& expect, const std::string& words);

/// How far the line just flown passes from the middle of a ribbon, and in which attitude.
void passRibbon(Flight& flight, const text::Ribbon& ribbon);

/// Direction and bank of a nominal frame in words' terms.
struct LineState {
    double climb_rad = 0;  ///< of x_L
    bool vertical = false;
    bool wings_level = false;  ///< or vertical
    bool inverted = false;     ///< canopy down (not vertical)
    double bank_rad = 0;       ///< (-pi, pi], right wing down positive; 0 on verticals
};
LineState lineState(const Quat& q_SL);

/// True when the joint's line is straight up; else noted: `what` starts from that.
bool needsUpline(Flight& flight, const char* what);

/// True when the joint's line is level, upright, wings level; else noted: `what` starts from that.
bool needsUprightLevel(Flight& flight, const char* what);

/// Fastest steady roll rate here: helix angle limit and cap.
double rollRateLimit_radps(const World& world, double speed_mps);

}  // namespace plumbline::fly

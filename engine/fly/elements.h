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

/// Pull or push. Load arcs end on the nose, with the pitch rate ramped out; radius arcs are
/// geometry.
void flyArc(Flight& flight, const text::Arc& arc);

/// Level turn: roll in, steady bank, roll out on the heading.
void flyTurn(Flight& flight, const text::Turn& turn);

/// Yaw through 180 deg at the top of an upline, the centre of gravity on its ballistic path.
void flyPivot(Flight& flight, const text::Pivot& pivot);

/// Tail first down a vertical, measured from the top.
void flySlide(Flight& flight, const text::Slide& slide);

/// Out of a slide: a small tilt, then pitch from moments until settled nose down.
void flyFall(Flight& flight, const text::Fall& fall);

/// A flyable curve to a place, height, heading and speed.
void flyReposition(Flight& flight, const text::Reposition& reposition);

/// Direction and bank of a nominal frame in words' terms.
struct LineState {
    double climb_rad = 0;  ///< of x_L
    bool vertical = false;
    bool wings_level = false;  ///< or vertical
    bool inverted = false;     ///< canopy down (not vertical)
    double bank_rad = 0;       ///< (-pi, pi], right wing down positive; 0 on verticals
};
LineState lineState(const Quat& q_SL);

/// Fastest steady roll rate here: helix angle limit and cap.
double rollRateLimit_radps(const World& world, double speed_mps);

}  // namespace plumbline::fly

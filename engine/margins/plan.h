#pragma once
// The plan, flown once, and what a flight unlike it is made of.

#include <functional>
#include <vector>

#include "engine/margins/draw.h"
#include "engine/margins/gate_curve.h"
#include "engine/variant/variant.h"

namespace plumbline::margins {

/// The end of an element in the plan: what an early or late hand changes there.
struct ElementEnd {
    Vec3 velocity_S_mps{0};
    double speed_gain_mps2 = 0;  ///< of the airspeed
    double height_m = 0;         ///< as the routine counts it
    double drop_m = 0;           ///< from the element's start to its end
    bool last_down = false;      ///< steeply down, and no other such line before the figure climbs
};

struct Plan {
    load::Workspace workspace;  ///< aims replaced by the values found for them
    double raise_m = 0;
    double tolerance = 0;
    path::Path path;
    std::vector<fly::FigureStart> starts;
    std::vector<std::vector<ElementEnd>> ends;  ///< of each figure's elements
    std::vector<GateCurve> gates;
};

/// Takes over what was flown; flies it again at the tolerance of the flights, so that the plan
/// differs from them by their errors alone.
/// @param rate_hz  of the path's samples
Plan planOf(const variant::Flown& flown, double tolerance, double rate_hz);

/// The plan's inputs with one flight's errors.
struct Slips {
    data::Aircraft aircraft;
    data::Weather weather;
    routine::Routine routine;
    fly::SolveOptions options;  ///< refers to plan and draw
};
Slips slipsOf(const Plan& plan, const Draw& draw);

}  // namespace plumbline::margins

#pragma once
// Measured quantities in the units that people chose, no finer than they are known.

#include <string>

#include "engine/base/measured_text.h"
#include "engine/units/quantity.h"

namespace plumbline::units {

/// A number, with its doubt if it is told, and apart from it its unit.
struct MeasuredWords {
    std::string number, unit;
    std::string joined(const char* between = " ") const { return number + between + unit; }
};

/// How a quantity is shown: SI of one unit, decimals at most (below 0: in tens), the unit's name.
struct ShownIn {
    double unit = 1;
    int decimals = 0;
    const char* name = "";
};
/// Whole metres or feet, above 1000 ft in tens: finer nobody knows it there.
ShownIn heightShownIn(double height_m, DisplayUnits units);
/// Whole km/h or knots.
ShownIn speedShownIn(DisplayUnits units);

// Of each: the value, what it may be off by (twice its sigma; 0: not told), both SI.

MeasuredWords measuredHeight(double height_m, double within_m, DisplayUnits units, Signs signs);
MeasuredWords measuredSpeed(double speed_mps, double within_mps, DisplayUnits units, Signs signs);
/// One decimal, with its sign.
MeasuredWords measuredLoad(double load_g, double within_g, Signs signs);

}  // namespace plumbline::units

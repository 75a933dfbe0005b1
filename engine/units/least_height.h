#pragma once
// A height that nothing may be lower than, in feet as it is told.

#include <cmath>

#include "engine/units/units.h"

namespace plumbline::units {

/// Up to whole tens of feet: never told as less than it is.
inline double leastHeight_ft(double height_m) {
    return std::ceil(height_m / kFoot_m / 10 - 1e-9) * 10;
}

}  // namespace plumbline::units

#pragma once
// The instruments in the built-in aircraft's panel, as seen from its seat.

#include "viewer/scene/build.h"

namespace plumbline::scene {

/// One needle's scale: from `low` at the lower left clockwise over three quarters of a turn to
/// `high`.
struct DialScale {
    double low = 0;
    double high = 1;
    double step = 1;        ///< from tick to tick
    int named_each = 2;     ///< every so many ticks has its number
    double limit_low = 0;   ///< alarm below; as low: none
    double limit_high = 1;  ///< alarm above; as high: none
};

/// Angle of the needle, anticlockwise from the pilot's right, held within the scale.
double needleAngle(const DialScale& scale, double value);

/// Airspeed, load with its extremes so far, height, vertical speed, power, head temperature, fuel
/// as a sight tube, and the time that is left of the slot. What is not known has no needle.
void addPanel(const SceneSource& source, const Marks& marks, double time_s, DrawList& list);

}  // namespace plumbline::scene

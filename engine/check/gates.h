#pragma once
// Tops: how high one must be there to come down, at the speed that one has.

#include <string>
#include <vector>

#include "engine/data/aircraft.h"
#include "engine/data/pilot.h"
#include "engine/data/site.h"
#include "engine/fly/solve.h"
#include "engine/path/path.h"

namespace plumbline::check {

/// A top behind which the figure goes steeply down.
struct Gate {
    double time_s = 0;
    std::size_t sample = 0;
    std::size_t down = 0;  ///< vertical: sample at which the nose points down, after pivot or slide
    std::string figure;
    Vec3 position_S_m{0};
    double airspeed_mps = 0;  ///< true, at the top
    bool vertical = false;    ///< nearly at rest there, the way down begins straight down
    bool inverted = false;
    double floor_m = 0;         ///< what is not to be gone below
    double planned_loss_m = 0;  ///< from the top to the lowest point behind it, as planned
    /// Least height here to fly the way down at `load_g`, and to leave it: roll upright and fly on
    /// level (from a vertical: the same as to complete).
    double complete_m = 0, escape_m = 0;
    double load_g = 0;
};

/// The gates of a plan at its own speeds, masses and air.
///
/// Each is flown with the plan's own flight model from a stand at the top: the way down by a half
/// loop, or from a vertical by pivot or slide as
/// planned and a pull to level from there, with full use of the load; the escape by the
/// quickest half roll.
/// @param solution  the plan
/// @param path      its samples
std::vector<Gate> gatesOf(const data::Aircraft& aircraft, const data::Site& site,
                          const data::Pilot& pilot, const fly::Solution& solution,
                          const path::Path& path);

/// A least height as it is shown: never finer than the model, and to the safe side.
double shownLeast_m(double height_m);

/// The same gate at another true airspeed.
Gate gateAt(const Gate& gate, double airspeed_mps, const fly::Solution& solution,
            const path::Path& path);

}  // namespace plumbline::check

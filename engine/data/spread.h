#pragma once
// How unlike the plan a flight is: one standard deviation of each error, all normal. Part of the
// pilot's file, [spread].

#include "engine/math/frames.h"

namespace plumbline::data {

class TableReader;

/// The values here are for a practised display pilot.
// chosen: no published spreads of display flying are known to us; own recordings say better.
struct Spread {
    // Anew for each figure.
    double entry_speed_mps = 2;
    double load_g = 0.3;    ///< of a pull, push, turn: held against asked
    double timing_s = 0.2;  ///< of the end of each line
    double heading_rad = 1 * kPi / 180;
    double along_m = 15, across_m = 10, height_m = 5;  ///< of the place where a figure begins
    // The same for a whole flight.
    double wind_mps =
        1;  ///< what was not foreseen of it, each of along and across the show line, at all heights
    double temperature_k = 2;
    double mass_kg = 5;
    double power_frac = 0.03;
    double roll_rate_frac = 0.05;
    double reaction_s = 0.1;  ///< how late, or early, every line ends on that day
    /// Share of an error in place, height, speed and heading that is still there at the start of
    /// the next figure.
    double left_frac = 0.3;
};

/// [spread]; what is absent keeps the values above.
Spread readSpread(TableReader& table);

}  // namespace plumbline::data

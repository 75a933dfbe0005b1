#pragma once
// What a brief tells of a routine, before it is laid out: the day, the figures, their gates.

#include <optional>
#include <string>
#include <vector>

#include "engine/check/gates.h"
#include "engine/path/path.h"
#include "engine/units/quantity.h"
#include "engine/variant/variant.h"

namespace plumbline::brief {

/// A figure as it is flown.
struct Act {
    int number = 0;  ///< from 1
    std::string name;
    std::string note;  ///< its rolls, pivots, slides in the words of figure text
    double start_s = 0, stop_s = 0;
    double heading_rad = 0;  ///< true, of the way over the ground where it begins
    /// The way it begins, as the crowd sees it: mostly along the show line, or neither.
    bool to_right = false, to_left = false;
    bool away = false;                  ///< from the crowd
    double entry_mps = 0, entry_m = 0;  ///< true airspeed and height where it begins
    double lowest_m = 0, top_m = 0, fastest_mps = 0, slowest_mps = 0;
    double most_g = 0, least_g = 0;
    bool low = false;                 ///< flown along as low as the routine comes
    std::optional<check::Gate> gate;  ///< the one that asks most height to complete
};

struct Outline {
    std::string title;
    std::string variant;  ///< "mirrored, raised 300 m"; empty: as written
    std::string site;
    std::string day;       ///< "27 June 2026, 16:30 UTC"; "day not given"
    std::string wind;      ///< "5 kt from the left"
    std::string air;       ///< "19 °C, 1016 hPa, density height 410 m"
    std::string revision;  ///< of all that was read: "rev 4c1e 90b7"
    /// Of magnetic north, east positive; nothing where it is not known.
    std::optional<double> declination_rad;
    std::string magnetic;  ///< by which model and date, or why not
    path::Path path;
    std::vector<Act> acts;
    double fuel_in_l = 0, fuel_left_l = 0;
    double span_m = 0;
    /// "2 findings are unsafe: see plumbline check", "3 figures are not flown"; empty: none.
    std::string warning;
};

Outline outlineOf(const variant::Flown& flown, units::DisplayUnits units);

/// "066°" of a true bearing; magnetic where that is known.
std::string bearingWords(const Outline& outline, double true_rad, bool magnetic);

/// "27 June 2026, 16:30 UTC"; nothing of what is no such time.
std::string dayWords(const std::string& utc);

/// What stands between the straight and curved lines of a figure: rolls, pivots, slides, spins; of
/// a figure without any its first arc.
std::string noteOf(const routine::RoutineFigure& figure);

}  // namespace plumbline::brief

#pragma once
// A routine flown as one of its variants: a show of it, the fullest one below a ceiling, mirrored,
// raised to be practised high. Every command and the viewer fly routines through here.

#include <optional>
#include <string>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "engine/units/quantity.h"

namespace plumbline::variant {

/// What is wanted of a routine. Heights are above show centre.
struct Wish {
    std::optional<std::string> show;  ///< by its name in the routine
    std::optional<double> ceiling_m;  ///< the fullest show that stays below
    std::optional<double> floor_m;    ///< raise the whole until nothing is lower
    bool mirror = false;              ///< left and right as the crowd sees them
    units::DisplayUnits units = units::DisplayUnits::Aviation;  ///< of what is said

    bool operator==(const Wish&) const = default;
    bool asWritten() const { return !show && !ceiling_m && !floor_m && !mirror; }
};

/// A variant with its path.
struct Flown {
    load::Workspace workspace;  ///< its routine is what was flown
    fly::Solution solution;
    double raised_m = 0;
    std::string label;                 ///< "mirrored, raised 300 m, show: low"; empty: as written
    std::vector<std::string> remarks;  ///< what was chosen, left out, replaced; one clause each
};

/// Greatest difference between the floor asked for and the lowest point of a raised routine.
inline constexpr double kFloorTolerance_m = 0.1;

/// Makes and flies the variant: the show, then its mirror image, then raised to the floor in the
/// air up there, and of these the fullest that stays below the ceiling. Without a show named, the
/// ceiling tries the routine's shows in their order, the whole routine where it has none.
///
/// The floor only raises: a routine that is higher anyway stays where it is.
/// @errors an unknown show, none that stays below the ceiling; in place of a file they name the
///   command line's option
Expected<Flown, Problems> fly(load::Workspace workspace, const Wish& wish,
                              const fly::SolveOptions& options = {});

}  // namespace plumbline::variant

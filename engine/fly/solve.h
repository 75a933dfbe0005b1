#pragma once
// A routine to a path: the one call. Pure function of its inputs; the same inputs give the same
// bytes.

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "engine/data/aircraft.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/path/path.h"
#include "engine/routine/routine.h"
#include "engine/system/parallel.h"

namespace plumbline::fly {

/// Where a figure begins. Heights are those of the routine.
struct FigureStart {
    Vec3 position_S_m{0};
    Vec3 air_velocity_S_mps{0};
    double airspeed_mps = 0;
    double turn_rad = 0;  ///< to be turned by, about the vertical, left positive
};

struct SolveOptions {
    double relative_tolerance = 1e-8;
    /// Told of each figure's start and may change position, airspeed and turn: the path then jumps
    /// there. For flights unlike the plan. simplified: what a pilot flies between two figures to
    /// mend an error is not flown, only its outcome.
    std::function<void(std::size_t figure, FigureStart& start)> before_figure = nullptr;
    /// Practise it high first: every height of the routine is meant this much higher, in the air
    /// that is there; the path comes out raised.
    double raise_m = 0;
};

/// A load that is short by up to this much is information, more is a finding.
inline constexpr double kLoadShortFinding_g = 1;

/// A line whose end is passed when it begins, or that a roll outlasts, by up to this much is late,
/// as an imperfect hand is; more was never meant to be flown so.
inline constexpr double kLate_s = 1;  // chosen: some 80 m, more than any spread of a figure's start

/// Something the solver has to say of one element: it could not be flown as written, or only just.
struct SolveNote {
    enum class Kind {
        NotFlyable,  ///< flown as the nearest flyable shape
        LoadShort,   ///< the asked load was not reached; information up to 1 g
        NeverMet,    ///< a condition that cannot happen; value says where it settles
        Late,        ///< flown on, a little later or farther than its line was to end
        Unexpected,  ///< an `expect` line that is not true
        Ground,      ///< the path meets the ground; the path ends there
        Information,
    };
    Kind kind = Kind::Information;
    std::int32_t figure = 0;   ///< index into Routine::figures
    std::int32_t element = 0;  ///< index into Path::elements
    std::int32_t source_line = 0;
    double time_s = 0;
    std::string subject;  ///< Information: the one word it is about, "pivot"
    std::string what;
    std::string value;
    std::string limit;
    std::string remedy;
    double short_g = 0;  ///< LoadShort: the load asked less the load reached
    double late_s = 0;   ///< Late: by how much
};

/// The value that a parameter is flown with for an aim.
struct FoundValue {
    std::int32_t figure = 0;  ///< index into Routine::figures
    std::int32_t aim = 0;     ///< index into its aims
    std::string parameter;
    double value = 0;   ///< SI
    std::string text;   ///< the same, as figure text has it: reads back to the very value
    std::string words;  ///< for people: "run = 312 m"
    bool met = false;   ///< else the nearest
};

/// Where a flight is taken up, trimmed on a straight line.
struct Standing {
    Vec3 position_S_m{0};
    Quat q_SL{0, 1, 0, 0};  ///< the line: x along it, z to the wheels
    double airspeed_mps = 0;
    double mass_kg = 0;
    double fuel_kg = 0;
    double head_temperature_k = 0;
    double power_frac = 1;
};

/// How a solution is sampled.
struct Sampling {
    double rate_hz = 100;
    enum class Rates {
        Exact,   ///< body rates from the laws
        ForEye,  ///< from the neighbouring samples' attitudes, at a third of the work
    };
    Rates rates = Rates::Exact;
    system::Executor executor = system::serial();
};

/// The solved routine with its dense output. Movable, cheap to share.
class Solution {
public:
    struct Impl;
    Solution();
    explicit Solution(std::shared_ptr<const Impl> impl);

    bool empty() const;
    double duration_s() const;
    const std::vector<SolveNote>& notes() const;
    /// What was found for the routine's aims, in the order of its figures.
    const std::vector<FoundValue>& found() const;
    /// Right-hand sides evaluated, for benchmarks.
    std::int64_t evaluations() const;

    /// Samples at a rate plus one at each joint of elements, from the dense output.
    path::Path samplePath(const Sampling& sampling) const;
    path::Path samplePath(double rate_hz) const;
    /// The same, with the samples of the figures that solveAgain took over copied from theirs.
    /// @param before  samplePath of the solution given to solveAgain, sampled alike; empty: none
    path::Path samplePathAgain(const Sampling& sampling, const path::Path& before) const;
    /// Up to here the flight is that of the solution given to solveAgain; 0: it was flown anew.
    double sameUntil_s() const;
    /// Samples at given times, increasing.
    std::vector<path::Sample> sampleTimes(const std::vector<double>& times_s) const;

private:
    friend Solution solveAgain(const Solution& before, const routine::Routine& routine);
    friend Solution flyFrom(const Solution& like, const Standing& standing,
                            const routine::RoutineFigure& figure, double relative_tolerance);
    std::shared_ptr<const Impl> impl_;
};

/// Flies the routine. Elements that cannot be flown as written are flown as near as possible and
/// noted. Parameters with aims are flown with the values that bring these about, within a
/// centimetre or a centimetre a second; where none does, with the nearest, and that is noted.
Solution solve(const data::Aircraft& aircraft, const data::Site& site, const data::Weather& weather,
               const routine::Routine& routine, const SolveOptions& options = {});

/// Flies a routine that was changed since, in the same world with the same options: what solve()
/// makes of it, to the last bit, but the figures before the first changed one are taken over.
/// Nothing of an empty solution.
Solution solveAgain(const Solution& before, const routine::Routine& routine);

/// Flies one figure from a given stand, in the air and with the aircraft of another solution: what
/// would come of it. Nothing of an empty solution.
Solution flyFrom(const Solution& like, const Standing& standing,
                 const routine::RoutineFigure& figure, double relative_tolerance = 1e-6);

}  // namespace plumbline::fly

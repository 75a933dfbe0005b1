#pragma once
// What all checks share: the plan with what it is held against, quantities of each sample, and
// where findings are put. Only for the files of this folder.

#include <functional>
#include <string>
#include <vector>

#include "engine/check/finding.h"
#include "engine/data/aircraft.h"
#include "engine/data/pilot.h"
#include "engine/data/rules.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/earth/atmosphere.h"
#include "engine/fly/solve.h"
#include "engine/path/path.h"
#include "engine/routine/routine.h"

namespace plumbline::check {

// chosen: what a small slip of the hand or of the model can use up is called tight.
inline constexpr double kTightHeight_m = 3;
inline constexpr double kTightDistance_m = 10;
inline constexpr double kTightLoad_g = 0.3;
inline constexpr double kTightSpeed_mps = 5 * 1852.0 / 3600;

/// The sample at which a margin is least.
struct Worst {
    double margin = 1e300;
    std::size_t sample = 0;
    void offer(double m, std::size_t i) {
        if (m < margin) {
            margin = m;
            sample = i;
        }
    }
    bool any() const { return margin < 1e299; }
};

/// A stretch of samples in which something goes on.
struct Stretch {
    double seconds = 0;
    std::size_t last = 0;  ///< its last sample
};

class Checker {
public:
    Checker(const data::Aircraft& aircraft, const data::Site& site, const data::Weather& weather,
            const routine::Routine& routine, const path::Path& path, const data::Pilot& pilot);

    const data::Aircraft& aircraft;
    const data::Site& site;
    const data::Weather& weather;
    const routine::Routine& routine;
    const path::Path& path;
    const data::Pilot& pilot;
    const earth::SiteAir air;

    // One for each sample of the path.
    std::vector<double> load_g;   ///< normal
    std::vector<double> cas_mps;  ///< calibrated airspeed

    /// Samples of one figure: first, behind the last.
    struct Range {
        std::size_t first, last;
    };
    std::vector<Range> figures;

    std::vector<Finding> findings;

    struct Limit {
        std::string text;
        std::string source;
        bool verified = true;
    };
    /// A finding at a sample.
    void add(Grade grade, const char* kind, std::size_t sample, double margin, std::string what,
             std::string value, Limit limit, std::string remedy);
    /// One when the margin is below `tight`: unsafe below zero, else tight.
    void addWorst(const Worst& worst, double tight, const char* kind, std::string what,
                  std::string value, Limit limit, std::string remedy);

    struct LoadWords {
        const char *kind, *against, *source;
    };
    /// Greatest load and greatest negative load of a figure against limits that may go with the
    /// sample; those that are zero are not checked.
    void addLoads(Range range, const LoadWords& words,
                  const std::function<data::LoadLimit(std::size_t sample)>& limit);

    /// The longest stretch in which `on(i)` holds, through pauses shorter than `pause_s`.
    template <class On>
    Stretch longest(double pause_s, On&& on) const {
        Stretch best;
        double on_s = 0, off_s = 0;
        for (std::size_t i = 1; i < path.samples.size(); ++i) {
            const double dt = path.samples[i].time_s - path.samples[i - 1].time_s;
            if (!on(i)) {
                off_s += dt;
                if (off_s >= pause_s) on_s = 0;
                continue;
            }
            off_s = 0;
            on_s += dt;
            if (on_s > best.seconds) best = {on_s, i};
        }
        return best;
    }
};

// The checks; each adds to the findings.
void checkSpace(Checker& checker);
void checkRules(Checker& checker, const std::vector<data::RuleSet>& rules);
void checkAirframe(Checker& checker);
void checkEngine(Checker& checker);
void checkPilot(Checker& checker);
void checkDay(Checker& checker);
void checkSolver(Checker& checker, const std::vector<fly::SolveNote>& notes);

/// Names the element and the figure of a finding; none for an index that is none.
void placeIn(const path::Path& path, std::int32_t element, Finding& finding);

/// Distance along the ground from a point to an outline, 0 inside.
double distanceToOutline(const std::vector<Vec3>& outline_S_m, const Vec3& point_S_m);

std::string metres(double m);
std::string knots(double mps);
std::string loads(double g);
std::string litres(double l);
std::string minutes(double seconds);  ///< "1:05"
std::string seconds(double s);        ///< "3.5 s"

}  // namespace plumbline::check

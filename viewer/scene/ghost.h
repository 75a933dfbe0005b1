#pragma once
// Another path beside the one that is shown: a second routine, or the flight over its plan.

#include <memory>
#include <vector>

#include "engine/path/path.h"
#include "viewer/scene/quantity_map.h"

namespace plumbline::scene {

struct PathShape;
struct SceneSource;
struct Marks;
struct DrawList;

/// Apart-distances are kept for every such step of the shown path's time.
inline constexpr double kApartStep_s = 0.25;

/// Made once per pair of paths.
struct Ghost {
    std::shared_ptr<const path::Path> path;
    std::shared_ptr<const PathShape> shape;
    /// Its time is the shown path's plus this, every kApartStep_s; figure by figure, as a flight
    /// that waits longer between two figures than its plan is no worse for it.
    std::vector<float> offset_s;
    std::vector<float> apart_m;  ///< distance to its nearest point, every kApartStep_s; NaN: none
    QuantityRange apart_range;   ///< for colours: 0..24 m, or where 95 in 100 lie, rounded up
};

/// How far the shown path is from the ghost at a time of the shown path.
struct Apart {
    bool known = false;       ///< false: the ghost was not near that time at all
    double distance_m = 0;    ///< to the ghost's nearest point within 6 s
    double ghost_time_s = 0;  ///< when the ghost is there, on its own clock
    double late_s = 0;        ///< the ghost comes by so much later than the shown path
};

/// Shifts the ghost in time so that the two are as near as can be: least mean distance, each
/// counted up to 300 m only, searched over all shifts that let them overlap by a third.
double bestOffset(const path::Path& shown, const path::Path& ghost);

/// The ghost's own time.
double ghostTime(const Ghost& ghost, double time_s);

/// How the ghost's time runs against the shown path's: the way through all pairs of moments that
/// keeps the two nearest, within a minute of the best single shift (dynamic time warping, H. Sakoe
/// and S. Chiba, IEEE Trans. ASSP 26(1), 1978), evened out over twenty seconds so that early and
/// late within a figure stay to be seen.
std::shared_ptr<const Ghost> makeGhost(const path::Path& shown,
                                       std::shared_ptr<const path::Path> ghost);

/// Moments of the two that go together.
struct Together {
    double shown_s = 0, ghost_s = 0;
};

/// The same kept in step by such moments, in the order of the shown path. Between two of them that
/// the ghost passes at half to twice the pace it runs evenly; else it stays in step with the one
/// before until the next. None: both begin together.
std::shared_ptr<const Ghost> makeGhostInStep(const path::Path& shown,
                                             std::shared_ptr<const path::Path> ghost,
                                             const std::vector<Together>& together);

Apart apartAt(const path::Path& shown, const Ghost& ghost, double time_s);
/// Interpolated from what makeGhost kept; NaN where unknown.
float keptApart(const Ghost& ghost, double time_s);

/// The ghost's aircraft, its path as an open ladder, a tie each second, and the distance.
void addGhost(const SceneSource& source, const Marks& marks, double time_s, double width_m,
              DrawList& list);

}  // namespace plumbline::scene

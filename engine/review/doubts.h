#pragma once
// How surely what is measured of a flight is known. Each is one sigma: twice that holds about 95 of
// 100 errors; 0: the recording does not tell, as a plan. tests/figures/review_figures holds them
// against flights through simulated sensors.

#include "engine/path/path.h"

namespace plumbline::review {

// chosen: where a piece begins and ends is told to about so much, by what lies between the instants
// that the eye looks over
inline constexpr double kEdge_s = 0.03;

/// True where the recording says how sure it is of itself.
bool tellsErrors(const path::Path& flight);

/// Of a place, all directions together: what the recording tells, and slow errors that it does not
/// see.
double placeSigma_m(const path::Sample& sample);
double placeSigma_m(const path::Path& flight, double time_s);
/// Mean over a stretch.
double placeSigma_m(const path::Path& flight, double from_s, double to_s);

/// Of how far two places of the same figure lie apart: most of what one is off the other is off
/// too.
double apartSigma_m(double place_sigma_m);
/// Of the shape of a way of some seconds, which rates and forces tell more surely than fixes.
double shapeSigma_m(double place_sigma_m);

/// Of the speed over the ground.
double groundSpeedSigma_mps(const path::Path& flight, double time_s);

/// Of a recorded airspeed.
/// @source 14 CFR 23.1323 (before 2017): the system is within 3 % or 5 kt, whichever is more
///   (from memory); that is taken for twice this
double airspeedSigma_mps(double airspeed_mps);

/// Of the speed that the flight has: airspeed where recorded, else over the ground.
double speedSigma_mps(const path::Path& flight, double time_s);

/// Of the normal load about a moment: what shakes in it, and the meter's own error.
double loadSigma_g(const path::Path& flight, double time_s);

/// The greatest change of a quantity when the moment it is taken at is off by an edge.
/// @param at  value at a time, s
template <typename At>
double edgeSigma(const At& at, double time_s) {
    const double here = at(time_s), before = at(time_s - kEdge_s), after = at(time_s + kEdge_s);
    const double back = before > here ? before - here : here - before;
    const double on = after > here ? after - here : here - after;
    return back > on ? back : on;
}

}  // namespace plumbline::review

#pragma once
// What a flight was to its airframe and to its pilot: peaks, time above levels, cycles.

#include <span>
#include <vector>

#include "engine/data/aircraft.h"
#include "engine/earth/atmosphere.h"
#include "engine/path/path.h"

namespace plumbline::review {

/// Closed or half cycles of one range and mean.
struct Cycle {
    double range = 0, mean = 0;
    double count = 0;  ///< 1 or 0.5
};

/// Rainflow counts of a history: its reversals are taken first.
/// @source ASTM E1049-85, 5.4.4; its example is a test
std::vector<Cycle> rainflow(std::span<const double> history);

/// A history without the ripples smaller than `least`: its first value, its reversals, its last.
std::vector<double> reversals(std::span<const double> history, double least);

struct LoadLevel {
    double load_g = 0;
    double beyond_s = 0;  ///< time above it (below it for levels under 1 g)
    int times = 0;        ///< times it was passed, away from 1 g; ripples about it are none
    double sigma_s = 0;   ///< of beyond_s; 0: not told
};

/// From pushing to pulling, when the blood follows late.
struct PushPull {
    double time_s = 0;  ///< when the pull passes its level
    double least_g = 0, most_g = 0;
};

struct LoadBook {
    double most_g = 0, most_s = 0, least_g = 0, least_s = 0;
    double quickest_gps = 0, quickest_s = 0;  ///< greatest gain of load over half a second
    /// One sigma each; 0: not told.
    double most_sigma_g = 0, least_sigma_g = 0, quickest_sigma_gps = 0;
    std::vector<LoadLevel> levels;  ///< every g, -6 .. 10 as far as reached
    std::vector<PushPull> push_pulls;
    std::vector<Cycle> cycles;  ///< by range in whole g, rounded up, mean of theirs
};

/// Of the normal load that the seat's meter reads.
///
/// Ripples under a quarter of a g are no cycles (chosen: what air and stick make). A level is
/// passed as ASTM E1049 5.1 counts level crossings. Push then pull: from below 0 g to above 3 g
/// within five seconds (chosen; the exposure that aeromedical texts warn of has no agreed limits).
LoadBook loadBookOf(const path::Path& path);

/// What the crew wants to know of a sortie.
struct CrewSheet {
    double flown_s = 0;
    double full_power_s = 0;  ///< lever at 98 % and more; meaningless where power is not known
    double fuel_kg = 0;
    double fastest_mps = 0, fastest_s = 0;  ///< calibrated airspeed
    double beyond_never_exceed_s = 0, overspeed_s = 0;
    double fastest_back_mps = 0;
    // One sigma each; 0: not told.
    double fastest_sigma_mps = 0, beyond_never_exceed_sigma_s = 0, overspeed_sigma_s = 0,
           fastest_back_sigma_mps = 0;
    double hottest_head_k = 0;
};
CrewSheet crewSheetOf(const path::Path& path, const data::AircraftLimits& limits,
                      const earth::SiteAir& air);

}  // namespace plumbline::review

#pragma once
// What a pilot has set for himself, or the authority for him: an optional file beside the routine.
// Zero: not set, not checked.

#include <string>

#include "engine/data/spread.h"

namespace plumbline::data {

struct Pilot {
    std::string name;
    std::string note;
    double lowest_m = 0;          ///< least height allowed, above show centre
    double load_max_g = 0;        ///< what he trains for
    double load_min_g = 0;        ///< negative
    double onset_gps = 0;         ///< load gained a second
    double sustained_g = 0;       ///< a load above this ...
    double sustained_s = 0;       ///< ... for so long at a stretch
    double after_negative_g = 0;  ///< greatest load soon after a stretch of negative load
    double without_rest_s = 0;    ///< longest time between two rests
    double wind_mps = 0;          ///< strongest wind, at 10 m
    double crosswind_mps = 0;     ///< across the runway, at 10 m
    double gate_load_g = 0;       ///< load that gates are worked out with; 0: the aircraft's
    Spread spread;                ///< how unlike the plan he flies
    double engine_failure_s = 3;  ///< from the failure to the glide (chosen: see and react)
};

}  // namespace plumbline::data

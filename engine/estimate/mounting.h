#pragma once
// How the sensors sit in the aircraft, told from the flight itself.

#include "engine/estimate/streams.h"

namespace plumbline::estimate {

struct Mounting {
    Quat q_BI{1, 0, 0, 0};      ///< sensor axes to body axes
    bool known = false;         ///< false: too little motion; sensor axes are taken as body axes
    bool square = true;         ///< one of the 24 ways to sit square in the aircraft
    double off_square_rad = 0;  ///< angle to the nearest of those
};

/// Forward is where the sensors go on average while they go fast, down is where the load presses.
///
/// Within 15 deg of sitting square they are taken to: incidence and the load's direction tell no
/// more. simplified: else forward is the mean direction of the path, not a datum of the fuselage.
Mounting findMounting(const Solution& solution);

/// The same, of states that come one by one.
class MountingSearch {
public:
    void add(const State& state, bool has_position);
    Mounting find() const;

private:
    Vec3 forward_I_{0}, load_I_{0}, all_load_I_{0};
    std::size_t fast_ = 0;
};

}  // namespace plumbline::estimate

#pragma once
// Which way the wings lean, told by how a path of places curves.

#include "engine/record/curve_fit.h"

namespace plumbline::record {

struct Banked {
    std::size_t samples = 0;  ///< how many have a bank
    std::size_t flown = 0;    ///< how many are fast enough to have one
    bool aerobatic = false;   ///< loads or lines that leave it open on which side the lift acts
};

/// Turns the attitudes of samples (along their velocity, wings level) to where the lift points, and
/// sets attitude_sigma_rad: wherever the bank cannot be told it is half a turn.
///
/// In balanced flight what acts across the path is lift, in the aircraft's plane of symmetry:
/// acceleration less gravity, less its part along the path. Its direction is as sure as its size is
/// above the acceleration's scatter. Pulled upright and pushed inverted look alike from places, and
/// a roll on a straight line leaves no mark at all: nothing is told of a flight with steep lines or
/// high loads. One without either is taken as flown upright.
Banked bankFromPath(std::vector<path::Sample>& samples, const Accelerations& accelerations);

}  // namespace plumbline::record

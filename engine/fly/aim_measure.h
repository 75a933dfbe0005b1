#pragma once
// What an aim wants, measured on the flight's dense output.

#include "engine/fly/routine_flyer.h"

namespace plumbline::fly {

/// Of a figure that was flown to its end: m (heights above show centre less the raise) or m/s.
/// @accuracy that of the dense output; the highest, lowest, least and greatest are not sampled but
///   found on it
double measureAim(const routine::Aim& aim, const Solution::Impl& flown, std::size_t figure);

}  // namespace plumbline::fly

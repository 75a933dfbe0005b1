#pragma once
// Attitude, velocity and position from raw sensors, looking at the whole recording at once.

#include <functional>

#include "engine/estimate/settings.h"
#include "engine/estimate/streams.h"

namespace plumbline::estimate {

/// How the work is done and where its states go.
struct Work {
    /// Called with the share done, from one thread at a time.
    std::function<void(double share)> progress;
    /// Runs job(0) .. job(count - 1), in any order, and comes back when all are done; empty: here.
    std::function<void(std::size_t count, const std::function<void(std::size_t)>& job)> run;
    std::size_t at_once = 1;  ///< parts of a long recording that are worked on together
    /// Takes the states in the order of their times as they become final; the solution then holds
    /// none, and memory does not grow with the recording.
    std::function<void(double time_s, const State& state)> take;
};

/// The most probable flight given all streams (least squares on the manifold, Gauss-Newton with
/// weights that let outliers go), at each inertial sample, with its expected errors.
///
/// With fixes the frame S is theirs and heading is true; without, position and velocity have no
/// meaning (the body is taken to stay about where it is), heading is magnetic if a usable field is
/// given, else it starts at an unknown angle. States reach two seconds beyond the fixes. Long
/// recordings are done in overlapping parts. The bytes do not depend on how the work is done.
/// @return no states when there are fewer than two seconds of inertial samples
Solution smooth(const Streams& streams, const Settings& settings = {}, const Work& work = {});

}  // namespace plumbline::estimate

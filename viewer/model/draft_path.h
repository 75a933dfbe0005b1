#pragma once
// The path of a text that is being written: dense where somebody looks, sparse elsewhere.

#include <functional>

#include "engine/fly/solve.h"
#include "engine/path/path.h"

namespace plumbline::model {

/// A stretch of a path's time.
struct LookedAt {
    double from_s = 0;
    double to_s = 0;
};

/// What a picture at a moment shows of the path: the band behind it, the ladder ahead, and what
/// playing on needs until the whole is there.
LookedAt aroundMoment(double time_s);

/// Samples of a solution: at each joint of elements, dense in one stretch, sparse in the rest.
/// Quick rolls of the rest fall between two samples.
/// @param dense  told by the path's figures and elements; it has samples at joints only then
path::Path draftPath(const fly::Solution& solution,
                     const std::function<LookedAt(const path::Path&)>& dense);

}  // namespace plumbline::model

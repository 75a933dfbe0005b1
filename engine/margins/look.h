#pragma once
// A flight as it is looked at to be counted.

#include "engine/fly/solve.h"
#include "engine/path/path.h"

namespace plumbline::margins {

/// Samples `rate_hz` a second, and beside them where the flight levels off, where each figure ends,
/// and four times as many about each peak of the load: so neither heights nor loads hang on the
/// rate. Body rates are those of the neighbouring attitudes.
path::Path lookAt(const fly::Solution& solution, double rate_hz);

}  // namespace plumbline::margins

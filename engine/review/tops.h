#pragma once
// Tops of a flight against the gates of its plan.

#include <span>

#include "engine/check/gates.h"
#include "engine/review/review.h"

namespace plumbline::review {

/// Each top of the plan's figures as it was flown, beside the least height that the plan's way down
/// needs there; one that is below that, or not surely above, becomes a remark.
/// @param review  of this flight against this plan
/// @param gates   of the plan
void addTops(Review& review, const path::Path& flight, const path::Path& plan,
             std::span<const check::Gate> gates);

}  // namespace plumbline::review

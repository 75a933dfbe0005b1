#pragma once
// How far a slide goes: from its top to where the nose is let swing, as figure text measures it.

#include "engine/review/pieces.h"

namespace plumbline::review {

struct SlideMeasure {
    double way_m = 0;        ///< height lost from the top on; what still coasts up is no part of it
    double fastest_mps = 0;  ///< tail first, over the ground
    double sigma_m = 0;      ///< of the way; 0: not told
    double fastest_sigma_mps = 0;  ///< 0: not told
};
/// @param slide   a slide of the path
/// @param late_s  how long after its end the nose's swing is seen
SlideMeasure measureSlide(const path::Path& path, const Piece& slide, double late_s);

/// How long after the end of a plan's own slide its fall is seen to begin; 0 where the plan has no
/// slide there. Without a plan: kSwingSeenLate_s.
double seenLate_s(const path::Path& plan, const Piece& slide);

}  // namespace plumbline::review

#pragma once
// Spins and tumbles: how far they turn, how much height they take, and where a spin stops.

#include "engine/review/pieces.h"

namespace plumbline::review {

struct TurnsMeasure {
    double turns = 0;          ///< of the heading (spin), or of the nose (tumble)
    double height_lost_m = 0;  ///< from its first moment to its last; negative: gained
    double height_sigma_m = 0;
    /// From the heading that it was begun on to the one that it leaves on (steeply down: where the
    /// canopy points), -pi..pi, to the right positive.
    double heading_change_rad = 0;
    double heading_sigma_rad = 0;  ///< 0: not told
    double turns_sigma = 0;        ///< 0: not told
};

/// @param piece  a spin or a tumble of the path
TurnsMeasure measureTurns(const path::Path& path, const Piece& piece);

/// How much too far a spin turned against its plan, in the sense it turns; short is negative.
/// @param right  the sense
double turnedTooFar_rad(const TurnsMeasure& flown, const TurnsMeasure& planned, bool right);

}  // namespace plumbline::review

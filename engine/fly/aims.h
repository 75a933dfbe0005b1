#pragma once
// Aims: parameters of figures found so that places, heights and speeds come out as wanted.

#include <vector>

#include "engine/fly/routine_flyer.h"

namespace plumbline::fly {

/// One aim with the figures it is about.
struct PlacedAim {
    std::size_t figure = 0;  ///< that holds it
    std::size_t index = 0;   ///< in that figure's aims
    std::size_t measured = 0;
};

/// Figures first to last, whose aims are found together: what one changes, another measures.
struct AimGroup {
    std::size_t first = 0, last = 0;
    std::vector<PlacedAim> aims;
    std::vector<PlacedAim> too_late;  ///< measured in a figure before: nothing can be found
};

/// In order, none overlapping another; what a group finds depends on no later figure. Aims at a
/// figure that is not in the list are passed over.
std::vector<AimGroup> groupAims(const std::vector<routine::RoutineFigure>& figures);

/// Flies the figures of a group, which come next, with the values that bring its aims about or come
/// nearest, and notes these.
///
/// One aim: bracketed and closed in on. More: each by itself with the others held, then all by
/// Newton's method. Trials are flown at a loose tolerance and only from the first figure changed to
/// the one measured; the last few steps at the one asked. Of several values the search takes the
/// first it finds, the same at every call.
void flyAims(RoutineFlyer& flyer, const AimGroup& group,
             const std::vector<routine::RoutineFigure>& figures);

}  // namespace plumbline::fly

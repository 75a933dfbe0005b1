#pragma once
// Which stretch of a plan a flight flew, where it began later or ended sooner.

#include <span>

namespace plumbline::review {

/// Figures of a plan, by index, the last one included; last < first: none.
struct Stretch {
    int first = 0, last = -1;
    bool holds(int figure) const { return figure >= first && figure <= last; }
    int size() const { return last - first + 1; }
};

/// The stretch with the greatest sum; of equal ones the first.
/// @param score  of each figure: 1 flown in its order, -1 not flown, 0 nobody can tell
/// @source J. Bentley, Programming Pearls, Comm. ACM 27 (1984) 865-873
Stretch flownStretch(std::span<const int> score);

}  // namespace plumbline::review

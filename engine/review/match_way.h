#pragma once
// The cheapest way through two rows of pieces.

#include <utility>
#include <vector>

#include "engine/review/pieces.h"

namespace plumbline::review {

inline constexpr double kLeftOut = 0.75;  // chosen: two left out cost more than a doubtful pair

/// Pairs of the cheapest way through two sequences, and what it costs. Where `anywhere`, what the
/// second has before and behind costs nothing.
struct Way {
    std::vector<std::pair<int, int>> pairs;
    double cost = 0;
};
Way cheapestWay(const std::vector<const Piece*>& a, const std::vector<const Piece*>& b,
                bool anywhere);

}  // namespace plumbline::review

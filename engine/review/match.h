#pragma once
// Which piece of a flight is which of its plan.

#include <vector>

#include "engine/review/match_part.h"
#include "engine/review/pieces.h"

namespace plumbline::review {

/// How unlike two pieces are: 0 the same, 1 doubtful, more another thing.
///
/// By what they are, how far they turn and roll, and which way a line goes; not by when or where.
double unlikeness(const Piece& a, const Piece& b);

/// Says something of a figure: a level line without rolls does not.
bool tells(const Piece& piece);

/// What the cheapest way through two rows of pieces costs: 0 where they are alike, three quarters
/// for each piece that the other has not.
double unlikenessInOrder(const std::vector<Piece>& a, const std::vector<Piece>& b);

/// For each piece of the plan the index of the flight's, or -1 where it was not flown.
///
/// The cheapest way through both in order (S. B. Needleman and C. D. Wunsch, J. Mol. Biol. 48
/// (1970) 443-453): pieces are paired, left out of the plan, or flown beyond it.
std::vector<int> matchInOrder(const std::vector<Piece>& plan, const std::vector<Piece>& flight);

/// A figure of the plan in the flight.
struct FigureMatch {
    int figure = -1;                          ///< index into the plan's figures
    double start_s = 0, stop_s = 0;           ///< of the flight
    bool out_of_order = false;                ///< not where the plan has it
    bool again = false;                       ///< once more than planned
    std::vector<std::pair<int, int>> pieces;  ///< of the plan, of the flight
};

struct Match {
    std::vector<FigureMatch> figures;  ///< in the order flown; a figure flown again stands twice
    std::vector<int> missing;          ///< figures of the plan that are not in the flight
    /// Neither half of the plan is in the flight nor half of the flight in the plan: it is another
    /// routine. Only figures that are there as a whole and much like themselves are left.
    bool unlike = false;
    /// All of it, or the stretch that was flown where at an end two figures and more were not.
    Stretch flown;
};

/// Figures of a plan found in a flight: first all in order, then those that are left, each where it
/// fits in what is left of the flight; then those of two pieces and more that were flown again.
/// @param plan  with figures
Match matchFigures(const path::Path& plan, const std::vector<Piece>& plan_pieces,
                   const std::vector<Piece>& flight_pieces);

}  // namespace plumbline::review

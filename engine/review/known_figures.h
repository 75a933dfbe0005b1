#pragma once
// Figures that have a name, told again in a flight without a plan.

#include <span>
#include <string>
#include <vector>

#include "engine/review/pieces.h"

namespace plumbline::review {

struct KnownFigure {
    std::string name;
    std::vector<Piece> pieces;  ///< of the figure flown alone
};

/// A line with a roll that is one for itself, not the bank into a turn or a spin.
bool rollsForItself(const Piece& piece);

/// The built-in figures, flown in the demo's aircraft and calm air: some tenths of a second's work.
std::vector<KnownFigure> shelfFigures();

/// The name of the figure that a stretch of a flight is; empty unless one is clearly nearer than
/// every other: on doubt there is no name.
///
/// By the row of its pieces, whichever side it rolls and turns to; level lines tell nothing.
std::string knownName(std::span<const Piece> stretch, std::span<const KnownFigure> known);

}  // namespace plumbline::review

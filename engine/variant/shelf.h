#pragma once
// The built-in figures, each flown alone.

#include <string>
#include <vector>

#include "engine/path/path.h"

namespace plumbline::variant {

struct ShelfFigure {
    std::string name;   ///< as routines have it: "loop"
    std::string title;  ///< "Loop"
    std::string about;
    std::string skill;
    path::Path path;
};
/// Flies them all from their entries, in the demo's aircraft and calm air.
std::vector<ShelfFigure> flyShelf(double rate_hz);

}  // namespace plumbline::variant

#pragma once
// What was measured as tables: one file each, SI units and degrees by the names of the columns.

#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// figures.csv, lines.csv, loops.csv, rolls.csv, slides.csv, pivots.csv, loads.csv. RFC 4180.
std::vector<File> reviewTables(const Sortie& sortie);

}  // namespace plumbline::sheets

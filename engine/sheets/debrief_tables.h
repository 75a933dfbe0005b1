#pragma once
// The debrief's second page: what was measured, in tables.

#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// Begins a new page, and more where the lines need them.
/// @param pages  how many there are in all, for the foot
void drawTablePages(page::Document& document, const Sortie& sortie, const std::string& revision,
                    int pages);

/// All else that was measured, table by table; of those without room for all rows the weightiest,
/// which they say.
/// @param first  table to begin with
/// @return the first for which there was no room; 0: all are drawn
std::size_t drawRightColumn(page::Document& document, const Sortie& sortie, std::size_t first,
                            const page::Box& box);

}  // namespace plumbline::sheets

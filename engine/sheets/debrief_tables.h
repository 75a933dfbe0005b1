#pragma once
// The debrief's second page: what was measured, in tables.

#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// Begins a new page, and more where the lines need them.
/// @param pages  how many there are in all, for the foot
void drawTablePages(page::Document& document, const Sortie& sortie, const std::string& revision,
                    int pages);

}  // namespace plumbline::sheets

#pragma once
// The debrief's second page: what was measured, in tables.

#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// Begins a new page, and more where the lines need them.
/// @param pages  how many there are in all, for the foot
void drawTablePages(page::Document& document, const Sortie& sortie, const std::string& revision,
                    int pages);

/// Beside the lines on the first of them: all else that was measured, as much as there is room for.
void drawRightColumn(page::Document& document, const Sortie& sortie, const page::Box& box);

}  // namespace plumbline::sheets

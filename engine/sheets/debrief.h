#pragma once
// The debrief of a sortie: two pages to be read ten minutes after landing.

#include "engine/base/expected.h"
#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// As PDF: the three things most worth fixing, pictures, heights; then every line with how surely
/// it is known, loops, rolls, slides, pivots, least heights, loads. Lines that find no room on the
/// second page go on.
/// @param sortie  with flight, plan, workspace and review
/// @errors what the page layer says
Expected<std::string, std::string> debriefPdf(const Sortie& sortie, const Print& print);

}  // namespace plumbline::sheets

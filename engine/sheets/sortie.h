#pragma once
// What the sheets of a sortie are made of, and the files they become.

#include <string>
#include <vector>

#include "engine/load/load.h"
#include "engine/page/document.h"
#include "engine/path/path.h"
#include "engine/review/load_book.h"
#include "engine/review/review.h"
#include "engine/season/last_times.h"
#include "engine/units/quantity.h"

namespace plumbline::sheets {

/// A flight with its plan and what was found. What it points to lives longer.
struct Sortie {
    const path::Path* flight = nullptr;  ///< in the site's axes
    const path::Path* plan = nullptr;
    const load::Workspace* workspace = nullptr;
    const review::Review* review = nullptr;
    std::string variant;       ///< how the plan differs from the file: "mirrored"; empty: not
    std::string start_utc;     ///< of the recording, ISO 8601; empty: it has no date
    std::string log_revision;  ///< mark of the recording's bytes: Fingerprint::words
    std::vector<season::LastTimes> last;  ///< as far as the season's book tells; empty: nothing
    std::vector<std::string> notes;       ///< how the path was made, a sentence each
    units::DisplayUnits units = units::DisplayUnits::Aviation;
};

/// How it is printed.
struct Print {
    page::Paper paper = page::Paper::A4;  ///< A4 or Letter
    const page::Fonts* fonts = nullptr;
};

struct File {
    std::string name;
    std::string bytes;
};

}  // namespace plumbline::sheets

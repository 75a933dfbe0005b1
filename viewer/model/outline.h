#pragma once
// The routine as rows: what the sheet lists and the timeline's figure lane shows.

#include <string>
#include <vector>

#include "engine/check/finding.h"
#include "engine/path/path.h"
#include "engine/routine/routine.h"

namespace plumbline::model {

/// One figure.
struct OutlineRow {
    std::string name;
    double start_s = 0;
    double stop_s = 0;
    std::vector<std::string> text;  ///< its figure text, one line each, without the common indent
    std::vector<std::int32_t> findings;  ///< indices into the findings, worst first
};

/// Rows in the order flown. A recording has no text; a path without figures gives one row of its
/// own name.
/// @param routine  null for a recording
std::vector<OutlineRow> makeOutline(const path::Path& path, const routine::Routine* routine,
                                    const std::vector<check::Finding>& findings);

/// Index of the row flown at a time; between figures the one before; -1 when there is none.
std::int32_t rowAt(const std::vector<OutlineRow>& rows, double time_s);

/// Figure text as lines: no blank lines at the ends, no indent common to all.
std::vector<std::string> textLines(const std::string& text);

/// A line of figure text with the values of its parameters in their places.
std::string withValues(std::string line, const std::vector<text::ParameterValue>& values);

}  // namespace plumbline::model

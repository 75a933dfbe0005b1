#pragma once
// One parser for each element of figure text.

#include <optional>

#include "engine/text/figure_text.h"
#include "engine/text/line_reader.h"

namespace plumbline::text {

/// Reads the element on the reader's line. Nothing when it could not be understood; when a number
/// is out of range an element comes back all the same, and the reader has added a problem.
std::optional<ElementBody> parseElement(LineReader& reader);

/// The reader stands after `with`.
std::optional<Rolls> parseRolls(LineReader& reader);

}  // namespace plumbline::text

#pragma once
// The syntax tree back to figure text.

#include <string>
#include <vector>

#include "engine/text/figure_text.h"

namespace plumbline::text {

/// One element in canonical figure text (lower case, m, s, m/s, deg, g and %), without a line end.
/// For any element that parseFigureText gave, parsing the result gives an equal body, except for
/// Condition::words. A cue's words must hold no double quote and no line end.
std::string printElement(const ElementBody& body);

/// One line each.
std::string printFigureText(const std::vector<Element>& elements);

}  // namespace plumbline::text

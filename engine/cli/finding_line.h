#pragma once
// A finding as a line of text, the same wherever commands list findings.

#include <string>

#include "engine/check/finding.h"

namespace plumbline::cli {

/// "  1:14  Hammerhead, pivot left: what: value (limit, source): remedy"
std::string findingLine(const check::Finding& finding, units::DisplayUnits units);

}  // namespace plumbline::cli

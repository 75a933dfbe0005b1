#include "engine/cli/finding_line.h"

namespace plumbline::cli {

std::string findingLine(const check::Finding& finding, units::DisplayUnits units) {
    std::string line = "  " + units::formatTime(finding.time_s);
    if (!finding.figure.empty()) line += "  " + finding.figure;
    if (!finding.element.empty()) line += ", " + finding.element;
    line += ": " + finding.what;
    if (!finding.value.empty()) line += ": " + check::inUnits(finding, finding.value, units);
    if (!finding.limit.empty()) line += " (limit " + check::inUnits(finding, finding.limit, units);
    if (!finding.source.empty()) line += (finding.limit.empty() ? " (" : ", ") + finding.source;
    if (!finding.limit.empty() || !finding.source.empty()) line += ")";
    if (!finding.remedy.empty()) line += ": " + finding.remedy;
    return line;
}

}  // namespace plumbline::cli

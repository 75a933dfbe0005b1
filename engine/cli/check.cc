// plumbline check: a routine against its site, aircraft, fuel and slot.

#include "engine/check/check.h"

#include <cstdio>

#include <nlohmann/json.hpp>

#include "engine/cli/commands.h"
#include "engine/cli/options.h"

namespace plumbline::cli {

namespace {

// chosen: at 60 m/s a metre and a half apart, finer than any of the limits is known.
constexpr double kCheckRate_hz = 100;

/// A finding's "30 m" or "165 kt" in the units asked for; everything else as it is. Distances along
/// the ground stay in metres.
std::string inUnits(const check::Finding& finding, const std::string& quantity,
                    units::DisplayUnits units) {
    if (const auto speed_mps = units::parseQuantity(quantity, units::Dimension::Speed))
        return units::formatSpeed(*speed_mps, units);
    const auto height_m = units::parseQuantity(quantity, units::Dimension::Length);
    if (finding.kind == "floor" && height_m) return units::formatHeight(*height_m, units);
    return quantity;
}

void printFinding(const check::Finding& finding, units::DisplayUnits units) {
    std::string line = "  " + units::formatTime(finding.time_s);
    if (!finding.figure.empty()) line += "  " + finding.figure;
    if (!finding.element.empty()) line += ", " + finding.element;
    line += ": " + finding.what;
    if (!finding.value.empty()) line += ": " + inUnits(finding, finding.value, units);
    if (!finding.limit.empty()) line += " (limit " + inUnits(finding, finding.limit, units);
    if (!finding.source.empty()) line += (finding.limit.empty() ? " (" : ", ") + finding.source;
    if (!finding.limit.empty() || !finding.source.empty()) line += ")";
    if (!finding.remedy.empty()) line += ": " + finding.remedy;
    std::printf("%s\n", line.c_str());
}

/// The routine's name with the variant.
std::string titleOf(const variant::Flown& flown) {
    const std::string& name = flown.workspace.routine.name;
    return flown.label.empty() ? name : name + " (" + flown.label + ")";
}

/// The worst first.
void printFindings(const std::string& routine, const std::vector<check::Finding>& findings,
                   units::DisplayUnits units) {
    using check::Grade;
    std::string summary;
    for (const Grade grade : {Grade::Cannot, Grade::Unsafe, Grade::Tight, Grade::Note}) {
        std::size_t count = 0;
        for (const check::Finding& finding : findings) {
            if (finding.grade != grade) continue;
            if (count++ == 0) std::printf("%s\n", check::gradeWord(grade));
            printFinding(finding, units);
        }
        if (count == 0) continue;
        summary +=
            (summary.empty() ? "" : ", ") + std::to_string(count) + " " + check::gradeWord(grade);
    }
    std::printf("%s: %s\n%s\n", routine.c_str(),
                summary.empty() ? "nothing found by these checks" : summary.c_str(),
                check::caution());
}

void printJson(const variant::Flown& flown, const std::vector<check::Finding>& findings) {
    const load::Workspace& workspace = flown.workspace;
    nlohmann::ordered_json list = nlohmann::ordered_json::array();
    for (const check::Finding& finding : findings)
        list.push_back({{"grade", check::gradeWord(finding.grade)},
                        {"kind", finding.kind},
                        {"figure", finding.figure},
                        {"element", finding.element},
                        {"time_s", finding.time_s},
                        {"what", finding.what},
                        {"value", finding.value},
                        {"limit", finding.limit},
                        {"source", finding.source},
                        {"remedy", finding.remedy}});
    const nlohmann::ordered_json report = {{"routine", workspace.routine.name},
                                           {"variant", flown.label},
                                           {"aircraft", workspace.aircraft.name},
                                           {"site", workspace.site.name},
                                           {"weather", workspace.weather.name},
                                           {"grade", check::gradeWord(check::worstGrade(findings))},
                                           {"findings", list},
                                           {"caution", check::caution()}};
    using Json = nlohmann::ordered_json;
    // A name that is no UTF-8 is no reason to fail.
    std::printf("%s\n", report.dump(2, ' ', false, Json::error_handler_t::replace).c_str());
}

}  // namespace

int runCheck(const Arguments& arguments) {
    OptionParser parser("check",
                        "Checks a routine: floor, show line, box, loads, speeds, what cannot be "
                        "flown as written, fuel, slot.",
                        "plumbline check evening.routine.toml --weather \"METAR XXXX 271620Z "
                        "24012KT CAVOK 24/11 Q1016\"\n"
                        "  plumbline check evening.routine.toml --ceiling 450m");
    RoutineOptions options;
    bool json = false;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    addRoutineOptions(parser.app(), options);
    parser.app().add_flag("--json", json, "findings as JSON, with the units written in each value");
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    const Expected<variant::Flown, Problems> flown = flyRoutine(options, units);
    if (!flown) return refuse(flown.error());
    const load::Workspace& workspace = flown->workspace;
    const std::vector<check::Finding> findings =
        check::checkRoutine(workspace.aircraft, workspace.site, workspace.weather,
                            workspace.routine, flown->solution.samplePath(kCheckRate_hz),
                            flown->solution.notes(), workspace.pilot, workspace.rules);
    printRemarks(options.routine, flown->remarks);
    if (json)
        printJson(*flown, findings);
    else
        printFindings(titleOf(*flown), findings, units);
    return check::worstGrade(findings) >= check::Grade::Tight ? kDoneWithFindings : kDone;
}

}  // namespace plumbline::cli

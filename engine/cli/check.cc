// plumbline check: a routine against its site, aircraft, fuel and slot.

#include "engine/check/check.h"

#include <cmath>
#include <cstdio>

#include <nlohmann/json.hpp>

#include "engine/base/number_text.h"
#include "engine/check/glide.h"
#include "engine/cli/commands.h"
#include "engine/cli/finding_line.h"
#include "engine/cli/options.h"
#include "engine/units/least_height.h"

namespace plumbline::cli {

namespace {

// chosen: at 60 m/s a metre and a half apart, finer than any of the limits is known.
constexpr double kCheckRate_hz = 100;

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
            std::printf("%s\n", findingLine(finding, units).c_str());
        }
        if (count == 0) continue;
        summary +=
            (summary.empty() ? "" : ", ") + std::to_string(count) + " " + check::gradeWord(grade);
    }
    std::printf("%s: %s\n%s\n", routine.c_str(),
                summary.empty() ? "nothing found by these checks" : summary.c_str(),
                check::caution());
}

/// Tops with the least heights there, at the planned speed and ten knots to both sides.
void printGates(const std::vector<check::Gate>& gates, const fly::Solution& solution,
                const path::Path& path, units::DisplayUnits units) {
    if (gates.empty()) return;
    constexpr double kStep_mps = 10 * units::kKnot_mps;
    const auto height = [&](double m) { return units::formatHeight(m, units); };
    const auto least = [&](double m) {
        const double shown_m = check::shownLeast_m(m);
        if (units != units::DisplayUnits::Feet) return height(shown_m);
        // Up once more, or the feet would be lower than the metres.
        return formatFixed(units::leastHeight_ft(shown_m), 0) + " ft";
    };
    const auto completeAt = [&](const check::Gate& gate, double faster_mps) {
        return least(
            check::gateAt(gate, gate.airspeed_mps + faster_mps, solution, path).complete_m);
    };
    std::printf(
        "gates: speed and height at each top; the least height there to complete (10 kt slower, as "
        "planned, 10 kt faster); the least to escape\n");
    for (const check::Gate& gate : gates) {
        std::string line = "  " + units::formatTime(gate.time_s) + "  " + gate.figure + ": " +
                           units::formatSpeed(gate.airspeed_mps, units) + " at " +
                           height(gate.position_S_m.z) + "; complete at " +
                           formatFixed(gate.load_g, 1) + " g: ";
        if (gate.vertical)
            line += least(gate.complete_m) + "; no other way down";
        else
            line += completeAt(gate, -kStep_mps) + ", " + least(gate.complete_m) + ", " +
                    completeAt(gate, kStep_mps) + "; escape " + least(gate.escape_m);
        std::printf("%s\n", line.c_str());
    }
}

/// When no strip can be reached without the engine.
void printReach(const check::Glide& glide, const std::vector<check::Reach>& reaches,
                const path::Path& path, units::DisplayUnits units) {
    if (reaches.empty() || reaches.front().strip.empty()) {
        std::printf("engine failure: the site has no runway and no [[strip]] to reach\n");
        return;
    }
    std::string times;
    double out_s = 0;
    for (const check::Spell& s : check::outOfReach(reaches)) {
        times += (times.empty() ? "" : ", ") + units::formatTime(s.from_s) + "-" +
                 units::formatTime(s.to_s);
        out_s += s.to_s - s.from_s;
    }
    std::printf(
        "engine failure, an indication: best glide at %s, 1 : %.0f; out of reach of every strip "
        "for %s of %s%s%s\n",
        units::formatSpeed(glide.speed_mps(path.samples.back().mass_kg), units).c_str(),
        glide.ratio(), units::formatTime(out_s).c_str(),
        units::formatTime(path.duration_s()).c_str(), times.empty() ? "" : ": ", times.c_str());
}

void printJson(const variant::Flown& flown, const std::vector<check::Finding>& findings,
               const std::vector<check::Gate>& gates, const std::vector<check::Reach>& reaches) {
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
                        {"margin", finding.margin},
                        {"verified", finding.verified},
                        {"position_m",
                         {finding.position_S_m.x, finding.position_S_m.y, finding.position_S_m.z}},
                        {"source", finding.source},
                        {"remedy", finding.remedy}});
    nlohmann::ordered_json gate_list = nlohmann::ordered_json::array();
    for (const check::Gate& gate : gates)
        gate_list.push_back({{"figure", gate.figure},
                             {"time_s", gate.time_s},
                             {"height_m", gate.position_S_m.z},
                             {"airspeed_mps", gate.airspeed_mps},
                             {"load_g", gate.load_g},
                             {"complete_m", gate.complete_m},
                             {"escape_m", gate.escape_m},
                             {"planned_loss_m", gate.planned_loss_m}});
    nlohmann::ordered_json reach_list = nlohmann::ordered_json::array();
    for (const check::Reach& reach : reaches)
        reach_list.push_back({{"time_s", reach.time_s},
                              {"strip", reach.strip},
                              {"spare_m", reach.spare_m},
                              {"energy_height_m", reach.energy_height_m}});
    const nlohmann::ordered_json report = {{"routine", workspace.routine.name},
                                           {"variant", flown.label},
                                           {"aircraft", workspace.aircraft.name},
                                           {"site", workspace.site.name},
                                           {"weather", workspace.weather.name},
                                           {"grade", check::gradeWord(check::worstGrade(findings))},
                                           {"findings", list},
                                           {"gates", gate_list},
                                           {"engine_failure", reach_list},
                                           {"caution", check::caution()}};
    using Json = nlohmann::ordered_json;
    // A name that is no UTF-8 is no reason to fail.
    std::printf("%s\n", report.dump(2, ' ', false, Json::error_handler_t::replace).c_str());
}

}  // namespace

int runCheck(const Arguments& arguments) {
    OptionParser parser(
        "check",
        "Checks a routine: floors, lines, box, obstacles, the way to the crowd, rule sets, "
        "airframe, engine, fuel, slot, pilot, day; gates at each top, engine failure.",
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
    const path::Path path = flown->solution.samplePath(kCheckRate_hz);
    std::vector<check::Finding> findings = check::checkRoutine(
        workspace.aircraft, workspace.site, workspace.weather, workspace.routine, path,
        flown->solution.notes(), workspace.pilot, workspace.rules);
    const std::vector<check::Gate> gates =
        check::gatesOf(workspace.aircraft, workspace.site, workspace.pilot, flown->solution, path);
    check::addFindings(findings, check::checkGates(gates, path));
    const check::Glide glide(workspace.aircraft, workspace.site, workspace.weather,
                             workspace.pilot);
    const std::vector<check::Reach> reaches = check::reachAlong(glide, path, check::kReachEvery_s);
    printRemarks(options.routine, flown->remarks);
    if (json) {
        printJson(*flown, findings, gates, reaches);
    } else {
        printGates(gates, flown->solution, path, units);
        printReach(glide, reaches, path, units);
        printFindings(titleOf(*flown), findings, units);
        for (const data::RuleSet& rules : workspace.rules)
            std::printf("%s (%s): %s\n", rules.name.c_str(), rules.edition.c_str(),
                        rules.remark.c_str());
    }
    return check::worstGrade(findings) >= check::Grade::Tight ? kDoneWithFindings : kDone;
}

}  // namespace plumbline::cli

#include "engine/check/check.h"

#include <algorithm>

#include "engine/check/checker.h"

namespace plumbline::check {

const char* gradeWord(Grade grade) {
    switch (grade) {
        case Grade::Note:
            return "note";
        case Grade::Tight:
            return "tight";
        case Grade::Unsafe:
            return "unsafe";
        case Grade::Cannot:
            return "cannot";
    }
    return "note";
}

Grade worstGrade(const std::vector<Finding>& findings) {
    Grade worst = Grade::Note;
    for (const Finding& f : findings) worst = std::max(worst, f.grade);
    return worst;
}

const char* caution() {
    return "A planning and training aid with a simplified model; no approval to fly. Limits come "
           "from the aircraft's "
           "documents, the display authority, the waiver and a licensed evaluator. Try everything "
           "high first.";
}

std::vector<Finding> checkGates(const std::vector<Gate>& gates, const path::Path& path) {
    constexpr double kTightGate_m = 15;  // chosen: an altimeter's and an eye's slip at the top
    std::vector<Finding> findings;
    for (const Gate& gate : gates) {
        const double margin = gate.position_S_m.z - gate.complete_m;
        if (margin >= kTightGate_m) continue;
        Finding f;
        f.grade = margin < 0 ? Grade::Unsafe : Grade::Tight;
        f.kind = "gate";
        f.time_s = gate.time_s;
        f.position_S_m = gate.position_S_m;
        f.margin = margin;
        placeIn(path, path.samples[gate.sample].element, f);
        f.what = "height at the top against what the way down at " + loads(gate.load_g) + " needs";
        f.value = metres(gate.position_S_m.z);
        f.limit = metres(gate.complete_m);
        f.source = "flight model";
        f.remedy = "enter faster or pull less, to be higher or slower at the top";
        findings.push_back(std::move(f));
    }
    return findings;
}

void addFindings(std::vector<Finding>& findings, std::vector<Finding> more) {
    for (Finding& f : more) findings.push_back(std::move(f));
    std::stable_sort(findings.begin(), findings.end(),
                     [](const Finding& a, const Finding& b) { return a.time_s < b.time_s; });
}

std::vector<Finding> checkRoutine(const data::Aircraft& aircraft, const data::Site& site,
                                  const data::Weather& weather, const routine::Routine& routine,
                                  const path::Path& path, const std::vector<fly::SolveNote>& notes,
                                  const data::Pilot& pilot,
                                  const std::vector<data::RuleSet>& rules) {
    Checker checker(aircraft, site, weather, routine, path, pilot);
    checkSpace(checker);
    checkRules(checker, rules);
    checkAirframe(checker);
    checkEngine(checker);
    checkPilot(checker);
    checkDay(checker);
    checkSolver(checker, notes);
    addFindings(checker.findings, {});
    return std::move(checker.findings);
}

}  // namespace plumbline::check

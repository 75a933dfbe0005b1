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
    std::stable_sort(checker.findings.begin(), checker.findings.end(),
                     [](const Finding& a, const Finding& b) { return a.time_s < b.time_s; });
    return std::move(checker.findings);
}

}  // namespace plumbline::check

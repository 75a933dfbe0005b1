// What the flight itself had to say.

#include "engine/check/checker.h"

namespace plumbline::check {

void checkSolver(Checker& c, const std::vector<fly::SolveNote>& notes) {
    for (const fly::SolveNote& n : notes) {
        Finding f;
        f.kind = "not flyable";
        switch (n.kind) {
            case fly::SolveNote::Kind::NotFlyable:
            case fly::SolveNote::Kind::NeverMet:
                f.grade = Grade::Cannot;
                break;
            case fly::SolveNote::Kind::Late:
                f.grade = Grade::Tight;
                f.kind = "late";
                f.margin = -n.late_s;
                break;
            case fly::SolveNote::Kind::Unexpected:
                f.grade = Grade::Cannot;
                f.kind = "not as expected";
                break;
            case fly::SolveNote::Kind::Ground:
                f.grade = Grade::Cannot;
                f.kind = "ground";
                break;
            case fly::SolveNote::Kind::LoadShort:
                f.grade = n.short_g > fly::kLoadShortFinding_g ? Grade::Cannot : Grade::Note;
                f.kind = "load";
                break;
            case fly::SolveNote::Kind::Information:
                f.grade = Grade::Note;
                f.kind = n.subject;
                break;
        }
        f.time_s = n.time_s;
        f.what = n.what;
        f.value = n.value;
        f.limit = n.limit;
        f.source = "flight model, line " + std::to_string(n.source_line);
        f.remedy = n.remedy;
        placeIn(c.path, n.element, f);
        c.findings.push_back(std::move(f));
    }
}

}  // namespace plumbline::check

#include "viewer/model/edit_effect.h"

#include <algorithm>
#include <cmath>

#include "viewer/model/document.h"

namespace plumbline::model {
namespace {

/// Smaller changes of an entry are nobody's concern.
constexpr double kLeastSpeed_mps = 0.25;  // chosen: half a knot, the least that is shown
constexpr double kLeastHeight_m = 0.5;    // chosen: likewise

std::string wordsOf(const check::Finding& finding) {
    return (finding.figure.empty() ? "" : finding.figure + ": ") + finding.what;
}

std::vector<std::string> allWords(const Shown& shown) {
    std::vector<std::string> out;
    for (const check::Finding& finding : shown.findings) {
        if (finding.grade != check::Grade::Note) out.push_back(wordsOf(finding));
    }
    std::sort(out.begin(), out.end());
    return out;
}

}  // namespace

const EditEffect::Figure* EditEffect::of(const std::string& name) const {
    const auto found = std::find_if(figures.begin(), figures.end(),
                                    [&name](const Figure& figure) { return figure.name == name; });
    return found == figures.end() ? nullptr : &*found;
}

EditEffect compare(const Shown& before, const Shown& now) {
    EditEffect out;
    for (const OutlineRow& row : now.outline) {
        const auto was = std::find_if(before.outline.begin(), before.outline.end(),
                                      [&row](const OutlineRow& b) { return b.name == row.name; });
        if (was == before.outline.end()) continue;
        const path::Sample a = path::sampleAt(before.path(), was->start_s);
        const path::Sample b = path::sampleAt(now.path(), row.start_s);
        EditEffect::Figure figure;
        figure.name = row.name;
        figure.speed_mps = b.airspeed_mps - a.airspeed_mps;
        figure.height_m = b.position_S_m.z - a.position_S_m.z;
        if (std::abs(figure.speed_mps) >= kLeastSpeed_mps ||
            std::abs(figure.height_m) >= kLeastHeight_m) {
            out.figures.push_back(std::move(figure));
        }
    }
    if (!before.path().samples.empty() && !now.path().samples.empty()) {
        out.time_s = now.path().duration_s() - before.path().duration_s();
        out.fuel_kg = now.path().samples.back().fuel_kg - before.path().samples.back().fuel_kg;
    }
    const std::vector<std::string> had = allWords(before), has = allWords(now);
    std::set_difference(has.begin(), has.end(), had.begin(), had.end(),
                        std::back_inserter(out.appeared));
    std::set_difference(had.begin(), had.end(), has.begin(), has.end(),
                        std::back_inserter(out.gone));
    return out;
}

}  // namespace plumbline::model

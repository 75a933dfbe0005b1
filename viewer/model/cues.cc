#include "viewer/model/cues.h"

#include <algorithm>

namespace plumbline::model {

double cueStay_s(const path::Cue& cue) {
    constexpr double kLeast_s = 3, kWord_s = 0.5;  // chosen
    const auto words = 1 + std::count(cue.words.begin(), cue.words.end(), ' ');
    return std::max(kLeast_s, kWord_s * static_cast<double>(words));
}

const path::Cue* cueAt(const path::Path& path, double time_s) {
    const path::Cue* due = nullptr;
    for (const path::Cue& cue : path.cues) {
        if (cue.time_s > time_s || time_s - cue.time_s > cueStay_s(cue)) continue;
        if (due == nullptr || cue.time_s >= due->time_s) due = &cue;
    }
    return due;
}

}  // namespace plumbline::model

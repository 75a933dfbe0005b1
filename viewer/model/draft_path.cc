#include "viewer/model/draft_path.h"

#include <algorithm>
#include <cstdint>
#include <iterator>
#include <utility>
#include <vector>

namespace plumbline::model {
namespace {

constexpr double kBehind_s = 18;  // chosen: the band, and a little
constexpr double kAhead_s = 12;   // chosen: the ladder, and playing on until the fine path comes
constexpr double kDense_hz = 20;  // chosen: a metre or two between samples near the ground
constexpr double kSparse_hz = 2;  // chosen: small pictures and lanes keep their shape
constexpr double kJointsOnly_hz = 1e-4;
constexpr double kApart_s = 1e-4;  // samples nearer than this are one

}  // namespace

LookedAt aroundMoment(double time_s) { return {time_s - kBehind_s, time_s + kAhead_s}; }

path::Path draftPath(const fly::Solution& solution,
                     const std::function<LookedAt(const path::Path&)>& denseOf) {
    path::Path path = solution.samplePath(kJointsOnly_hz);
    const LookedAt dense = denseOf(path);
    const std::vector<path::Sample> joints = std::move(path.samples);
    if (joints.empty()) {
        path.samples.clear();
        return path;
    }
    std::vector<double> times_s;
    std::size_t joint = 0;
    const double last_s = solution.duration_s();
    const auto tick = static_cast<std::int64_t>(kDense_hz / kSparse_hz);
    for (std::int64_t i = 0; static_cast<double>(i) / kDense_hz < last_s; ++i) {
        const double time_s = static_cast<double>(i) / kDense_hz;
        if (i % tick != 0 && (time_s < dense.from_s || time_s > dense.to_s)) continue;
        while (joint < joints.size() && joints[joint].time_s < time_s - kApart_s) ++joint;
        if (joint < joints.size() && joints[joint].time_s < time_s + kApart_s) continue;
        times_s.push_back(time_s);
    }
    const std::vector<path::Sample> between = solution.sampleTimes(times_s);
    path.samples.clear();
    path.samples.reserve(joints.size() + between.size());
    std::merge(joints.begin(), joints.end(), between.begin(), between.end(),
               std::back_inserter(path.samples),
               [](const path::Sample& a, const path::Sample& b) { return a.time_s < b.time_s; });
    // Interpolation must not take the long way round.
    for (std::size_t i = 1; i < path.samples.size(); ++i) {
        if (glm::dot(path.samples[i - 1].q_SB, path.samples[i].q_SB) < 0) {
            path.samples[i].q_SB = -path.samples[i].q_SB;
        }
    }
    return path;
}

}  // namespace plumbline::model

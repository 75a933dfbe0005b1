#include "engine/margins/look.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

namespace plumbline::margins {
namespace {

constexpr double kBefore_s = 1e-7;    // a joint is the next figure's, which may begin elsewhere
constexpr double kTurning_mps = 0.2;  // chosen: less is a level line's own wave

}  // namespace

path::Path lookAt(const fly::Solution& solution, double rate_hz) {
    // Only "is it rolling" asks for the rates; exact ones would cost as much as the solving.
    path::Path path =
        solution.samplePath({.rate_hz = rate_hz, .rates = fly::Sampling::Rates::ForEye});
    std::vector<double> more_s;
    for (std::size_t i = 1; i < path.samples.size(); ++i) {
        const path::Sample &a = path.samples[i - 1], &b = path.samples[i];
        const double from_mps = a.velocity_S_mps.z, to_mps = b.velocity_S_mps.z;
        if (from_mps * to_mps < 0 && std::fabs(from_mps - to_mps) > kTurning_mps)
            more_s.push_back(a.time_s + (b.time_s - a.time_s) * from_mps / (from_mps - to_mps));
    }
    for (const path::Figure& figure : path.figures)
        if (figure.stop_s > kBefore_s) more_s.push_back(figure.stop_s - kBefore_s);
    std::sort(more_s.begin(), more_s.end());
    const std::vector<path::Sample> more = solution.sampleTimes(more_s);
    std::vector<path::Sample> all;
    all.reserve(path.samples.size() + more.size());
    std::merge(path.samples.begin(), path.samples.end(), more.begin(), more.end(),
               std::back_inserter(all),
               [](const path::Sample& a, const path::Sample& b) { return a.time_s < b.time_s; });
    path.samples = std::move(all);
    return path;
}

}  // namespace plumbline::margins

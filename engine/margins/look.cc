#include "engine/margins/look.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

namespace plumbline::margins {
namespace {

constexpr double kBefore_s = 1e-7;    // a joint is the next figure's, which may begin elsewhere
constexpr double kTurning_mps = 0.2;  // chosen: less is a level line's own wave

constexpr double kLoaded_g = 2;  // chosen: no limit is lower

double loadOf(const path::Sample& sample) {
    return std::fabs(loadFactors(sample.specific_force_B_mps2).normal_g);
}

double between(const path::Sample& a, const path::Sample& b, double part) {
    return a.time_s + part * (b.time_s - a.time_s);
}

}  // namespace

path::Path lookAt(const fly::Solution& solution, double rate_hz) {
    // Only "is it rolling" asks for the rates; exact ones would cost as much as the solving.
    path::Path path =
        solution.samplePath({.rate_hz = rate_hz, .rates = fly::Sampling::Rates::ForEye});
    std::vector<double> more_s;
    const std::vector<path::Sample>& seen = path.samples;
    for (std::size_t i = 1; i < seen.size(); ++i) {
        const double from_mps = seen[i - 1].velocity_S_mps.z, to_mps = seen[i].velocity_S_mps.z;
        if (from_mps * to_mps < 0 && std::fabs(from_mps - to_mps) > kTurning_mps)
            more_s.push_back(between(seen[i - 1], seen[i], from_mps / (from_mps - to_mps)));
    }
    for (std::size_t i = 1; i + 1 < seen.size(); ++i) {
        const double load_g = loadOf(seen[i]);
        if (load_g < kLoaded_g || load_g < loadOf(seen[i - 1]) || load_g < loadOf(seen[i + 1]))
            continue;
        for (const double part : {0.25, 0.5, 0.75}) {
            more_s.push_back(between(seen[i - 1], seen[i], part));
            more_s.push_back(between(seen[i], seen[i + 1], part));
        }
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

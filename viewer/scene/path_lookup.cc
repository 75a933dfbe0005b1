#include "viewer/scene/path_lookup.h"

#include <algorithm>

namespace plumbline::scene {

namespace {

Place between(const path::Path& path, std::size_t index, double time_s) {
    const path::Sample& a = path.samples[index];
    Place place;
    place.index = index;
    if (index + 1 >= path.samples.size() || time_s <= a.time_s) {
        place.position_S_m = a.position_S_m;
        place.velocity_S_mps = a.velocity_S_mps;
        return place;
    }
    const path::Sample& b = path.samples[index + 1];
    const double step_s = b.time_s - a.time_s;
    const double u = std::min((time_s - a.time_s) / step_s, 1.0);
    const double u2 = u * u, u3 = u2 * u;
    place.position_S_m =
        a.position_S_m + (3 * u2 - 2 * u3) * (b.position_S_m - a.position_S_m) +
        step_s * ((u3 - 2 * u2 + u) * a.velocity_S_mps + (u3 - u2) * b.velocity_S_mps);
    place.velocity_S_mps = a.velocity_S_mps + u * (b.velocity_S_mps - a.velocity_S_mps);
    return place;
}

}  // namespace

Place placeAt(const path::Path& path, double time_s) {
    return between(path, path::sampleIndexAt(path, time_s), time_s);
}

Place PathWalker::at(double time_s) {
    const std::vector<path::Sample>& samples = path_.samples;
    if (!started_) {
        started_ = true;
        index_ = path::sampleIndexAt(path_, time_s);
        return between(path_, index_, time_s);
    }
    // Gallop: double the stride until past the time, then bisect.
    std::size_t low = index_, stride = 1;
    while (low + stride < samples.size() && samples[low + stride].time_s <= time_s) {
        low += stride;
        stride *= 2;
    }
    std::size_t high = std::min(low + stride, samples.size());
    while (high - low > 1) {
        const std::size_t middle = low + (high - low) / 2;
        (samples[middle].time_s <= time_s ? low : high) = middle;
    }
    index_ = low;
    return between(path_, index_, time_s);
}

}  // namespace plumbline::scene

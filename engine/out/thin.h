#pragma once
// Fewer points of a curve, the rest within a bound of what is drawn between them.

#include <algorithm>
#include <cstddef>
#include <vector>

namespace plumbline::out {

/// Indices of the points to keep, the first and the last among them, each span as long as it may
/// be.
///
/// @param within(i, j)  true when everything between two points is near enough to what is drawn
///   from the one to the other; spans that it was not asked about are not made
template <class Within>
std::vector<std::size_t> thinned(std::size_t count, const Within& within) {
    // chosen: longer spans would be tried in vain too often
    constexpr std::size_t kLongest = 4096;
    std::vector<std::size_t> kept;
    if (count == 0) return kept;
    kept.push_back(0);
    while (kept.back() + 1 < count) {
        const std::size_t from = kept.back();
        const std::size_t most = std::min(count - 1 - from, kLongest);
        std::size_t good = 1;  // neighbours have nothing between them
        std::size_t bad = most + 1;
        for (std::size_t step = 2; step < bad; step = std::min(2 * step, most)) {
            if (!within(from, from + step)) {
                bad = step;
                break;
            }
            good = step;
            if (step == most) break;
        }
        while (bad - good > 1) {
            const std::size_t middle = good + (bad - good) / 2;
            (within(from, from + middle) ? good : bad) = middle;
        }
        kept.push_back(from + good);
    }
    return kept;
}

}  // namespace plumbline::out

#include "engine/base/nearest_word.h"

#include <algorithm>

namespace plumbline {

std::string quoted(std::string_view words) { return "\"" + std::string(words) + "\""; }

int editDistance(std::string_view a, std::string_view b) {
    // Rows of the usual table: the one being filled and the two above it.
    std::vector<int> row(b.size() + 1), above(b.size() + 1), above2(b.size() + 1);
    for (std::size_t j = 0; j <= b.size(); ++j) above[j] = static_cast<int>(j);
    for (std::size_t i = 1; i <= a.size(); ++i) {
        row[0] = static_cast<int>(i);
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const int replaced = above[j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            row[j] = std::min({replaced, above[j] + 1, row[j - 1] + 1});
            const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
            if (swapped) row[j] = std::min(row[j], above2[j - 2] + 1);
        }
        std::swap(above2, above);
        std::swap(above, row);
    }
    return above[b.size()];
}

std::string_view nearestWord(std::string_view word,
                             const std::vector<std::string_view>& candidates) {
    constexpr std::size_t kLongestWord = 32;  // chosen: no word of ours comes near; bounds the time
    if (word.empty() || word.size() > kLongestWord) return {};
    std::string_view nearest;
    int least = 0;
    for (const std::string_view candidate : candidates) {
        const int distance = editDistance(word, candidate);
        // chosen: a third of the letters wrong is still a slip, more is another word; two letters
        // with one wrong count as a slip, since units are that short.
        const int bound =
            std::max(1, static_cast<int>(std::max(word.size(), candidate.size())) / 3);
        const bool near = distance <= bound && distance < static_cast<int>(candidate.size());
        if (near && (nearest.empty() || distance < least)) {
            nearest = candidate;
            least = distance;
        }
    }
    return nearest;
}

}  // namespace plumbline

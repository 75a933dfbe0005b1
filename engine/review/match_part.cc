#include "engine/review/match_part.h"

namespace plumbline::review {

Stretch flownStretch(std::span<const int> score) {
    Stretch best;
    int best_sum = 0, sum = 0, first = 0;
    for (int i = 0; i < static_cast<int>(score.size()); ++i) {
        if (sum <= 0) {
            sum = 0;
            first = i;
        }
        sum += score[static_cast<std::size_t>(i)];
        if (sum <= best_sum) continue;
        best_sum = sum;
        best = {first, i};
    }
    return best;
}

}  // namespace plumbline::review

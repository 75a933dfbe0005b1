#include "viewer/scene/pick.h"

#include <algorithm>
#include <cmath>

#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

std::optional<double> pickPath(const path::Path& path, const Camera& camera, int width_px,
                               int height_px, double x_px, double y_px, const PickWish& wish) {
    if (path.samples.empty() || wish.to_s <= wish.from_s) return std::nullopt;
    constexpr int kPieces = 1000;  // chosen: 22 ms of a band and ladder of 22 s, then along chords
    const double step_s = (wish.to_s - wish.from_s) / kPieces;
    struct Seen {
        double x = 0, y = 0, distance_m = 0;
        bool ahead = false;
    };
    PathWalker walker(path);
    const auto seenAt = [&](double time_s) {
        Seen seen;
        seen.ahead = project(camera, width_px, height_px, walker.at(time_s).position_S_m, seen.x,
                             seen.y, seen.distance_m);
        return seen;
    };
    std::optional<double> best_s;
    double best = 0;
    Seen before = seenAt(wish.from_s);
    for (int i = 1; i <= kPieces; ++i) {
        const double time_s = wish.from_s + i * step_s;
        const Seen now = seenAt(time_s);
        if (before.ahead && now.ahead) {
            const double dx = now.x - before.x, dy = now.y - before.y;
            const double along = ((x_px - before.x) * dx + (y_px - before.y) * dy) /
                                 std::max(dx * dx + dy * dy, 1e-12);
            const double part = std::clamp(along, 0.0, 1.0);
            const double away_px =
                std::hypot(before.x + part * dx - x_px, before.y + part * dy - y_px);
            // Where stretches cross in the picture the nearer one is meant.
            constexpr double kTwiceAsFar_px = 3;  // chosen
            const double score = away_px + kTwiceAsFar_px * std::log2(before.distance_m + 1);
            if (away_px <= wish.within_px && (!best_s || score < best)) {
                best_s = time_s - (1 - part) * step_s;
                best = score;
            }
        }
        before = now;
    }
    return best_s;
}

}  // namespace plumbline::scene

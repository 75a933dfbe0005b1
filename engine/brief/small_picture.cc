#include "engine/brief/small_picture.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include "engine/brief/rungs.h"

namespace plumbline::brief {
namespace {

using page::Point;

/// Without most of the level flight before and behind what is turned or rolled.
void trim(const path::Path& path, double& start_s, double& stop_s) {
    constexpr double kTurns_radps = 0.12, kBefore_s = 1.2;  // chosen: enough to see where from
    double first_s = stop_s, last_s = start_s;
    for (std::size_t i = path::sampleIndexAt(path, start_s);
         i < path.samples.size() && path.samples[i].time_s <= stop_s; ++i) {
        const path::Sample& s = path.samples[i];
        if (s.time_s < start_s || glm::length(s.rate_B_radps) < kTurns_radps) continue;
        first_s = std::min(first_s, s.time_s);
        last_s = std::max(last_s, s.time_s);
    }
    if (last_s <= first_s) return;
    start_s = std::max(start_s, first_s - kBefore_s);
    stop_s = std::min(stop_s, last_s + kBefore_s);
}

/// Without a long way there: a dive that gathers speed for what is flown at its foot would make
/// that tiny.
void trimWayThere(const path::Path& path, double& start_s, double stop_s) {
    constexpr double kTurns_radps = 0.12, kBefore_s = 1.2;  // as above
    constexpr double kLong_s = 2.5;      // chosen: a line that is only there to get somewhere...
    constexpr double kLittle_rad = 0.6;  // ...after no more turning than into a shallow dive...
    constexpr double kRest_rad = 2.5;    // ...and before most of what is turned
    double turned_rad = 0, all_rad = 0, line_from_s = start_s, begin_s = start_s, at_begin_rad = 0;
    double before_s = start_s;
    const auto first = path::sampleIndexAt(path, start_s);
    const auto each = [&](auto take) {
        before_s = start_s;
        for (std::size_t i = first; i < path.samples.size() && path.samples[i].time_s <= stop_s;
             ++i) {
            const path::Sample& s = path.samples[i];
            if (s.time_s < start_s) continue;
            const double rate_radps = glm::length(s.rate_B_radps);
            take(s.time_s, rate_radps, rate_radps * (s.time_s - before_s));
            before_s = s.time_s;
        }
    };
    each([&](double, double, double step_rad) { all_rad += step_rad; });
    each([&](double time_s, double rate_radps, double step_rad) {
        turned_rad += step_rad;
        if (rate_radps < kTurns_radps) return;
        // A line ends here.
        if (time_s - line_from_s > kLong_s && turned_rad - at_begin_rad < kLittle_rad &&
            all_rad - turned_rad > kRest_rad) {
            begin_s = time_s - kBefore_s;
            at_begin_rad = turned_rad;
        }
        line_from_s = time_s;
    });
    start_s = std::max(start_s, begin_s);
}

Point direction(Point from, Point to) {
    const double dx = to.x_mm - from.x_mm, dy = to.y_mm - from.y_mm;
    const double length = std::max(1e-6, std::hypot(dx, dy));
    return {dx / length, dy / length};
}

}  // namespace

void drawSmallPicture(page::Document& document, const page::Box& box, const path::Path& path,
                      double start_s, double stop_s, double span_m) {
    trim(path, start_s, stop_s);
    trimWayThere(path, start_s, stop_s);
    constexpr int kSteps = 80;  // chosen: a step is a third of a millimetre
    const std::vector<Rung> rungs = rungsOf(path, start_s, stop_s, span_m, kSteps);
    double x0 = 1e300, x1 = -1e300, y0 = 1e300, y1 = -1e300;
    for (const Rung& r : rungs) {
        x0 = std::min({x0, r.left_x, r.right_x});
        x1 = std::max({x1, r.left_x, r.right_x});
        y0 = std::min({y0, r.left_y, r.right_y});
        y1 = std::max({y1, r.left_y, r.right_y});
    }
    constexpr double kLead_mm = 3.2;  // for dots and chevron, at each end
    constexpr double kLeast_m = 60;   // chosen: a short line stays a line, not a blown-up wing
    const double per_m = std::min((box.width_mm - 2 * kLead_mm) / std::max(x1 - x0, kLeast_m),
                                  (box.height_mm - 1.2) / std::max(y1 - y0, kLeast_m));
    const Point middle{box.x_mm + 0.5 * box.width_mm, box.y_mm + 0.5 * box.height_mm};
    const auto place = [&](double x, double y) {
        return Point{middle.x_mm + (x - 0.5 * (x0 + x1)) * per_m,
                     middle.y_mm + (y - 0.5 * (y0 + y1)) * per_m};
    };
    std::vector<std::size_t> order(rungs.size() - 1);
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
        return rungs[a].depth + rungs[a + 1].depth > rungs[b].depth + rungs[b + 1].depth;
    });
    for (const std::size_t i : order) {
        const Rung& a = rungs[i];
        const Rung& b = rungs[i + 1];
        const std::array<Point, 4> corners = {
            place(a.left_x, a.left_y), place(a.right_x, a.right_y), place(b.right_x, b.right_y),
            place(b.left_x, b.left_y)};
        // Seen edge on it is still a line: its edges are drawn.
        document.fill(corners, a.canopy ? page::kPaper : page::kWheelSide);
        document.line(corners[0], corners[3], {0.45, page::kInk, 0, true});
        document.line(corners[1], corners[2], {0.45, page::kInk, 0, true});
    }
    const Point first = place(rungs[0].x, rungs[0].y), second = place(rungs[2].x, rungs[2].y);
    const Point in = direction(first, second);
    for (int i = 1; i <= 3; ++i) {
        const double away_mm = 0.85 * i;
        document.disc({first.x_mm - in.x_mm * away_mm, first.y_mm - in.y_mm * away_mm},
                      0.34 - 0.07 * i, page::kInk);
    }
    const Rung& end = rungs.back();
    const Rung& before = rungs[rungs.size() - 3];
    const Point last = place(end.x, end.y);
    const Point out = direction(place(before.x, before.y), last);
    constexpr double kSize_mm = 1.2;
    const Point tip{last.x_mm + out.x_mm * kSize_mm, last.y_mm + out.y_mm * kSize_mm};
    const Point chevron[] = {{last.x_mm - out.y_mm * kSize_mm, last.y_mm + out.x_mm * kSize_mm},
                             tip,
                             {last.x_mm + out.y_mm * kSize_mm, last.y_mm - out.x_mm * kSize_mm}};
    document.path(chevron, {0.8, page::kInk});
}

}  // namespace plumbline::brief

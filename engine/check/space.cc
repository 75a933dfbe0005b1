// Floors, lines, box, obstacles, and where the flight would go if nothing more were done.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/check/checker.h"

namespace plumbline::check {
namespace {

// Spectators are thought as far beyond the ends of their line as corner markers stand: 500 ft (ICAS
// glossary).
constexpr double kCorner_m = 152.4;
constexpr double kTightAhead_m = 20;    // chosen
constexpr double kTightObstacle_m = 5;  // chosen

void floors(Checker& c, Checker::Range range) {
    Worst lowest;
    for (std::size_t i = range.first; i < range.last; ++i)
        lowest.offer(c.path.samples[i].position_S_m.z - c.site.floor_m, i);
    const auto height = [&](const Worst& w) {
        return metres(c.path.samples[w.sample].position_S_m.z);
    };
    const char* const kRaise = "raise the figure, or end its line earlier";
    c.addWorst(lowest, kTightHeight_m, "floor", "lowest point against the floor", height(lowest),
               {metres(c.site.floor_m), "site file"}, kRaise);
    for (const data::FloorArea& area : c.site.floor_areas) {
        Worst over;
        for (std::size_t i = range.first; i < range.last; ++i) {
            const Vec3& p = c.path.samples[i].position_S_m;
            // Only what is low enough to matter pays for the outline.
            if (p.z < area.floor_m + kTightHeight_m && distanceToOutline(area.outline_S_m, p) == 0)
                over.offer(p.z - area.floor_m, i);
        }
        if (over.any())
            c.addWorst(over, kTightHeight_m, "floor", "lowest point over " + area.name,
                       height(over), {metres(area.floor_m), "site file"},
                       "raise the figure there, or fly it elsewhere");
    }
    if (c.pilot.lowest_m > 0) {
        Worst own;
        for (std::size_t i = range.first; i < range.last; ++i)
            own.offer(c.path.samples[i].position_S_m.z - c.pilot.lowest_m, i);
        c.addWorst(own, kTightHeight_m, "lowest height",
                   "lowest point against the pilot's least height", height(own),
                   {metres(c.pilot.lowest_m), "pilot file"}, kRaise);
    }
}

void lines(Checker& c, Checker::Range range) {
    Worst line, box;
    for (std::size_t i = range.first; i < range.last; ++i) {
        const Vec3& p = c.path.samples[i].position_S_m;
        line.offer(p.y - c.site.crowd_line_y_m - c.site.show_line_offset_m, i);
        if (c.site.box)
            box.offer(std::min({p.x - c.site.box->x_min_m, c.site.box->x_max_m - p.x,
                                p.y - c.site.box->y_min_m, c.site.box->y_max_m - p.y,
                                c.site.box->top_m - p.z}),
                      i);
    }
    if (c.site.show_line_offset_m > 0)
        c.addWorst(line, kTightDistance_m, "show line", "nearest point to the crowd line",
                   metres(c.path.samples[line.sample].position_S_m.y - c.site.crowd_line_y_m),
                   {metres(c.site.show_line_offset_m), "site file"},
                   "fly it farther from the crowd");
    if (c.site.box)
        c.addWorst(box, kTightDistance_m, "box",
                   "nearest point to the edge of the box, or beyond it", metres(box.margin),
                   {"0 m", "site file"}, "place the figure nearer to show centre");
}

void obstacles(Checker& c, Checker::Range range) {
    for (const data::Obstacle& obstacle : c.site.obstacles) {
        const double near_m = c.site.obstacle_clearance_m + kTightObstacle_m;
        Worst nearest;
        for (std::size_t i = range.first; i < range.last; ++i) {
            const Vec3& p = c.path.samples[i].position_S_m;
            const double above_m = std::max(p.z - obstacle.top_m, 0.0);
            if (above_m > near_m) continue;
            nearest.offer(std::hypot(distanceToOutline(obstacle.outline_S_m, p), above_m) -
                              c.site.obstacle_clearance_m,
                          i);
        }
        if (nearest.any())
            c.addWorst(nearest, kTightObstacle_m, "obstacle", "nearest point to " + obstacle.name,
                       metres(nearest.margin + c.site.obstacle_clearance_m),
                       {metres(c.site.obstacle_clearance_m), "site file"},
                       "fly it elsewhere or higher there");
    }
}

// Where the flight leads in the time that it takes to react, along the ground and straight on.
void towardCrowd(Checker& c, Checker::Range range) {
    if (!(c.site.reaction_s > 0)) return;
    Worst ahead;
    for (std::size_t i = range.first; i < range.last; ++i) {
        const path::Sample& s = c.path.samples[i];
        const Vec3& v = s.velocity_S_mps;
        if (!(v.y < 0)) continue;
        const Vec3 then = s.position_S_m + c.site.reaction_s * v;
        // Where the track meets the crowd line, or is by then.
        const double to_line_s = (c.site.crowd_line_y_m - s.position_S_m.y) / v.y;
        const double x = to_line_s >= 0 && to_line_s < c.site.reaction_s
                             ? s.position_S_m.x + to_line_s * v.x
                             : then.x;
        if (x < c.site.crowd_x_min_m - kCorner_m || x > c.site.crowd_x_max_m + kCorner_m) continue;
        ahead.offer(then.y - c.site.crowd_line_y_m, i);
    }
    if (ahead.any())
        c.addWorst(ahead, kTightAhead_m, "toward the crowd",
                   "flying straight on for " + formatFixed(c.site.reaction_s, 0) +
                       " s, it would come to the crowd line within",
                   metres(ahead.margin), {"0 m", "site file"},
                   "turn away earlier, or fly it farther out");
}

}  // namespace

void checkSpace(Checker& checker) {
    for (const Checker::Range& range : checker.figures) {
        floors(checker, range);
        lines(checker, range);
        obstacles(checker, range);
        towardCrowd(checker, range);
    }
}

}  // namespace plumbline::check

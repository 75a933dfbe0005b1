#include "viewer/scene/fan.h"

#include <algorithm>

namespace plumbline::scene {
namespace {

constexpr glm::vec4 kThin{0.90F, 0.87F, 0.79F, 0.38F};
constexpr std::size_t kMostPoints = 120;  // chosen: a loop stays round, a long leg costs no more

}  // namespace

void addFan(const Fan& fan, const path::Path& plan, double time_s, DrawList& list) {
    std::size_t figure = 0;
    while (figure + 1 < plan.figures.size() && plan.figures[figure + 1].start_s <= time_s) ++figure;
    for (const auto& way : fan) {
        if (!way || figure + 1 >= way->begins.size()) continue;
        const std::size_t from = way->begins[figure], to = way->begins[figure + 1];
        if (to < from + 2) continue;
        const std::size_t step = (to - from + kMostPoints - 1) / kMostPoints;
        Polyline line;
        line.colour = kThin;
        line.width_px = 0.9F;
        line.points_S_m.reserve((to - from) / step + 2);
        for (std::size_t i = from; i < to; i += step)
            line.points_S_m.emplace_back(way->places_S_m[i]);
        line.points_S_m.emplace_back(way->places_S_m[to - 1]);
        list.lines.push_back(std::move(line));
    }
}

}  // namespace plumbline::scene

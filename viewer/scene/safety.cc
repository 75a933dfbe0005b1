#include "viewer/scene/safety.h"

#include "engine/base/number_text.h"

namespace plumbline::scene {
namespace {

constexpr glm::vec4 kEnough{0.90F, 0.87F, 0.79F, 1};
constexpr glm::vec4 kTooLow{1.0F, 0.42F, 0.58F, 1};
constexpr glm::vec4 kReach{0.98F, 0.72F, 0.16F, 0.8F};
// chosen: seen while one climbs to the top and a little beyond
constexpr double kBefore_s = 12, kAfter_s = 4;
constexpr double kArm_m = 9;
constexpr std::size_t kCorners = 48;

}  // namespace

void addGates(const std::vector<check::Gate>& gates, double time_s, DrawList& list) {
    for (const check::Gate& gate : gates) {
        if (time_s < gate.time_s - kBefore_s || time_s > gate.time_s + kAfter_s) continue;
        const Vec3& top = gate.position_S_m;
        const Vec3 at(top.x, top.y, gate.complete_m);
        const bool enough = top.z >= gate.complete_m;
        const auto draw = [&](const Vec3& a, const Vec3& b, float dash_m) {
            Polyline line;
            line.points_S_m = {a, b};
            line.colour = enough ? kEnough : kTooLow;
            line.width_px = 1.6F;
            line.halo_px = 3;
            line.dash_m = dash_m;
            list.lines.push_back(std::move(line));
        };
        draw(at - Vec3(kArm_m, 0, 0), at + Vec3(kArm_m, 0, 0), 0);
        draw(at - Vec3(0, kArm_m, 0), at + Vec3(0, kArm_m, 0), 0);
        draw(at, top, 4);
        Label label;
        label.position_S_m = at;
        label.text = "Gate";
        label.height_m = check::shownLeast_m(gate.complete_m);
        label.least = true;
        label.quiet = "top";
        label.quiet_m = top.z;
        list.labels.push_back(std::move(label));
    }
}

void addReach(const check::Glide& glide, const path::Sample& now, DrawList& list) {
    Polyline line;
    line.points_S_m = glide.outline(now, kCorners);
    if (line.points_S_m.empty()) return;
    line.points_S_m.push_back(line.points_S_m.front());
    line.colour = kReach;
    line.width_m = 2;
    line.dash_m = 10;
    line.on_ground = true;
    list.lines.push_back(std::move(line));
}

}  // namespace plumbline::scene

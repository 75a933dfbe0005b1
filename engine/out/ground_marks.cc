#include "engine/out/ground_marks.h"

#include <cmath>

namespace plumbline::out {

namespace {

constexpr double kHalfShowLine_m = 1000;  // chosen: where a site has no box
constexpr double kStripWidth_m = 20;      // chosen: files do not tell

/// A rectangle lying along a true bearing.
std::vector<Vec3> rectangle(const data::Site& site, const Vec3& centre_S_m, double bearing_rad,
                            double length_m, double width_m) {
    // Bearings run clockwise, angles about z the other way.
    const double angle_rad = site.show_line_bearing_rad - bearing_rad;
    const Vec3 along(std::cos(angle_rad), std::sin(angle_rad), 0);
    const Vec3 across(-along.y, along.x, 0);
    std::vector<Vec3> corners_S_m;
    for (const auto& [u, v] :
         {std::pair(-1, -1), std::pair(1, -1), std::pair(1, 1), std::pair(-1, 1)})
        corners_S_m.push_back(centre_S_m + u * length_m / 2 * along + v * width_m / 2 * across);
    return corners_S_m;
}

std::string named(const char* what, const std::string& name) {
    return name.empty() ? std::string(what) : name;
}

}  // namespace

std::vector<GroundMark> groundMarks(const data::Site& site) {
    using Kind = GroundMark::Kind;
    std::vector<GroundMark> marks;
    const double left_m = site.box ? site.box->x_min_m : -kHalfShowLine_m;
    const double right_m = site.box ? site.box->x_max_m : kHalfShowLine_m;
    marks.push_back({Kind::ShowLine, "Show line", {Vec3(left_m, 0, 0), Vec3(right_m, 0, 0)}});
    const double crowd_y_m = site.crowd_line_y_m;
    marks.push_back(
        {Kind::CrowdLine,
         "Crowd line",
         {Vec3(site.crowd_x_min_m, crowd_y_m, 0), Vec3(site.crowd_x_max_m, crowd_y_m, 0)}});
    if (site.box) {
        const data::Box& box = *site.box;
        marks.push_back({Kind::Box,
                         "Box",
                         {Vec3(box.x_min_m, box.y_min_m, 0), Vec3(box.x_max_m, box.y_min_m, 0),
                          Vec3(box.x_max_m, box.y_max_m, 0), Vec3(box.x_min_m, box.y_max_m, 0)}});
    }
    if (site.runway) {
        const data::Runway& runway = *site.runway;
        std::string name = "Runway";
        if (!runway.low_mark.empty()) name += " " + runway.low_mark + "/" + runway.high_mark;
        marks.push_back({Kind::Runway, name,
                         rectangle(site, runway.centre_S_m, runway.bearing_rad, runway.length_m,
                                   runway.width_m)});
    }
    for (const data::LandingStrip& strip : site.strips)
        marks.push_back(
            {Kind::Strip, named("Strip", strip.name),
             rectangle(site, strip.centre_S_m, strip.bearing_rad, strip.length_m, kStripWidth_m)});
    for (const data::Obstacle& obstacle : site.obstacles)
        if (obstacle.outline_S_m.size() >= 3)
            marks.push_back({Kind::Obstacle, named("Obstacle", obstacle.name), obstacle.outline_S_m,
                             obstacle.top_m});
    return marks;
}

}  // namespace plumbline::out

// The field from above and from the crowd's side, with the whole routine over it.

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/brief/director_sheet.h"
#include "engine/brief/head.h"

namespace plumbline::brief {
namespace {

using page::Align;
using page::Document;
using page::Point;

constexpr double kMostMap_mm = 62, kMostSide_mm = 44;
constexpr double kBetween_mm = 6.5;  ///< map and heights, with the words over these

struct Extent {
    double x0, x1, y0, y1, top;
};

/// All that is flown, crowd, runway and box.
Extent extentOf(const path::Path& path, const data::Site& site) {
    Extent e{site.crowd_x_min_m, site.crowd_x_max_m, site.crowd_line_y_m - 40, 60, 100};
    const auto take = [&e](double x, double y) {
        e.x0 = std::min(e.x0, x);
        e.x1 = std::max(e.x1, x);
        e.y0 = std::min(e.y0, y);
        e.y1 = std::max(e.y1, y);
    };
    for (const path::Sample& s : path.samples) {
        take(s.position_S_m.x, s.position_S_m.y);
        e.top = std::max(e.top, s.position_S_m.z);
    }
    for (const data::Obstacle& obstacle : site.obstacles)
        for (const Vec3& corner : obstacle.outline_S_m) take(corner.x, corner.y);
    const double margin = 0.02 * (e.x1 - e.x0);
    // Above, room for the name of what stands there.
    return {e.x0 - margin, e.x1 + margin, e.y0 - margin, e.y1 + 1.6 * margin, 1.08 * e.top};
}

void drawRunway(Document& document, const data::Runway& runway, double bearing_rad, auto place) {
    // Bearings go clockwise, angles in site axes the other way.
    const double angle = bearing_rad - runway.bearing_rad;
    const Vec3 along(std::cos(angle), std::sin(angle), 0), beside(-along.y, along.x, 0);
    std::vector<Point> corners;
    for (const auto& [l, w] : {std::pair{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}})
        corners.push_back(
            place(runway.centre_S_m + l * runway.length_m * along + w * runway.width_m * beside));
    document.fill(corners, page::Colour{0.8, 0.8, 0.78});
}

/// A length that a scale can have: 1, 2 or 5 times a power of ten.
double roundLength(double most_m) {
    const double power = std::pow(10, std::floor(std::log10(most_m)));
    return power * (most_m >= 5 * power ? 5 : most_m >= 2 * power ? 2 : 1);
}

void drawTrack(Document& document, const path::Path& path, auto place) {
    constexpr std::size_t kEvery = 10;  // of fifty a second: chosen, a fraction of a millimetre
    std::vector<Point> track;
    for (std::size_t i = 0; i < path.samples.size(); i += kEvery)
        track.push_back(place(path.samples[i]));
    if (track.size() > 1) document.path(track, {0.45, page::kInk, 0, true});
}

/// Words near their places, moved until they are clear of each other, with paper behind them.
class Labels {
public:
    explicit Labels(Document& document) : document_(document) {}
    /// @param middle   of the words' base line
    /// @param step_mm  down the page, for as long as other words are in the way
    /// @param least_mm, most_mm  beyond these on the page they are left out
    void put(Point middle, const page::Text& text, double step_mm, double least_mm = 0,
             double most_mm = 1e9) {
        const double width_mm = document_.widthOf_mm(text) + 0.8;
        page::Box box{middle.x_mm - 0.5 * width_mm, middle.y_mm - 2.1, width_mm, 2.6};
        constexpr int kTries = 12;
        for (int tries = 0; tries < kTries && !isClear(box); ++tries) box.y_mm += step_mm;
        if (box.y_mm + 2.1 < least_mm || box.bottom_mm() > most_mm) return;
        taken_.push_back(box);
        document_.fill(box, page::kPaper);
        document_.words({box.x_mm + 0.4, box.y_mm + 2.1}, text);
    }

private:
    bool isClear(const page::Box& box) const {
        return std::none_of(taken_.begin(), taken_.end(), [&](const page::Box& other) {
            return box.x_mm < other.right_mm() && other.x_mm < box.right_mm() &&
                   box.y_mm < other.bottom_mm() && other.y_mm < box.bottom_mm();
        });
    }

    Document& document_;
    std::vector<page::Box> taken_;
};

page::Text numberOf(const Act& act) { return {{std::to_string(act.number), strong(kLeast_pt)}}; }

void drawObstacle(Document& document, Labels& labels, const data::Obstacle& obstacle,
                  double right_mm, auto place, units::DisplayUnits units) {
    if (obstacle.outline_S_m.empty()) return;
    std::vector<Point> corners;
    Point name{1e9, 1e9};
    for (const Vec3& corner : obstacle.outline_S_m) {
        corners.push_back(place(corner));
        name.x_mm = std::min(name.x_mm, corners.back().x_mm);
        name.y_mm = std::min(name.y_mm, corners.back().y_mm);
    }
    document.fill(corners, page::kInk);
    document.disc(corners.front(), 0.5, page::kInk);  // a mast is less than a dot
    const page::Text words = {
        {obstacle.name + " " + units::formatHeight(obstacle.top_m, units), quiet(kLeast_pt)}};
    const double half_mm = 0.5 * document.widthOf_mm(words);
    const double middle_mm = std::min(name.x_mm + half_mm, right_mm - half_mm - 0.5);
    labels.put({middle_mm, name.y_mm - 1.2}, words, -2.6);
}

}  // namespace

double drawField(Document& document, Point top_left, double width_mm, double most_mm,
                 const Outline& outline, const data::Site& site, units::DisplayUnits units) {
    constexpr double kMapShare = 0.55;  // chosen: where both are squeezed
    const Extent e = extentOf(outline.path, site);
    const double per_m = std::min(width_mm / (e.x1 - e.x0),
                                  std::min(kMostMap_mm, kMapShare * most_mm) / (e.y1 - e.y0));
    const double map_mm = per_m * (e.y1 - e.y0);
    const double left_mm = top_left.x_mm + 0.5 * (width_mm - per_m * (e.x1 - e.x0));
    const auto place = [&](const Vec3& at) {
        return Point{left_mm + per_m * (at.x - e.x0), top_left.y_mm + per_m * (e.y1 - at.y)};
    };
    const page::Box map{top_left.x_mm, top_left.y_mm, width_mm, map_mm};
    const page::Style small = quiet(kLeast_pt);
    Labels labels(document);
    document.within(map, [&] {
        if (site.box) {
            const data::Box& b = *site.box;
            const Point corners[] = {
                place({b.x_min_m, b.y_min_m, 0}), place({b.x_max_m, b.y_min_m, 0}),
                place({b.x_max_m, b.y_max_m, 0}), place({b.x_min_m, b.y_max_m, 0})};
            document.path(corners, {0.6, page::kQuiet, 2}, true);
        }
        if (site.runway) drawRunway(document, *site.runway, site.show_line_bearing_rad, place);
        for (const data::LandingStrip& strip : site.strips)
            drawRunway(document, {strip.centre_S_m, strip.bearing_rad, strip.length_m, 20, "", ""},
                       site.show_line_bearing_rad, place);
        drawTrack(document, outline.path,
                  [&](const path::Sample& s) { return place(s.position_S_m); });
        for (const data::Obstacle& obstacle : site.obstacles)
            drawObstacle(document, labels, obstacle, map.right_mm(), place, units);
        const double line_y = site.crowd_line_y_m;
        document.line(place({site.crowd_x_min_m, line_y, 0}),
                      place({site.crowd_x_max_m, line_y, 0}), {2.4, page::kInk});
        document.words(
            place({0.5 * (site.crowd_x_min_m + site.crowd_x_max_m), line_y - 2.9 / per_m, 0}),
            {{"crowd", strong(kLeast_pt)}}, Align::Centre);
        const Point centre = place(Vec3(0));
        document.line({centre.x_mm - 1.8, centre.y_mm}, {centre.x_mm + 1.8, centre.y_mm},
                      {1, page::kInk});
        document.line({centre.x_mm, centre.y_mm - 1.8}, {centre.x_mm, centre.y_mm + 1.8},
                      {1, page::kInk});
        for (const data::LandingStrip& strip : site.strips) {
            const Point at = place(strip.centre_S_m);
            labels.put({at.x_mm, at.y_mm - 1.6}, {{strip.name, small}}, -2.6);
        }
    });
    for (const Act& act : outline.acts) {
        // What leaves the line is numbered where it is farthest from it.
        constexpr double kLeaves_m = 100;
        const Vec3 start = path::sampleAt(outline.path, act.start_s).position_S_m;
        Vec3 far = start;
        for (std::size_t i = path::sampleIndexAt(outline.path, act.start_s);
             i < outline.path.samples.size() && outline.path.samples[i].time_s <= act.stop_s; ++i) {
            const Vec3& at = outline.path.samples[i].position_S_m;
            if (std::abs(at.y - start.y) > std::abs(far.y - start.y)) far = at;
        }
        if (std::abs(far.y - start.y) < kLeaves_m) continue;
        const Point at = place(far);
        labels.put({at.x_mm, at.y_mm + 0.9}, numberOf(act), 2.6, map.y_mm, map.bottom_mm());
    }
    // North and scale in the lower corners, beside the crowd.
    const double north = site.show_line_bearing_rad;  // angle of north from +x, in site axes
    const Point pin{map.right_mm() - 4, map.bottom_mm() - 3.5};
    const Point tip{pin.x_mm + 4 * std::cos(north), pin.y_mm - 4 * std::sin(north)};
    document.line({2 * pin.x_mm - tip.x_mm, 2 * pin.y_mm - tip.y_mm}, tip, {0.8, page::kInk});
    document.disc(tip, 0.5, page::kInk);
    document.words({pin.x_mm - 6.5, pin.y_mm + 1}, {{"north", small}}, Align::Right);
    const double length_m = roundLength(0.16 * (e.x1 - e.x0));
    const Point from{map.x_mm, map.bottom_mm() - 1}, to{map.x_mm + per_m * length_m, from.y_mm};
    document.line(from, to, {1, page::kInk});
    document.words({to.x_mm + 1.5, to.y_mm + 0.9}, {{units::formatDistance(length_m), small}});

    // From the side, heights twice as large where there is room.
    const double side_top_mm = map.bottom_mm() + 3.5;
    const double side_mm = std::min(kMostSide_mm, most_mm - map_mm - kBetween_mm);
    const double up_per_m = std::min(2 * per_m, side_mm / e.top);
    const double ground_mm = side_top_mm + 3 + up_per_m * e.top;
    const auto side = [&](const Vec3& at) {
        return Point{left_mm + per_m * (at.x - e.x0), ground_mm - up_per_m * at.z};
    };
    document.words({top_left.x_mm, side_top_mm},
                   {{"Heights as the crowd sees them", strong(8)},
                    {"  drawn " + formatFixed(up_per_m / per_m, 1) +
                         " times as large; numbers stand at the tops of the figures",
                     quiet(kLeast_pt)}});
    double step_m = units == units::DisplayUnits::Feet ? 500 * 0.3048 : 200;
    constexpr double kLabel_mm = 3.2;  // what the words of a line need
    while (step_m * up_per_m < kLabel_mm && step_m < e.top) step_m *= 2;
    for (double height_m = step_m; height_m < e.top; height_m += step_m) {
        const double y_mm = ground_mm - up_per_m * height_m;
        document.line({map.x_mm, y_mm}, {map.right_mm(), y_mm}, {0.3, page::kHairline});
    }
    if (site.floor_m > 0) {
        const double y_mm = ground_mm - up_per_m * site.floor_m;
        document.line({map.x_mm, y_mm}, {map.right_mm(), y_mm}, {0.8, page::kLimit, 0.9});
    }
    drawTrack(document, outline.path, [&](const path::Sample& s) { return side(s.position_S_m); });
    document.line({map.x_mm, ground_mm}, {map.right_mm(), ground_mm}, {0.8, page::kInk});
    Labels tops(document);
    for (double height_m = step_m; height_m < e.top; height_m += step_m) {
        const page::Text words = {{units::formatHeight(height_m, units), small}};
        tops.put({map.right_mm() - 0.5 * document.widthOf_mm(words),
                  ground_mm - up_per_m * height_m - 0.7},
                 words, -2.6);
    }
    for (const Act& act : outline.acts) {
        Vec3 top{0, 0, -1e9};
        for (std::size_t i = path::sampleIndexAt(outline.path, act.start_s);
             i < outline.path.samples.size() && outline.path.samples[i].time_s <= act.stop_s; ++i)
            if (outline.path.samples[i].position_S_m.z > top.z)
                top = outline.path.samples[i].position_S_m;
        // What stays low would only cover the line; the table has it.
        if (top.z < act.lowest_m + 60) continue;
        const Point at = side(top);
        tops.put({at.x_mm, at.y_mm - 0.8}, numberOf(act), -2.6, side_top_mm + 3.2);
    }
    return ground_mm - top_left.y_mm;
}

}  // namespace plumbline::brief

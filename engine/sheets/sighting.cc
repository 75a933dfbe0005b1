#include "engine/sheets/sighting.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/data/sighting_frame.h"
#include "engine/page/table.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/wording.h"
#include "engine/units/units.h"

namespace plumbline::sheets {

using page::Align;
using page::Box;
using page::Document;
using page::Point;
using page::Table;
using page::Weight;

namespace {

struct BarFor {
    const char* line;
    double climb_rad;
};
constexpr std::array<BarFor, 4> kBars = {BarFor{"level", 0}, BarFor{"45\u00b0 up", kPi / 4},
                                         BarFor{"vertical", kPi / 2},
                                         BarFor{"45\u00b0 down", -kPi / 4}};

/// A direction by its angle from a line to the right, upwards positive.
Point along(Point from, double angle_rad, double length_mm) {
    return {from.x_mm + length_mm * std::cos(angle_rad),
            from.y_mm - length_mm * std::sin(angle_rad)};
}

double drawMeasures(Document& document, double top_mm, const data::FrameShape& shape,
                    double zero_lift_rad, double doubt_rad) {
    drawTitle(document, {kMargin_mm, top_mm}, "Bars", "from the datum, front end up +");
    Table bars(document, {kMargin_mm, top_mm + 2},
               {{"lies on the horizon when", 44, Align::Left}, {"angle", 36, Align::Right}},
               {5.4, 8.4, 7.2});
    bars.head();
    for (const BarFor& bar : kBars)
        bars.row({{{bar.line, bars.style()}},
                  {{within(data::barAngle_rad(bar.climb_rad, zero_lift_rad) / units::kDegree_rad,
                           doubt_rad / units::kDegree_rad, 1, true) +
                        "\u00b0",
                    bars.style(Weight::SemiBold)}}});
    const double x_mm = kMargin_mm + 92;
    drawTitle(document, {x_mm, top_mm}, "Lengths, mm", "each wing; the right is the mirror image");
    Table lengths(document, {x_mm, top_mm + 2}, {{"", 62, Align::Left}, {"", 30, Align::Right}},
                  {5.4, 8.4, 7.2});
    const auto row = [&](const std::string& what, double length_m) {
        lengths.row({{{what, lengths.style()}},
                     {{number(1000 * length_m, 0), lengths.style(Weight::SemiBold)}}});
    };
    row("each bar, whole", shape.bar_m);
    row("hub out from the middle of the aircraft", -shape.hub_B_m.y);
    row(shape.hub_B_m.x < 0 ? "hub behind the centre of gravity"
                            : "hub ahead of the centre of gravity",
        std::fabs(shape.hub_B_m.x));
    row("hub above the centre of gravity", -shape.hub_B_m.z);
    const char* names[] = {"leg to the front", "leg to the rear", "leg outwards"};
    for (std::size_t i = 0; i < 3; ++i) row(names[i], glm::length(shape.feet_m[i]));
    return std::max(bars.bottom_mm(), lengths.bottom_mm());
}

/// The middle of the frame in its own size, seen from the seat over the left wing.
void drawTemplate(Document& document, const Box& box, double zero_lift_rad) {
    const Point hub{box.x_mm + 0.5 * box.width_mm, box.y_mm + 0.5 * box.height_mm};
    const double reach_mm = 0.5 * box.height_mm - 5;
    document.line(along(hub, kPi, 0.5 * box.width_mm), along(hub, 0, 0.5 * box.width_mm),
                  {0.6, page::kQuiet, 3});
    document.words({box.right_mm(), hub.y_mm + 3.6}, {{"datum, to the nose", quiet(7.2)}},
                   Align::Right);
    for (const BarFor& bar : kBars) {
        const double angle = data::barAngle_rad(bar.climb_rad, zero_lift_rad);
        document.line(along(hub, angle, reach_mm), along(hub, angle + kPi, reach_mm),
                      {0.7, page::kInk});
        const Point at = along(hub, angle, reach_mm + 1.5);
        const bool upright = std::fabs(angle) > 80 * units::kDegree_rad;
        const bool flat = std::fabs(angle) < 10 * units::kDegree_rad;
        document.words({at.x_mm + 0.8, at.y_mm + (upright ? 0.4
                                                  : flat  ? -1.2
                                                          : 1)},
                       {{bar.line, strong(8)}});
    }
    document.disc(hub, 0.9, page::kPaper);
    document.disc(hub, 0.5, page::kInk);
    document.line(along(hub, 0, 2.5), along(hub, kPi, 2.5), {0.3, page::kInk});
    document.line(along(hub, kPi / 2, 2.5), along(hub, -kPi / 2, 2.5), {0.3, page::kInk});
}

/// A hundred millimetres, to be checked with a ruler.
void drawScaleBar(Document& document, Point left) {
    document.fill(Box{left.x_mm, left.y_mm, kScaleBar_mm, 1.2}, page::kInk);
    for (int i = 0; i <= 10; ++i) {
        const double x = left.x_mm + kScaleBar_mm / 10 * i;
        document.line({x, left.y_mm + 1.2}, {x, left.y_mm + (i % 5 == 0 ? 4.2 : 2.8)},
                      {0.4, page::kInk});
    }
    document.words({left.x_mm + kScaleBar_mm + 4, left.y_mm + 2.8},
                   {{"100 mm: print at 100 %, not fitted to the page", plain(8)}});
}

/// Up a vertical, from the seat over the left wing: the nose is to the right, the ground to the
/// left.
void drawSeen(Document& document, const Box& box, double to_canopy_rad, const std::string& words,
              const std::string& below) {
    const Point hub{box.x_mm + 0.5 * box.width_mm, box.y_mm + 0.5 * box.height_mm};
    const double half_mm = 0.44 * box.height_mm;
    document.within(box, [&] {
        // With the nose too far towards the wheels the horizon's upper end leans away from it.
        const double lean = kPi / 2 - to_canopy_rad;
        const Point top = along(hub, lean, box.height_mm),
                    bottom = along(hub, lean + kPi, box.height_mm);
        const Point ground[] = {
            top, bottom, {box.x_mm - 50, bottom.y_mm}, {box.x_mm - 50, top.y_mm}};
        document.fill(ground, {0.9, 0.9, 0.88});
        document.line(top, bottom, {1, page::kInk, 3});
        document.line({hub.x_mm, hub.y_mm - half_mm}, {hub.x_mm, hub.y_mm + half_mm},
                      {2.4, page::kDo});
        document.line({hub.x_mm, hub.y_mm - half_mm}, {hub.x_mm, hub.y_mm + half_mm},
                      {0.5, page::kInk});
        document.disc(hub, 0.9, page::kInk);
    });
    const Point corners[] = {{box.x_mm, box.y_mm},
                             {box.right_mm(), box.y_mm},
                             {box.right_mm(), box.bottom_mm()},
                             {box.x_mm, box.bottom_mm()}};
    document.path(corners, {0.4, page::kHairline}, true);
    document.words({hub.x_mm, box.bottom_mm() + 4.4}, {{words, strong(8.2)}}, Align::Centre);
    document.words({hub.x_mm, box.bottom_mm() + 8}, {{below, quiet(7.4)}}, Align::Centre);
}

/// Where the axis lies and how it is known.
std::string axisWords(double zero_lift_rad, const std::optional<review::ZeroLift>& told) {
    const double degrees = zero_lift_rad / units::kDegree_rad;
    const double doubt = told ? 2 * told->sigma_rad / units::kDegree_rad : 0;
    std::string text = "Zero-lift axis " + within(std::fabs(degrees), doubt, 1) + "\u00b0 " +
                       (degrees >= 0 ? "below" : "above") + " the datum, ";
    text += told ? "from " + std::to_string(told->verticals) +
                       " verticals of a flight (\u00b1 holds 95 of 100 errors that are told of)"
                 : "as the aircraft file has it";
    return text;
}

}  // namespace

Expected<std::string, std::string> sightingPdf(const data::Aircraft& aircraft,
                                               const std::optional<review::ZeroLift>& told,
                                               const std::string& revision, const Print& print) {
    const double zero_lift_rad = told ? told->aoa_rad : aircraft.aero.zero_lift_aoa_rad;
    const data::FrameShape shape = data::frameShapeOf(aircraft);
    Document document(print.paper, *print.fonts, aircraft.name + ": sighting frame");
    double y = drawHead(
        document, {"Sighting frame", axisWords(zero_lift_rad, told), aircraft.name, "scale 1:1"});
    y = drawMeasures(document, y + 8, shape, zero_lift_rad, told ? 2 * told->sigma_rad : 0) + 7;
    const double width_mm = document.size().width_mm - 2 * kMargin_mm;
    const double foot_mm = footTop(document);
    constexpr double kSeen_mm = 36, kBelow_mm = 62;
    drawTitle(document, {kMargin_mm, y}, "Template",
              "the hub as seen from the seat over the left wing");
    const Box room{kMargin_mm, y + 2, width_mm, foot_mm - kBelow_mm - 10 - y};
    drawTemplate(document, room, zero_lift_rad);
    drawScaleBar(document, {kMargin_mm, room.bottom_mm() + 2.5});
    const double seen_top_mm = foot_mm - kBelow_mm + 7;
    drawTitle(document, {kMargin_mm, seen_top_mm - 2.2}, "On the way up",
              "bar saffron, horizon dashed, ground grey, nose to the right; angles true");
    const double each_mm = (width_mm - 10) / 3;
    const struct {
        double to_canopy_rad;
        const char *words, *below;
    } seen[] = {
        {-2 * units::kDegree_rad, "2\u00b0 too far towards the wheels", "pull until they meet"},
        {0, "Vertical", "the bar lies on the horizon"},
        {2 * units::kDegree_rad, "2\u00b0 too far towards the canopy", "push until they meet"}};
    for (std::size_t i = 0; i < 3; ++i)
        drawSeen(
            document,
            {kMargin_mm + static_cast<double>(i) * (each_mm + 5), seen_top_mm, each_mm, kSeen_mm},
            seen[i].to_canopy_rad, seen[i].words, seen[i].below);
    document.words(
        {kMargin_mm, foot_mm + 0.5},
        {{"The datum is the x axis of the aircraft file. At 400 m the true horizon lies 0.6\u00b0 "
          "below the bar. Check the mounting on the ground before flight.",
          quiet(7.2)}});
    drawFoot(document, revision, 1, 1);
    return document.finish();
}

}  // namespace plumbline::sheets

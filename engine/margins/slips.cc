// One flight's errors put into the plan's inputs.

#include <algorithm>
#include <cmath>
#include <variant>

#include "engine/margins/plan.h"

namespace plumbline::margins {
namespace {

// chosen: a slip of the hand ends before this
constexpr double kLeastLoad_g = 0.3;
constexpr double kLeastSpeed_mps = 1;
constexpr double kLeastLine_m = 1;
constexpr double kLeastLine_s = 0.05;
constexpr double kLeastScale = 0.5;

double slippedLoad(double load_g, double slip_g) {
    return load_g > 0 ? std::max(load_g + slip_g, std::min(load_g, kLeastLoad_g)) : load_g;
}

/// Radius flown by a hand that pulls so much more or less than the load that the circle needs; the
/// load is taken as v^2 / (g r), its mean over an upright circle.
double slippedRadius(double radius_m, double speed_mps, double slip_g) {
    if (!(radius_m > 0)) return radius_m;
    const double load_g = std::max(speed_mps * speed_mps / (kGravity_mps2 * radius_m), 1.0);
    return radius_m / std::max(1 + slip_g / load_g, kLeastScale);
}

constexpr double kDrop_m = 20;  // chosen: less is no way down

/// On a steep way down to the ground the pilot goes by height: the line ends there, off by so much.
void slipExtent(text::Extent& extent, const ElementEnd& end, double late_s, double low_m) {
    if (end.last_down) {
        const bool by_height = extent.kind != text::Extent::Kind::Until ||
                               extent.until.kind == text::Condition::Kind::Height;
        if (by_height) {
            extent.kind = text::Extent::Kind::Until;
            extent.duration_s = 0;
            extent.until = {text::Condition::Kind::Height, end.height_m - low_m, "until height"};
            return;
        }
    }
    switch (extent.kind) {
        case text::Extent::Kind::Distance:
            extent.distance_m =
                std::max(extent.distance_m + late_s * glm::length(end.velocity_S_mps),
                         std::min(extent.distance_m, kLeastLine_m));
            return;
        case text::Extent::Kind::Duration:
            extent.duration_s =
                std::max(extent.duration_s + late_s, std::min(extent.duration_s, kLeastLine_s));
            return;
        case text::Extent::Kind::Until:
            break;
    }
    text::Condition& until = extent.until;
    switch (until.kind) {
        case text::Condition::Kind::X:
            until.value += late_s * end.velocity_S_mps.x;
            break;
        case text::Condition::Kind::Y:
            until.value += late_s * end.velocity_S_mps.y;
            break;
        case text::Condition::Kind::Height:
            until.value += late_s * end.velocity_S_mps.z;
            break;
        case text::Condition::Kind::Speed:
            until.value = std::max(until.value + late_s * end.speed_gain_mps2,
                                   std::min(until.value, kLeastSpeed_mps));
            break;
    }
}

struct Hand {
    double load_g, late_s, low_m, roll_scale, speed_mps;
    const ElementEnd& end;

    void slip(text::Rolls& rolls) const {
        for (text::RollPart& part : rolls.parts) part.rate_radps *= roll_scale;
    }
    void operator()(text::Line& line) const {
        slipExtent(line.extent, end, late_s, low_m);
        slip(line.rolls);
    }
    void operator()(text::Arc& arc) const {
        if (!arc.floating) arc.load_g = slippedLoad(arc.load_g, load_g);
        arc.radius_m = slippedRadius(arc.radius_m, speed_mps, load_g);
        slip(arc.rolls);
    }
    void operator()(text::Polygon& polygon) const {
        polygon.load_g = slippedLoad(polygon.load_g, load_g);
        polygon.radius_m = slippedRadius(polygon.radius_m, speed_mps, load_g);
        polygon.side_m = std::max(polygon.side_m + late_s * speed_mps, kLeastLine_m);
    }
    void operator()(text::Turn& turn) const {
        // A turn by bank is held level whatever the hand does; a load below 1 g holds none.
        if (!turn.bank_rad && turn.load_g > 1)
            turn.load_g = std::max(turn.load_g + load_g, 1 + 0.5 * (turn.load_g - 1));
    }
    void operator()(text::Pivot& pivot) const {
        pivot.duration_s = std::max(pivot.duration_s / roll_scale, kLeastLine_s);
    }
    template <class Other>
    void operator()(Other&) const {}
};

/// What is left of the error at a figure's start, and a new one.
void startUnlikePlan(const fly::FigureStart& planned, const Draw& draw, std::size_t figure,
                     const data::Spread& spread, fly::FigureStart& start) {
    const double left = spread.left_frac;
    start.position_S_m = planned.position_S_m + left * (start.position_S_m - planned.position_S_m) +
                         Vec3(spread.along_m * draw.of(figure, Figurewise::Along),
                              spread.across_m * draw.of(figure, Figurewise::Across),
                              spread.height_m * draw.of(figure, Figurewise::Height));
    start.airspeed_mps =
        std::max(planned.airspeed_mps + left * (start.airspeed_mps - planned.airspeed_mps) +
                     spread.entry_speed_mps * draw.of(figure, Figurewise::EntrySpeed),
                 kLeastScale * planned.airspeed_mps);
    const Vec3& now = start.air_velocity_S_mps;
    const Vec3& then = planned.air_velocity_S_mps;
    double error_rad = 0;
    // Up and down there is no heading.
    if (std::hypot(now.x, now.y) > 0.2 * glm::length(now) &&
        std::hypot(then.x, then.y) > 0.2 * glm::length(then))
        error_rad = std::atan2(then.x * now.y - then.y * now.x, then.x * now.x + then.y * now.y);
    start.turn_rad =
        (left - 1) * error_rad + spread.heading_rad * draw.of(figure, Figurewise::Heading);
}

}  // namespace

Slips slipsOf(const Plan& plan, const Draw& draw) {
    const load::Workspace& w = plan.workspace;
    const data::Spread& spread = w.pilot.spread;
    Slips s{w.aircraft, w.weather, w.routine, {}};
    s.aircraft.mass.pilot_kg =
        std::max(s.aircraft.mass.pilot_kg + spread.mass_kg * draw.of(Daily::Mass), 0.0);
    s.aircraft.power.max_power_w *= std::max(1 + spread.power_frac * draw.of(Daily::Power), 0.1);
    const double roll_scale =
        std::max(1 + spread.roll_rate_frac * draw.of(Daily::RollRate), kLeastScale);
    s.aircraft.limits.roll_rate_radps *= roll_scale;
    s.aircraft.limits.roll_helix *= roll_scale;
    s.weather.temperature_k += spread.temperature_k * draw.of(Daily::Temperature);
    // The same error of wind at all heights, along and across the show line.
    const double bearing = w.site.show_line_bearing_rad;
    const double along = spread.wind_mps * draw.of(Daily::WindAlong);
    const double across = spread.wind_mps * draw.of(Daily::WindAcross);
    if (s.weather.wind.empty()) s.weather.wind.push_back({});
    for (data::WindLayer& layer : s.weather.wind) {
        // Components of where it comes from, along and (left of it) across +x.
        const double x = layer.speed_mps * std::cos(layer.from_rad - bearing) + along;
        const double y = -layer.speed_mps * std::sin(layer.from_rad - bearing) + across;
        layer.speed_mps = std::hypot(x, y);
        layer.from_rad = bearing + std::atan2(-y, x);
    }
    const double reaction_s = spread.reaction_s * draw.of(Daily::Reaction);
    for (std::size_t f = 0; f < s.routine.figures.size(); ++f) {
        std::vector<text::Element>& elements = s.routine.figures[f].elements;
        const double load_g = spread.load_g * draw.of(f, Figurewise::Load);
        const double late_s = reaction_s + spread.timing_s * draw.of(f, Figurewise::Timing);
        const double low_m = spread.height_m * draw.of(f, Figurewise::Timing);
        const double speed_mps = f < plan.starts.size() ? plan.starts[f].airspeed_mps : 0;
        for (std::size_t i = 0; i < elements.size(); ++i) {
            const ElementEnd& end = plan.ends[f][i];
            // Going down he sees where it will end, and pulls accordingly.
            const double seen = end.drop_m > kDrop_m ? spread.left_frac : 1;
            std::visit(Hand{seen * load_g, late_s, low_m, roll_scale, speed_mps, end},
                       elements[i].body);
        }
    }
    s.options.relative_tolerance = plan.tolerance;
    s.options.raise_m = plan.raise_m;
    s.options.before_figure = [&plan, &draw, &spread](std::size_t figure, fly::FigureStart& start) {
        if (figure < plan.starts.size())
            startUnlikePlan(plan.starts[figure], draw, figure, spread, start);
    };
    return s;
}

}  // namespace plumbline::margins

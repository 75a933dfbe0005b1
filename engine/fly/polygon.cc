#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/fly/corner.h"
#include "engine/fly/elements.h"

namespace plumbline::fly {

void shapeCorner(double radius, double angle, Law& law) {
    double ramp =
        std::min(0.5 * radius, angle * radius / 3);  // chosen: full curvature after half a radius
    const auto chord = [&](double ramp_m, double plateau) {
        const double peak = angle / (ramp_m + plateau), length = 2 * ramp_m + plateau;
        const auto turned = [&](double s) {
            if (s < ramp_m) return peak * ramp_m * smoothStepIntegral(s / ramp_m);
            if (s <= ramp_m + plateau) return peak * (0.5 * ramp_m + s - ramp_m);
            return angle - peak * ramp_m * smoothStepIntegral((length - s) / ramp_m);
        };
        // Component along the half-angle direction, by symmetry twice the first half;
        // Gauss-Legendre, 5 points a piece.
        constexpr double x[5] = {-0.9061798459386640, -0.5384693101056831, 0, 0.5384693101056831,
                                 0.9061798459386640};
        constexpr double w[5] = {0.2369268850561891, 0.4786286704993665, 0.5688888888888889,
                                 0.4786286704993665, 0.2369268850561891};
        double sum = 0;
        for (const auto& [a, b] : {std::pair{0.0, ramp_m}, std::pair{ramp_m, 0.5 * length}})
            for (int i = 0; i < 5; ++i)
                sum += 0.5 * (b - a) * w[i] *
                       std::cos(turned(0.5 * (a + b) + 0.5 * (b - a) * x[i]) - 0.5 * angle);
        return 2 * sum;
    };
    double plateau = radius * angle - ramp;
    if (angle < 150 * kPi / 180) {
        const double wanted =
            2 * radius * std::sin(0.5 * angle);  // chord of the plain arc: same tangent length
        double lo = 0, hi = plateau;
        // Less plateau, shorter chord; a very short corner gives up some ramp too.
        while (chord(ramp, lo) > wanted && ramp > 0.02 * radius) ramp *= 0.7;
        for (int i = 0; i < 50; ++i) {
            plateau = 0.5 * (lo + hi);
            (chord(ramp, plateau) < wanted ? lo : hi) = plateau;
        }
    }
    law.ramp_m = ramp;
    law.plateau_m = std::max(plateau, 0.0);
    law.curvature_pm = angle / (law.ramp_m + law.plateau_m);
}

double radiusForLoad(const Flight& flight, double load_g, double sense) {
    const double v = glm::length(flight.joint.air_velocity_S_mps);
    // n = V^2 / (g R) + k, k the part of gravity the wing already carries in the arc's sense.
    const double k = sense * unrotate(flight.joint.q_SL, Vec3(0, 0, -1)).z;
    return v * v / (kGravity_mps2 * std::max(load_g - k, 0.05));
}

namespace {

using text::Arc;

constexpr double kLeastStraight = 0.1;  // chosen: share of a side left between two corners

// Load that the wing can give here, in the sense of an arc.
double loadOfWing(const Flight& flight, double sense) {
    const World& w = flight.world;
    const double v = glm::length(flight.joint.air_velocity_S_mps);
    const double qs = 0.5 * w.density_kgpm3(flight.joint.position_S_m.z) * v * v * w.wing_area_m2;
    const double alpha = sense > 0 ? w.aero.alphaMax_rad() : w.aero.alphaMin_rad();
    return std::fabs(qs * w.aero.normal(alpha)) / (flight.joint.mass_kg * kGravity_mps2);
}

// Radius of the corner that comes next, by load: what is asked, or what the wing gives with a
// little to spare.
double cornerRadius(const Flight& flight, const text::Polygon& polygon, double sense) {
    if (polygon.size == text::ArcSize::Radius) return polygon.radius_m;
    constexpr double kSpare = 0.92;
    const data::AircraftLimits& limits = flight.world.aircraft.limits;
    const double asked =
        polygon.size == text::ArcSize::Load || polygon.size == text::ArcSize::RoundAtLoad
            ? polygon.load_g
        : polygon.push ? -limits.load_min_g
                       : limits.load_max_g;
    const double load = std::min(asked, kSpare * loadOfWing(flight, sense));
    // A corner's curvature rises and falls: its peak is this much above that of the plain circle.
    const double corner = 2 * kPi / polygon.sides;
    Law unit;
    shapeCorner(1, corner, unit);
    const double plain = unit.curvature_pm * radiusForLoad(flight, load, sense);
    // Downhill the speed grows on the way round: the load counts where most of it is gained.
    constexpr double kMostOfIt = 0.75;
    const Vec3 v = flight.joint.air_velocity_S_mps;
    const double down = std::max(0.0, -rotate(flight.joint.q_SL, Vec3(1, 0, 0)).z);
    const double gain = 2 * kGravity_mps2 * kMostOfIt * corner * down * plain / glm::dot(v, v);
    return plain / (1 - std::min(0.5, gain));
}

void flySide(Flight& flight, double straight_m) {
    text::Line side;
    side.extent.kind = text::Extent::Kind::Distance;
    side.extent.distance_m = straight_m;
    side.reference = text::LineReference::Path;
    flyLines(flight, {{&side, flight.element, flight.source_line}});
}

void reportLoads(Flight& flight, const text::Polygon& polygon, std::size_t first_segment) {
    Flight::Extremes all;
    for (std::size_t k = first_segment; k < flight.segments.size(); ++k) {
        const Flight::Extremes e = flight.extremes(flight.segments[k]);
        all.most_g = std::max(all.most_g, e.most_g);
        all.least_g = std::min(all.least_g, e.least_g);
    }
    flight.note(SolveNote::Kind::Information, "loads of the corners",
                loadText(all.least_g) + " to " + loadText(all.most_g), "", "");
    flight.notes.back().subject = "polygon";
    const double most = polygon.push ? -all.least_g : all.most_g;
    const bool by_load =
        polygon.size == text::ArcSize::Load || polygon.size == text::ArcSize::RoundAtLoad;
    if (by_load && most > polygon.load_g + kLoadShortFinding_g)
        flight.note(SolveNote::Kind::NotFlyable,
                    "a faster corner reads more than the load asked, or the sides do not close",
                    loadText(most), loadText(polygon.load_g),
                    "set less power, enter slower or faster, or make the sides longer");
}

}  // namespace

// All sides alike from vertex to vertex, so that the figure closes. By load, each corner has the
// radius that reads it there: the straight part asked is that after a corner like the first, and
// where a slower corner is tighter the straight is longer.
void flyPolygon(Flight& flight, const text::Polygon& polygon) {
    const double corner = 2 * kPi / polygon.sides, sense = polygon.push ? -1 : 1;
    const double tangent = std::tan(0.5 * corner);
    const int corners = static_cast<int>(std::lround(polygon.angle_rad / corner));
    const bool closed = std::fabs(polygon.angle_rad - 2 * kPi) < 1e-6;
    const Flight::Mark start = flight.mark();
    Arc arc;
    arc.push = polygon.push;
    arc.angle_rad = corner;
    arc.size = Arc::Size::Radius;
    arc.radius_m = cornerRadius(flight, polygon, sense);
    const double first_m = arc.radius_m * tangent, side_m = polygon.side_m + 2 * first_m;
    const double widest = 0.5 * (1 - kLeastStraight) * side_m / tangent;
    double spare_m = 0;  // what the corner before took of its side
    for (int i = 0; i < corners && !flight.grounded; ++i) {
        if (i > 0) {
            // The straight before this corner is what the corners at its ends leave of the side;
            // the corner goes by the speed at its end, so it is settled once more there.
            const Flight::Mark here = flight.mark();
            arc.radius_m = std::min(cornerRadius(flight, polygon, sense), widest);
            flySide(flight, side_m - spare_m - arc.radius_m * tangent);
            if (flight.grounded) return;
            arc.radius_m = std::min(cornerRadius(flight, polygon, sense), widest);
            flight.rewind(here);
            flySide(flight, side_m - spare_m - arc.radius_m * tangent);
        }
        flyArc(flight, arc, {true});
        spare_m = arc.radius_m * tangent;
    }
    // The last side ends where the first corner began.
    if (!flight.grounded) flySide(flight, closed ? side_m - spare_m - first_m : polygon.side_m);
    if (flight.grounded) return;
    reportLoads(flight, polygon, start.segments);
    if (!closed) return;
    // Through the air: the wind's drift is not the pilot's.
    const Vec3 drift = flight.world.wind.at(flight.joint.position_S_m.z) *
                       (flight.joint.time_s - start.joint.time_s);
    flight.note(
        SolveNote::Kind::Information, "ends, through the air, from where it began",
        formatFixed(glm::length(flight.joint.position_S_m - start.joint.position_S_m - drift), 1) +
            " m",
        "", "");
    flight.notes.back().subject = "polygon";
}

}  // namespace plumbline::fly

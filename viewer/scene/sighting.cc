#include "viewer/scene/sighting.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/units/units.h"

namespace plumbline::scene {

namespace {

constexpr double kEarth_m = 6371000;  // mean radius, IUGG
constexpr std::array<Bar, 4> kBars{Bar::Level, Bar::Vertical, Bar::Climbing45, Bar::Descending45};

// chosen: frame and lines
constexpr double kOutOfHalfSpan = 0.9, kBar_m = 1.1, kLeg_m = 0.8;
constexpr float kRod_m = 0.022F, kThinLeg_m = 0.016F;
constexpr double kSteepest_rad =
    30 * units::kDegree_rad;  ///< hub from the horizontal: no bar beyond
constexpr double kSideways_rad =
    50 * units::kDegree_rad;  ///< head turned so far looks along a wing

constexpr glm::vec4 kDark{0.11F, 0.13F, 0.14F, 1};
constexpr glm::vec4 kBone{0xe6 / 255.0F, 0xde / 255.0F, 0xca / 255.0F, 1};
constexpr glm::vec4 kSaffron{0xf5 / 255.0F, 0xb3 / 255.0F, 0x35 / 255.0F, 1};

/// Zero-lift axis and what lies across it towards the canopy, body axes.
struct Symmetry {
    Vec3 axis_B;
    Vec3 canopy_B;
};
Symmetry symmetryOf(const data::Aircraft& aircraft) {
    const double c = std::cos(aircraft.aero.zero_lift_aoa_rad);
    const double s = std::sin(aircraft.aero.zero_lift_aoa_rad);
    return {{c, 0, s}, {s, 0, -c}};
}

double elevationOf(const Vec3& unit_S) { return std::asin(std::clamp(unit_S.z, -1.0, 1.0)); }

/// From the horizon's line to a bar, both seen along `sight_S`, as lines without direction.
double angleSeen(const Vec3& sight_S, const Vec3& bar_S) {
    const Vec3 horizon_S = glm::normalize(glm::cross(Vec3(0, 0, 1), sight_S));
    const Vec3 seen_S = bar_S - glm::dot(bar_S, sight_S) * sight_S;
    // Looking along the sight, anticlockwise is the negative turn about it.
    double angle =
        -std::atan2(glm::dot(glm::cross(horizon_S, seen_S), sight_S), glm::dot(horizon_S, seen_S));
    if (angle > kPi / 2) angle -= kPi;
    if (angle <= -kPi / 2) angle += kPi;
    return angle;
}

Polyline lineOf(std::vector<Vec3> points_S_m, const glm::vec4& colour, float width_px) {
    Polyline line;
    line.points_S_m = std::move(points_S_m);
    line.colour = colour;
    line.width_px = width_px;
    line.depth_test = false;
    line.inside = true;
    return line;
}

class FrameDrawing {
public:
    FrameDrawing(const data::Aircraft& aircraft, DrawList& list)
        : aircraft_(aircraft), list_(list) {}

    Vec3 place(const Vec3& from_centre_B) const {
        return list_.aircraft.position_S_m + rotate(list_.aircraft.q_SB, from_centre_B);
    }
    double halfBar_m() const {
        return 0.5 * (aircraft_.sighting.bar_m > 0 ? aircraft_.sighting.bar_m : kBar_m);
    }

    void addLegs(bool right) const {
        const double leg_m = aircraft_.sighting.leg_m > 0 ? aircraft_.sighting.leg_m : kLeg_m;
        const Vec3 hub_B = sightingHub(aircraft_, right);
        const double inward = right ? -1 : 1;
        for (const Vec3& foot :
             {Vec3(0.30, 0.05 * inward, leg_m), Vec3(-0.10, 0.35 * inward, leg_m),
              Vec3(0.05, -0.15 * inward, leg_m)}) {
            Polyline leg = lineOf({place(hub_B), place(hub_B + foot)}, kDark, 1);
            leg.width_m = kThinLeg_m;
            leg.round = true;
            list_.lines.push_back(std::move(leg));
        }
    }

    void addBar(bool right, Bar bar, bool in_use) const {
        const Vec3 hub_B = sightingHub(aircraft_, right);
        const Vec3 reach_B = halfBar_m() * barDirection(aircraft_, bar);
        Polyline rod = lineOf({place(hub_B - reach_B), place(hub_B + reach_B)},
                              in_use ? kSaffron : kDark, in_use ? 3.0F : 1.2F);
        rod.width_m = kRod_m;
        rod.round = true;
        if (in_use) rod.halo_px = 7;
        list_.lines.push_back(std::move(rod));
    }

    /// The horizon with its dip, as far as the picture reaches.
    void addHorizon() const {
        constexpr double kFar_m = 5000, kStep_rad = 2 * units::kDegree_rad,
                         kHalf_rad = 60 * units::kDegree_rad;
        const Vec3& eye_S_m = list_.camera.eye_S_m;
        const double dip_rad = horizonDip(eye_S_m.z);
        const double middle_rad = std::atan2(list_.camera.forward_S.y, list_.camera.forward_S.x);
        std::vector<Vec3> points;
        for (double a = -kHalf_rad; a <= kHalf_rad + 1e-9; a += kStep_rad) {
            const double az = middle_rad + a;
            points.push_back(eye_S_m + kFar_m * Vec3(std::cos(dip_rad) * std::cos(az),
                                                     std::cos(dip_rad) * std::sin(az),
                                                     -std::sin(dip_rad)));
        }
        Polyline horizon = lineOf(std::move(points), kBone, 2.2F);
        horizon.inside = false;  // the wing hides it
        horizon.dash_m = 80;
        horizon.halo_px = 5;
        list_.lines.push_back(std::move(horizon));
    }

    /// From the bar's end to where it must go; a degree's turn would be too short to see, so its
    /// length tells the way only.
    void addArrow(bool right, const SightingReading& reading) const {
        if (std::abs(reading.pull_rad) < kSightingGood_rad) return;
        constexpr double kLong_rad = 15 * units::kDegree_rad;
        const Symmetry axes = symmetryOf(aircraft_);
        const Vec3 hub_B = sightingHub(aircraft_, right);
        // The end of the bar that stands higher in the pilot's picture.
        Vec3 end_B = barDirection(aircraft_, reading.bar);
        if (glm::dot(end_B, axes.canopy_B) < -1e-9) end_B = -end_B;
        const double sense = reading.pull_rad > 0 ? 1 : -1;
        const double radius_m = 1.12 * halfBar_m();
        const auto at = [&](double turn_rad, double radius) {
            return place(hub_B + radius * rotate(rotationY(sense * turn_rad), end_B));
        };
        std::vector<Vec3> arc;
        for (int i = 0; i <= 8; ++i) arc.push_back(at(kLong_rad * i / 8, radius_m));
        const std::vector<Vec3> head{at(0.68 * kLong_rad, 1.06 * radius_m), arc.back(),
                                     at(0.68 * kLong_rad, 0.94 * radius_m)};
        for (std::vector<Vec3> points : {arc, head}) {
            Polyline line = lineOf(std::move(points), kBone, 2.2F);
            line.halo_px = 5;
            list_.lines.push_back(std::move(line));
        }
    }

private:
    const data::Aircraft& aircraft_;
    DrawList& list_;
};

}  // namespace

const char* barWord(Bar bar) {
    switch (bar) {
        case Bar::Level:
            return "level";
        case Bar::Vertical:
            return "vertical";
        case Bar::Climbing45:
        case Bar::Descending45:
            break;
    }
    return "45\u00b0";
}

double horizonDip(double eye_height_m) {
    return std::acos(kEarth_m / (kEarth_m + std::max(eye_height_m, 0.0)));
}

Vec3 sightingHub(const data::Aircraft& aircraft, bool right) {
    const data::SightingFrame& frame = aircraft.sighting;
    const double out_m =
        frame.out_m > 0 ? frame.out_m : kOutOfHalfSpan * 0.5 * aircraft.geometry.span_m;
    const Vec3& eye_B_m = aircraft.geometry.eye_B_m;
    return {frame.forward_m.value_or(eye_B_m.x), right ? out_m : -out_m,
            frame.up_m ? -*frame.up_m : eye_B_m.z};
}

Vec3 barDirection(const data::Aircraft& aircraft, Bar bar) {
    const Symmetry axes = symmetryOf(aircraft);
    const double half = std::sqrt(0.5);
    // What is horizontal in the plane of symmetry when the axis stands at the bar's angle.
    switch (bar) {
        case Bar::Level:
            return axes.axis_B;
        case Bar::Vertical:
            return axes.canopy_B;
        case Bar::Climbing45:
            return half * (axes.axis_B - axes.canopy_B);
        case Bar::Descending45:
            break;
    }
    return half * (axes.axis_B + axes.canopy_B);
}

std::optional<SightingReading> readSighting(const data::Aircraft& aircraft,
                                            const path::Sample& sample, const Vec3& wind_S_mps,
                                            bool right) {
    const auto sightOf = [&](bool right_hub) {
        const Vec3 to_B = sightingHub(aircraft, right_hub) - aircraft.geometry.eye_B_m;
        return glm::normalize(rotate(sample.q_SB, to_B));
    };
    const Vec3 sight_S = sightOf(right);
    if (std::abs(elevationOf(sight_S)) > kSteepest_rad) return std::nullopt;
    SightingReading reading;
    double nearest = kPi;
    for (const Bar bar : kBars) {
        const double angle = angleSeen(sight_S, rotate(sample.q_SB, barDirection(aircraft, bar)));
        if (std::abs(angle) >= std::abs(nearest)) continue;
        nearest = angle;
        reading.bar = bar;
    }
    reading.angle_rad = nearest;
    // The nose goes to the canopy clockwise at the left wing, anticlockwise at the right.
    reading.pull_rad = right ? nearest : -nearest;
    const double left_up = elevationOf(sightOf(false)), right_up = elevationOf(sightOf(true));
    reading.right_low_rad = 0.5 * (left_up - right_up);
    const double eye_height_m =
        sample.position_S_m.z + rotate(sample.q_SB, aircraft.geometry.eye_B_m).z;
    const double dip_rad = horizonDip(eye_height_m);
    reading.left_above_rad = left_up + dip_rad;
    reading.right_above_rad = right_up + dip_rad;

    const Symmetry axes = symmetryOf(aircraft);
    const Quat put_right = rotationY(reading.pull_rad);
    const Vec3 axis_S = rotate(sample.q_SB, rotate(put_right, axes.axis_B));
    const Vec3 canopy_S = rotate(sample.q_SB, rotate(put_right, axes.canopy_B));
    const auto fromBar = [&](const Vec3& direction_S) {
        return std::atan2(glm::dot(direction_S, canopy_S), glm::dot(direction_S, axis_S));
    };
    reading.attitude_rad = -reading.pull_rad;
    reading.path_rad = fromBar(sample.velocity_S_mps);
    reading.wind_rad = reading.path_rad - fromBar(sample.velocity_S_mps - wind_S_mps);
    return reading;
}

bool sightingJudged(const SightingReading& reading, double within_rad) {
    return within_rad <= std::max(std::abs(reading.pull_rad), kSightingGood_rad);
}

void addSighting(const SceneSource& source, const ViewSettings& view, double time_s,
                 DrawList& list) {
    const data::Aircraft& aircraft = *source.aircraft;
    if (!list.aircraft.attitude_known || aircraft.geometry.span_m <= 0) return;
    const bool sideways = std::abs(view.head_right_rad) > kSideways_rad &&
                          std::abs(view.head_right_rad) < kPi - kSideways_rad;
    const bool right = view.head_right_rad > 0;
    if (sideways) {
        const path::Sample sample = path::sampleAt(*source.path, time_s);
        list.sighting =
            readSighting(aircraft, sample, source.world->wind.at(sample.position_S_m.z), right);
    }
    const FrameDrawing drawing(aircraft, list);
    for (const bool side : {false, true}) {
        drawing.addLegs(side);
        for (const Bar bar : kBars) {
            if (list.sighting && side == right && bar == list.sighting->bar) continue;
            drawing.addBar(side, bar, false);
        }
    }
    if (!list.sighting) return;
    drawing.addHorizon();
    drawing.addBar(right, list.sighting->bar, true);
    drawing.addArrow(right, *list.sighting);
}

}  // namespace plumbline::scene

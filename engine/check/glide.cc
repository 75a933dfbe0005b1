#include "engine/check/glide.h"

#include <algorithm>
#include <cmath>

#include "engine/fly/world.h"

namespace plumbline::check {
namespace {

constexpr double kBank_rad = 45 * kPi / 180;  // chosen: steep, without an accelerated stall near
constexpr double kThreshold_frac = 0.2;       // chosen: touched down after a fifth of the strip
constexpr double kWindHeight_m = 100;         // chosen: between the ground and where it begins

double wrap(double angle) {
    angle = std::fmod(angle, 2 * kPi);
    return angle < 0 ? angle + 2 * kPi : angle;
}

// Turn, straight and turn, of unit radius.
struct Way {
    double turned_rad = 1e300, straight_m = 0;
};

// The shortest of the four ways of turn, straight, turn from the origin along +x to (x, y) along
// `angle`, radius one.
Way shortest(double x, double y, double angle, double straight_costs, double turn_costs) {
    const double d = std::hypot(x, y), theta = wrap(std::atan2(y, x));
    const double a = wrap(-theta), b = wrap(angle - theta);
    const double sa = std::sin(a), sb = std::sin(b), ca = std::cos(a), cb = std::cos(b),
                 cab = std::cos(a - b);
    constexpr double kRounding = 1e-9;
    Way best;
    double least = 1e300;
    const auto offer = [&](double first, double p, double last) {
        const double cost = turn_costs * (first + last) + straight_costs * p;
        if (cost < least) {
            least = cost;
            best = {first + last, p};
        }
    };
    // Left and left, right and right.
    if (const double p2 = 2 + d * d - 2 * cab + 2 * d * (sa - sb); p2 >= -kRounding) {
        const double at = std::atan2(cb - ca, d + sa - sb);
        offer(wrap(-a + at), std::sqrt(std::max(p2, 0.0)), wrap(b - at));
    }
    if (const double p2 = 2 + d * d - 2 * cab + 2 * d * (sb - sa); p2 >= -kRounding) {
        const double at = std::atan2(ca - cb, d - sa + sb);
        offer(wrap(a - at), std::sqrt(std::max(p2, 0.0)), wrap(-b + at));
    }
    // Left and right, right and left.
    if (const double p2 = -2 + d * d + 2 * cab + 2 * d * (sa + sb); p2 >= -kRounding) {
        const double p = std::sqrt(std::max(p2, 0.0));
        const double at = std::atan2(-ca - cb, d + sa + sb) - std::atan2(-2.0, p);
        offer(wrap(-a + at), p, wrap(-wrap(b) + at));
    }
    if (const double p2 = -2 + d * d + 2 * cab - 2 * d * (sa + sb); p2 >= -kRounding) {
        const double p = std::sqrt(std::max(p2, 0.0));
        const double at = std::atan2(ca + cb, d - sa - sb) - std::atan2(2.0, p);
        offer(wrap(a - at), p, wrap(b - at));
    }
    return best;
}

}  // namespace

// Where the glide begins, after the time to react.
struct Glide::Start {
    Vec3 position_S_m{0};
    double height_m = 0;  ///< with the speed above the glide's
    double angle_rad = 0;
    double speed_mps = 0;  ///< true, straight
    double radius_m = 0;   ///< of the turn
    double turn_loss = 0;  ///< height a metre along the turn
};

Glide::Glide(const data::Aircraft& aircraft, const data::Site& site, const data::Weather& weather,
             const data::Pilot& pilot)
    : aircraft_(aircraft),
      react_s_(pilot.engine_failure_s),
      air_(site.show_centre.elevation_m, weather.temperature_k, weather.qnh_pa),
      wind_S_mps_(fly::windOf(weather, site).at(kWindHeight_m)) {
    drag0_ =
        aircraft.aero.cd0 + aircraft.power.windmill_drag_area_m2 / aircraft.geometry.wing_area_m2;
    const double k = std::max(aircraft.aero.induced_k, 1e-6);
    lift_ = std::min(std::sqrt(std::max(drag0_, 1e-6) / k), 0.9 * aircraft.aero.cl_max);
    ratio_ = lift_ / (drag0_ + k * lift_ * lift_);
    const auto add = [&](const std::string& name, const Vec3& centre, double bearing_rad,
                         double length_m) {
        for (const double turn : {0.0, kPi}) {
            // Bearings run clockwise from north, angles in site axes the other way from +x.
            const double angle = site.show_line_bearing_rad - bearing_rad - turn;
            const Vec3 along(std::cos(angle), std::sin(angle), 0);
            landings_.push_back({name, centre - (0.5 - kThreshold_frac) * length_m * along, angle,
                                 wrap(bearing_rad + turn)});
        }
    };
    if (site.runway)
        add("runway", site.runway->centre_S_m, site.runway->bearing_rad, site.runway->length_m);
    for (const data::LandingStrip& strip : site.strips)
        add(strip.name, strip.centre_S_m, strip.bearing_rad, strip.length_m);
}

double Glide::speed_mps(double mass_kg) const {
    return std::sqrt(2 * mass_kg * kGravity_mps2 /
                     (earth::kSeaLevelDensity_kgpm3 * aircraft_.geometry.wing_area_m2 * lift_));
}

Glide::Start Glide::startOf(const path::Sample& s) const {
    Start start;
    const double density = air_.at(s.position_S_m.z).density_kgpm3;
    const double area = aircraft_.geometry.wing_area_m2;
    start.speed_mps = speed_mps(s.mass_kg) * std::sqrt(earth::kSeaLevelDensity_kgpm3 / density);
    const double n = 1 / std::cos(kBank_rad);
    const double turn_speed2 = n * start.speed_mps * start.speed_mps;
    start.radius_m = turn_speed2 / (kGravity_mps2 * std::tan(kBank_rad));
    start.turn_loss = n / ratio_;
    Vec3 v = s.velocity_S_mps;
    const double ground = std::hypot(v.x, v.y);
    // Straight up or down there is no heading: the nose or the canopy's side will do.
    if (ground < 5) v = rotate(s.q_SB, Vec3(1, 0, 0));
    start.angle_rad = std::atan2(v.y, v.x);
    const double speed = s.airspeed_mps;
    const double pressure = 0.5 * density * area * speed * speed;
    const double lift = pressure > 0 ? s.mass_kg * kGravity_mps2 / pressure : 0;
    const double used_lift = std::min(lift, aircraft_.aero.cl_max);
    const double drag_n = pressure * (drag0_ + aircraft_.aero.induced_k * used_lift * used_lift);
    const double lost_m = react_s_ * speed * drag_n / (s.mass_kg * kGravity_mps2);
    start.position_S_m =
        s.position_S_m + react_s_ * Vec3(s.velocity_S_mps.x, s.velocity_S_mps.y, 0);
    start.height_m = s.position_S_m.z - lost_m +
                     (speed * speed - start.speed_mps * start.speed_mps) / (2 * kGravity_mps2);
    return start;
}

Reach Glide::reach(const path::Sample& sample) const {
    const Start start = startOf(sample);
    Reach best;
    best.time_s = sample.time_s;
    best.energy_height_m = start.height_m;
    best.spare_m = -1e300;
    for (const Landing& landing : landings_) {
        // In the air's frame the threshold comes against the wind; its time settles in a few
        // rounds.
        double time_s = 0, lost_m = 0;
        for (int round = 0; round < 20; ++round) {
            const double before_s = time_s;
            const Vec3 to = landing.threshold_S_m - time_s * wind_S_mps_ - start.position_S_m;
            const double c = std::cos(start.angle_rad), s = std::sin(start.angle_rad);
            const double r = start.radius_m;
            const Way way =
                shortest((c * to.x + s * to.y) / r, (c * to.y - s * to.x) / r,
                         landing.angle_rad - start.angle_rad, 1 / ratio_, start.turn_loss);
            lost_m = r * (way.turned_rad * start.turn_loss + way.straight_m / ratio_);
            const double turn_speed = start.speed_mps / std::sqrt(std::cos(kBank_rad));
            time_s = r * (way.turned_rad / turn_speed + way.straight_m / start.speed_mps);
            if (std::fabs(time_s - before_s) < 0.01) break;
        }
        if (start.height_m - lost_m > best.spare_m) {
            best.spare_m = start.height_m - lost_m;
            best.strip = landing.strip;
            best.heading_rad = landing.heading_rad;
        }
    }
    if (landings_.empty()) best.spare_m = 0;
    return best;
}

std::vector<Vec3> Glide::outline(const path::Sample& sample, std::size_t corners) const {
    const Start start = startOf(sample);
    std::vector<Vec3> outline;
    if (!(start.height_m > 0)) return outline;
    const double turn_speed = start.speed_mps / std::sqrt(std::cos(kBank_rad));
    for (std::size_t i = 0; i < corners; ++i) {
        double turn = 2 * kPi * static_cast<double>(i) / static_cast<double>(corners);
        if (turn > kPi) turn -= 2 * kPi;
        const double r = start.radius_m;
        // As much of the turn as the height allows, then straight.
        const double turned = std::min(std::fabs(turn), start.height_m / (r * start.turn_loss));
        const double straight =
            std::max(start.height_m - turned * r * start.turn_loss, 0.0) * ratio_;
        const double side = turn < 0 ? -1 : 1;
        const double x = r * std::sin(turned) + straight * std::cos(turned);
        const double y = side * (r * (1 - std::cos(turned)) + straight * std::sin(turned));
        const double c = std::cos(start.angle_rad), s = std::sin(start.angle_rad);
        const double time_s = r * turned / turn_speed + straight / start.speed_mps;
        Vec3 p = start.position_S_m + Vec3(c * x - s * y, s * x + c * y, 0) + time_s * wind_S_mps_;
        p.z = 0;
        outline.push_back(p);
    }
    return outline;
}

std::vector<Reach> reachAlong(const Glide& glide, const path::Path& path, double every_s) {
    std::vector<Reach> reaches;
    for (double t = 0; t <= path.duration_s(); t += every_s)
        reaches.push_back(glide.reach(path::sampleAt(path, t)));
    return reaches;
}

std::vector<Spell> outOfReach(const std::vector<Reach>& reaches) {
    std::vector<Spell> stretches;
    bool out = false;
    for (const Reach& reach : reaches) {
        if (reach.strip.empty()) return {};
        if (out) stretches.back().to_s = reach.time_s;
        if (!out && reach.spare_m < 0) stretches.push_back({reach.time_s, reach.time_s});
        out = reach.spare_m < 0;
    }
    return stretches;
}

}  // namespace plumbline::check

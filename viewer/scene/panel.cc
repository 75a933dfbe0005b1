#include "viewer/scene/panel.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/scene/strokes.h"

namespace plumbline::scene {

namespace {

constexpr double kKnot_mps = 1852.0 / 3600, kFoot_m = 0.3048, kIce_k = 273.15;

constexpr glm::vec4 kBone{0xe6 / 255.0F, 0xde / 255.0F, 0xca / 255.0F, 1};
constexpr glm::vec4 kQuiet{0.62F, 0.64F, 0.62F, 1};
constexpr glm::vec4 kSaffron{0xf5 / 255.0F, 0xb3 / 255.0F, 0x35 / 255.0F, 1};
constexpr glm::vec4 kAlarm{0xff / 255.0F, 0x6b / 255.0F, 0x95 / 255.0F, 1};

/// A dial of the model's panel: to the pilot's right and up from the aircraft's middle [m].
struct Place {
    double right_m, up_m, radius_m;
};
// As assets/aircraft/make_model.py lays them out.
constexpr double kFace_m = 0.0;
constexpr Place kLoad{0, 0.315, 0.062}, kSpeed{-0.145, 0.285, 0.055}, kHeight{0.145, 0.285, 0.055},
    kClimb{0, 0.165, 0.055}, kPower{-0.135, 0.15, 0.045}, kHead{0.135, 0.15, 0.045},
    kSlot{-0.245, 0.19, 0.034}, kFuel{0.245, 0.19, 0.034};

class Face {
public:
    Face(const Place& place, double model_scale, DrawList& list)
        : place_(place), scale_(model_scale), list_(list) {
        const Vec3& eye = list.camera.eye_S_m;
        // What a metre on the panel makes in the picture, at 720 high.
        const double distance_m = std::max(glm::length(at(0, 0) - eye), 0.1);
        px_per_m_ = 360 / std::tan(list.camera.vertical_fov_rad / 2) / distance_m;
    }

    /// Right and up of the dial's middle, in radii.
    Vec3 at(double right, double up) const {
        const double r = place_.radius_m;
        const Vec3 on_B(kFace_m, place_.right_m + r * right, -(place_.up_m + r * up));
        return list_.aircraft.position_S_m + rotate(list_.aircraft.q_SB, scale_ * on_B);
    }

    void line(const std::vector<glm::dvec2>& points, const glm::vec4& colour,
              double width_radii) const {
        Polyline made;
        made.colour = colour;
        made.inside = true;
        made.depth_test = false;
        made.width_px = static_cast<float>(width_radii * place_.radius_m * scale_ * px_per_m_);
        for (const glm::dvec2& p : points) made.points_S_m.push_back(at(p.x, p.y));
        list_.lines.push_back(std::move(made));
    }

    void arc(double from_rad, double to_rad, double radius, const glm::vec4& colour,
             double width) const {
        std::vector<glm::dvec2> points;
        const int pieces = 2 + static_cast<int>(std::abs(to_rad - from_rad) / 0.2);
        for (int i = 0; i <= pieces; ++i) {
            const double a = from_rad + (to_rad - from_rad) * i / pieces;
            points.emplace_back(radius * std::cos(a), radius * std::sin(a));
        }
        line(points, colour, width);
    }

    void ray(double angle_rad, double from, double to, const glm::vec4& colour,
             double width) const {
        const glm::dvec2 along(std::cos(angle_rad), std::sin(angle_rad));
        line({from * along, to * along}, colour, width);
    }

    /// Centred.
    void text(double x, double y, double height, const std::string& words,
              const glm::vec4& colour) const {
        const double left = x - 0.5 * height * static_cast<double>(strokesWidth(words));
        for (const Stroke2& stroke : strokesOf(words)) {
            std::vector<glm::dvec2> points;
            for (const glm::vec2& p : stroke) {
                points.emplace_back(left + height * static_cast<double>(p.x),
                                    y + height * (static_cast<double>(p.y) - 0.5));
            }
            line(points, colour, 0.035);
        }
    }

    void needle(double angle_rad, double length = 0.74, double width = 0.06) const {
        ray(angle_rad, -0.16, length, kBone, width);
    }

private:
    Place place_;
    double scale_;
    DrawList& list_;
    double px_per_m_ = 1;
};

void drawScale(const Face& face, const DialScale& scale, const std::string& unit) {
    const int ticks = static_cast<int>(std::lround((scale.high - scale.low) / scale.step));
    if (scale.limit_high < scale.high) {
        face.arc(needleAngle(scale, scale.limit_high), needleAngle(scale, scale.high), 0.82, kAlarm,
                 0.06);
    }
    if (scale.limit_low > scale.low) {
        face.arc(needleAngle(scale, scale.limit_low), needleAngle(scale, scale.low), 0.82, kAlarm,
                 0.06);
    }
    for (int i = 0; i <= ticks; ++i) {
        const double value = scale.low + i * scale.step;
        const double angle = needleAngle(scale, value);
        const bool named = i % scale.named_each == 0;
        face.ray(angle, named ? 0.74 : 0.79, 0.86, kBone, named ? 0.035 : 0.022);
        if (!named) continue;
        face.text(0.56 * std::cos(angle), 0.56 * std::sin(angle), 0.16, formatFixed(value, 0),
                  kQuiet);
    }
    face.text(0, -0.55, 0.16, unit, kQuiet);
}

/// The smallest multiple of the step that is not below.
double roundedUp(double value, double step) { return std::ceil(value / step - 1e-9) * step; }

void drawSpeed(const Face& face, const SceneSource& source, const Marks& marks,
               const path::Sample& now) {
    const double unit_mps = marks.dial_units == DialUnits::Metric ? 1 / 3.6 : kKnot_mps;
    const double never_mps = source.aircraft->limits.never_exceed_mps;
    const double top_mps = never_mps > 0 ? 1.1 * never_mps : 120;
    DialScale scale;
    scale.step = marks.dial_units == DialUnits::Metric ? 25 : 20;
    scale.named_each = 4;  // three figures each: more would run into one another
    scale.high = roundedUp(top_mps / unit_mps, scale.named_each * scale.step);
    scale.limit_high = never_mps > 0 ? never_mps / unit_mps : scale.high;
    drawScale(face, scale, marks.dial_units == DialUnits::Metric ? "km/h" : "kt");
    if (source.path->known.airspeed) face.needle(needleAngle(scale, now.airspeed_mps / unit_mps));
}

void drawLoad(const Face& face, const SceneSource& source, const path::Sample& now,
              const std::pair<double, double>& held_g) {
    const data::AircraftLimits& limits = source.aircraft->limits;
    DialScale scale;
    constexpr double kLeast_g = 12;
    scale.high = roundedUp(std::max({kLeast_g, limits.load_max_g, -limits.load_min_g}), 4);
    scale.low = -scale.high;
    scale.named_each = 4;
    scale.limit_low = limits.load_min_g < 0 ? limits.load_min_g : scale.low;
    scale.limit_high = limits.load_max_g > 0 ? limits.load_max_g : scale.high;
    drawScale(face, scale, "g");
    if (!source.path->known.load) return;
    for (const double held : {held_g.first, held_g.second}) {
        face.ray(needleAngle(scale, held), 0.66, 0.86, kSaffron, 0.06);
    }
    face.needle(needleAngle(scale, loadFactors(now.specific_force_B_mps2).normal_g));
}

/// The long needle goes round once a thousand, the short one once ten thousand.
void drawHeight(const Face& face, const Marks& marks, const path::Sample& now) {
    const bool feet = marks.dial_units == DialUnits::Feet;
    const double height = now.position_S_m.z / (feet ? kFoot_m : 1.0);
    const auto angle = [](double part) { return kPi / 2 - 2 * kPi * part; };
    for (int i = 0; i < 20; ++i) {
        const bool named = i % 2 == 0;
        const double a = angle(i / 20.0);
        face.ray(a, named ? 0.74 : 0.79, 0.86, kBone, named ? 0.035 : 0.022);
        if (named) {
            face.text(0.58 * std::cos(a), 0.58 * std::sin(a), 0.17, formatFixed(i / 2, 0), kQuiet);
        }
    }
    face.text(0.32, 0, 0.15, feet ? "ft" : "m", kQuiet);
    face.needle(angle(height / 10000), 0.42, 0.1);
    face.needle(angle(height / 1000));
}

void drawClimb(const Face& face, const Marks& marks, const path::Sample& now) {
    const bool feet = marks.dial_units == DialUnits::Feet;
    DialScale scale;
    scale.high = feet ? 200 : 80;
    scale.low = -scale.high;
    scale.step = feet ? 50 : 20;
    scale.limit_low = scale.low;
    scale.limit_high = scale.high;
    scale.named_each = feet ? 2 : 1;
    drawScale(face, scale, feet ? "ft/s" : "m/s");
    face.needle(needleAngle(scale, now.velocity_S_mps.z / (feet ? kFoot_m : 1.0)));
}

void drawFuel(const Face& face, const SceneSource& source, const path::Sample& now) {
    // A tube with the level in it.
    face.line({{-0.18, -0.7}, {-0.18, 0.7}, {0.18, 0.7}, {0.18, -0.7}, {-0.18, -0.7}}, kQuiet,
              0.05);
    const data::AircraftMass& mass = source.aircraft->mass;
    const double l_per_kg = 1000 / std::max(1.0, mass.fuel_density_kgpm3);
    const double whole_l = std::max(1.0, mass.fuel_capacity_kg * l_per_kg);
    constexpr int kMarks = 3;
    for (int i = 0; i <= kMarks; ++i) {
        const double y = -0.7 + 1.4 * i / kMarks;
        face.line({{0.18, y}, {0.32, y}}, kQuiet, 0.05);
        face.text(0.56, y, 0.26, formatFixed(std::round(whole_l * i / kMarks / 5) * 5, 0), kQuiet);
    }
    if (!source.path->known.fuel) return;
    const double level = std::clamp(now.fuel_kg * l_per_kg / whole_l, 0.0, 1.0);
    if (level > 0.01) face.line({{0, -0.66}, {0, -0.66 + 1.32 * level}}, kSaffron, 0.24);
}

void drawSlot(const Face& face, const SceneSource& source, double time_s) {
    const double left_s = std::floor(std::abs(source.slot_s - time_s));
    const int minutes = static_cast<int>(left_s / 60), seconds = static_cast<int>(left_s) % 60;
    const std::string words =
        std::to_string(minutes) + (seconds < 10 ? ":0" : ":") + std::to_string(seconds);
    face.text(0, 0.05, 0.42, words, time_s > source.slot_s ? kAlarm : kBone);
}

}  // namespace

double needleAngle(const DialScale& scale, double value) {
    const double part = std::clamp((value - scale.low) / (scale.high - scale.low), 0.0, 1.0);
    return (1.25 - 1.5 * part) * kPi;
}

void addPanel(const SceneSource& source, const Marks& marks, double time_s, DrawList& list) {
    constexpr double kModelSpan_m = 7.6;
    // A user's model has a panel of its own; behind the head there is none.
    const Vec3 ahead_S = rotate(list.aircraft.q_SB, Vec3(1, 0, 0));
    if (!source.aircraft->model_file.empty() || glm::dot(list.camera.forward_S, ahead_S) < 0.4) {
        return;
    }
    const double model_scale = list.aircraft.span_m / kModelSpan_m;
    const path::Path& path = *source.path;
    const path::Sample now = path::sampleAt(path, time_s);
    const auto face = [&](const Place& place) { return Face(place, model_scale, list); };

    drawSpeed(face(kSpeed), source, marks, now);
    const std::size_t index = path::sampleIndexAt(path, time_s);
    const bool held = source.shape && index < source.shape->most_load_g.size();
    drawLoad(face(kLoad), source, now,
             held ? std::pair<double, double>(source.shape->least_load_g[index],
                                              source.shape->most_load_g[index])
                  : std::pair<double, double>(1, 1));
    drawHeight(face(kHeight), marks, now);
    drawClimb(face(kClimb), marks, now);

    DialScale power;
    power.high = 100;
    power.step = 10;
    power.limit_high = 100;
    drawScale(face(kPower), power, "%");
    if (path.known.power) face(kPower).needle(needleAngle(power, 100 * now.power_frac));

    DialScale head;
    head.low = 50;
    head.high = 300;
    head.step = 25;
    head.limit_low = head.low;
    const double limit_k = source.aircraft->power.head_limit_k;
    head.limit_high = limit_k > 0 ? limit_k - kIce_k : head.high;
    drawScale(face(kHead), head, "C");
    if (path.known.power && now.head_temperature_k > 0) {
        face(kHead).needle(needleAngle(head, now.head_temperature_k - kIce_k));
    }
    drawFuel(face(kFuel), source, now);
    if (source.slot_s > 0) drawSlot(face(kSlot), source, time_s);
}

}  // namespace plumbline::scene

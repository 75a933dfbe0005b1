#include "viewer/scene/views.h"

#include <array>
#include <cmath>

#include "engine/base/number_text.h"
#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

constexpr std::array<const char*, kViewCount> kWords = {"crowd", "judge", "cockpit",
                                                        "chase", "map",   "free"};

constexpr double kRow_m = 1.6;  // chosen: from row to row of a standing crowd

/// chosen: nearer to the sun than this nobody looks for long; no source
constexpr double kGlare_rad = 12 * kPi / 180;

std::string whole(double value) { return formatFixed(value, 0); }

std::string degrees(double angle_rad, int decimals) {
    return formatFixed(angle_rad * 180 / kPi, decimals) + "\u00b0";
}

/// "show centre", "150 m right of centre".
std::string alongTheLine(double x_m) {
    if (std::abs(x_m) < 0.5) return "at show centre";
    return whole(std::abs(x_m)) + " m " + (x_m > 0 ? "right" : "left") + " of centre";
}

std::string lens(const ViewSettings& settings) {
    return whole(settings.lens_mm) + " mm" + (settings.follow ? "" : ", held still");
}

std::string headTurn(const ViewSettings& settings) {
    std::string words;
    const double right = settings.head_right_rad, up = settings.head_up_rad;
    if (std::abs(right) >= 0.5 * kPi / 180) {
        words += ", head " + degrees(std::abs(right), 0) + (right > 0 ? " right" : " left");
    }
    if (std::abs(up) >= 0.5 * kPi / 180 && (right != 0 || up != kRestingLook_rad)) {
        words += (words.empty() ? ", head " : " and ") + degrees(std::abs(up), 0) +
                 (up > 0 ? " up" : " down");
    }
    return words.empty() ? ", looking ahead" : words;
}

std::string whereOf(const ViewSettings& settings, const Camera& camera, const data::Site& site) {
    const bool on_ground = settings.view == View::Crowd || settings.view == View::Judge;
    if (on_ground && !(site.crowd_line_y_m < 0))
        return "No crowd line known: from where the flight begins, " + lens(settings);
    switch (settings.view) {
        case View::Crowd: {
            const int row = 1 + static_cast<int>(std::floor(settings.rows_back_m / kRow_m));
            return "Row " + std::to_string(row) + ", " + alongTheLine(settings.seat_x_m) + ", " +
                   lens(settings) + ", " +
                   (settings.eye_height_m > 0.5 * (kSitting_m + kStanding_m) ? "standing"
                                                                             : "sitting");
        }
        case View::Judge:
            return "Judge\u2019s seat, " + whole(std::abs(camera.eye_S_m.y)) +
                   " m from the show line, " + lens(settings);
        case View::Cockpit:
            return "Pilot\u2019s eye" + headTurn(settings);
        case View::Chase:
            return "Chase, " + whole(settings.chase_distance_m) + " m from the aircraft";
        case View::Map:
            return "Map, crowd at the bottom, " + whole(2 * camera.half_height_m) + " m high";
        case View::Free:
            return settings.orbit_follow
                       ? "Free, " + whole(settings.orbit_distance_m) + " m round the aircraft"
                       : "Free, " + whole(settings.orbit_distance_m) + " m from its centre";
    }
    return {};
}

/// Where the aircraft is, for views that go with it.
std::string placeWords(const Vec3& position_S_m) {
    return "Aircraft " + whole(std::hypot(position_S_m.x, position_S_m.y)) +
           " m from show centre, " + whole(position_S_m.z) + " m high";
}

/// How far, how large, how late, for eyes that stand on the ground.
std::string distanceWords(const Vec3& eye_S_m, const Vec3& position_S_m, double span_m,
                          double speed_of_sound_mps, bool heard) {
    const double distance_m = glm::length(position_S_m - eye_S_m);
    std::string words = "Aircraft " + whole(distance_m) + " m away";
    if (span_m > 0) {
        const double angle_rad = apparentAngle(span_m, distance_m);
        words += ", spans " + degrees(angle_rad, angle_rad < 10 * kPi / 180 ? 1 : 0);
    }
    if (heard) words += ", heard " + formatFixed(distance_m / speed_of_sound_mps, 2) + " s late";
    return words;
}

}  // namespace

const char* viewWord(View view) { return kWords.at(static_cast<std::size_t>(view)); }

bool viewFromWord(const std::string& word, View& view) {
    for (std::size_t i = 0; i < kWords.size(); ++i) {
        if (word == kWords[i]) {
            view = static_cast<View>(i);
            return true;
        }
    }
    return false;
}

double sunAngle(const Vec3& eye_S_m, const Vec3& position_S_m, const World& world) {
    const Vec3 to_S_m = position_S_m - eye_S_m;
    const double distance_m = glm::length(to_S_m);
    if (world.sun_elevation_rad <= 0 || distance_m < 1) return kPi;
    const Vec3 sun_S = glm::normalize(world.sun_S);
    return std::atan2(glm::length(glm::cross(to_S_m, sun_S)), glm::dot(to_S_m, sun_S));
}

double verticalFieldOfView(double lens_mm, double picture_aspect) {
    constexpr double kHalfFrame_mm = 18;
    return 2 * std::atan(kHalfFrame_mm / (lens_mm * picture_aspect));
}

double apparentAngle(double span_m, double distance_m) {
    return 2 * std::atan2(0.5 * span_m, distance_m);
}

ViewCaption captionAt(const ViewSettings& settings, const Camera& camera, const path::Path& path,
                      const data::Aircraft& aircraft, double time_s, const World& world) {
    ViewCaption caption;
    caption.where = whereOf(settings, camera, world.site);
    if (path.samples.empty()) return caption;
    const Vec3 position_S_m = placeAt(path, time_s).position_S_m;
    const bool on_ground = settings.view == View::Crowd || settings.view == View::Judge;
    if (on_ground || settings.view == View::Free) {
        // The stand-in for a recording's unknown type has a span to be drawn with, but no wing
        // area.
        const bool type_known = aircraft.geometry.wing_area_m2 > 0;
        caption.distance =
            distanceWords(camera.eye_S_m, position_S_m, type_known ? aircraft.geometry.span_m : 0,
                          world.speed_of_sound_mps, on_ground);
    } else {
        caption.distance = placeWords(position_S_m);
    }
    if (on_ground) {
        const double angle_rad = sunAngle(camera.eye_S_m, position_S_m, world);
        if (angle_rad < kGlare_rad) {
            caption.glare = "In the glare: sun " + degrees(angle_rad, 0) + " from the aircraft";
        }
    }
    // How surely a recording tells it: twice the expected error, never finer than a metre or
    // degree.
    const path::Sample& sample = path.samples[path::sampleIndexAt(path, time_s)];
    if (sample.position_sigma_m > 0)
        caption.distance +=
            ", to within " +
            formatFixed(std::ceil(2 * static_cast<double>(sample.position_sigma_m)), 0) + " m";
    if (!path::attitudeShown(path, sample))
        caption.distance += ", bank not known";
    else if (sample.attitude_sigma_rad > 0)
        caption.distance +=
            ", attitude to within " +
            degrees(std::ceil(2 * static_cast<double>(sample.attitude_sigma_rad) * 180 / kPi) *
                        kPi / 180,
                    0);
    return caption;
}

}  // namespace plumbline::scene

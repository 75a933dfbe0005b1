#include "viewer/scene/caption.h"

#include <cmath>

#include "engine/base/number_text.h"
#include "engine/review/doubts.h"
#include "viewer/scene/path_lookup.h"

namespace plumbline::scene {

namespace {

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
    return metres(std::abs(x_m)) + " " + (x_m > 0 ? "right" : "left") + " of centre";
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
            return "Judge\u2019s seat, " + metres(std::abs(camera.eye_S_m.y)) +
                   " from the show line, " + lens(settings);
        case View::Cockpit:
            return "Pilot\u2019s eye" + headTurn(settings);
        case View::Chase:
            return "Chase, " + metres(settings.chase_distance_m) + " from the aircraft";
        case View::Map:
            return "Map, crowd at the bottom, " + metres(2 * camera.half_height_m) + " high";
        case View::Free:
            return settings.orbit_follow
                       ? "Free, " + metres(settings.orbit_distance_m) + " round the aircraft"
                       : "Free, " + metres(settings.orbit_distance_m) + " from its centre";
    }
    return {};
}

/// Where the aircraft is, for views that go with it.
std::string placeWords(const Vec3& position_S_m, const HeightWords& height) {
    return "Aircraft " + metres(std::hypot(position_S_m.x, position_S_m.y)) +
           " from show centre, " + height(position_S_m.z) + " high";
}

/// How far, how large, how late, for eyes that stand on the ground.
std::string distanceWords(const Vec3& eye_S_m, const Vec3& position_S_m, double span_m,
                          double speed_of_sound_mps, bool heard) {
    const double distance_m = glm::length(position_S_m - eye_S_m);
    std::string words = "Aircraft " + metres(distance_m) + " away";
    if (span_m > 0) {
        const double angle_rad = apparentAngle(span_m, distance_m);
        words += ", spans " + degrees(angle_rad, angle_rad < 10 * kPi / 180 ? 1 : 0);
    }
    if (heard && distance_m < kFar_m)
        words += ", heard " + formatFixed(distance_m / speed_of_sound_mps, 2) + " s late";
    return words;
}

}  // namespace

std::string metres(double length_m) {
    if (std::abs(length_m) < kFar_m) return whole(length_m) + " m";
    return whole(length_m / 1000) + " km";
}

ViewCaption captionAt(const ViewSettings& settings, const Camera& camera, const path::Path& path,
                      const data::Aircraft& aircraft, double time_s, const World& world,
                      const HeightWords& height) {
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
        caption.distance = placeWords(position_S_m, height);
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
        caption.distance += ", to within " + metres(std::ceil(2 * review::placeSigma_m(sample)));
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

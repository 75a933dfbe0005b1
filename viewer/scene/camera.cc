// The cameras of the six views.

#include <algorithm>
#include <cmath>

#include "engine/units/units.h"
#include "viewer/scene/chase.h"
#include "viewer/scene/hand_follow.h"
#include "viewer/scene/path_lookup.h"
#include "viewer/scene/pose.h"
#include "viewer/scene/views.h"

namespace plumbline::scene {

namespace {

// chosen: lenses of the views that have none of their own, mm of full frame
constexpr double kCockpitLens_mm = 20;
constexpr double kChaseLens_mm = 28;
constexpr double kFreeLens_mm = 35;

constexpr double kLowestEye_m = 1.2;   ///< no eye goes under the ground
constexpr double kMapHeight_m = 5000;  ///< of the map's eye; parallel, so only the order matters

void lookAlong(Camera& camera, double azimuth_rad, double elevation_rad) {
    const double c = std::cos(elevation_rad), s = std::sin(elevation_rad);
    const Vec3 flat_S(std::sin(azimuth_rad), std::cos(azimuth_rad), 0);
    camera.forward_S = c * flat_S + Vec3(0, 0, s);
    camera.up_S = -s * flat_S + Vec3(0, 0, c);
}

/// Level wings: up lies in the vertical plane of forward.
void standUpright(Camera& camera, const Vec3& fallback_up_S) {
    const Vec3 up = Vec3(0, 0, 1) - camera.forward_S.z * camera.forward_S;
    const double length = glm::length(up);
    camera.up_S = length > 1e-6 ? up / length : fallback_up_S;
}

Vec3 judgeEye(const data::Site& site) {
    for (const data::Viewpoint& viewpoint : site.viewpoints) {
        if (viewpoint.name == "judge") return viewpoint.eye_S_m;
    }
    // chosen: a chair on the crowd line at show centre
    return {0, site.crowd_line_y_m, 1.3};
}

Camera groundCamera(const ViewSettings& settings, const path::Path& path, const Vec3& eye_S_m,
                    double time_s, double aspect) {
    Camera camera;
    camera.eye_S_m = eye_S_m;
    camera.vertical_fov_rad = verticalFieldOfView(settings.lens_mm, aspect);
    camera.near_m = 0.6;
    if (!settings.follow || path.samples.empty()) {
        lookAlong(camera, settings.crowd_azimuth_rad, settings.crowd_elevation_rad);
        return camera;
    }
    camera.forward_S = handFollow(path, eye_S_m, time_s, 0.5 * camera.vertical_fov_rad);
    standUpright(camera, Vec3(0, -1, 0));
    return camera;
}

Camera cockpitCamera(const ViewSettings& settings, const path::Path& path,
                     const data::Aircraft& aircraft, double time_s, double aspect) {
    const AircraftPose pose = poseAt(path, aircraft, time_s);
    const double cr = std::cos(settings.head_right_rad), sr = std::sin(settings.head_right_rad);
    const double cu = std::cos(settings.head_up_rad), su = std::sin(settings.head_up_rad);
    Camera camera;
    camera.eye_S_m = pose.position_S_m + rotate(pose.q_SB, aircraft.geometry.eye_B_m);
    camera.forward_S = rotate(pose.q_SB, Vec3(cu * cr, cu * sr, -su));
    camera.up_S = rotate(pose.q_SB, Vec3(-su * cr, -su * sr, -cu));
    camera.vertical_fov_rad = verticalFieldOfView(kCockpitLens_mm, aspect);
    camera.near_m = 0.12;
    return camera;
}

Camera chaseCamera(const ViewSettings& settings, const path::Path& path, double time_s,
                   double aspect) {
    const Vec3 target_S_m = placeAt(path, time_s).position_S_m;
    const ChaseHeading behind = chaseHeading(path, time_s);
    // Half the climb: from below on an upline, from above on a downline, the horizon never lost for
    // long.
    constexpr double kClimbShare = 0.5;
    const double elevation_rad =
        std::clamp(settings.chase_elevation_rad - kClimbShare * behind.climb_rad,
                   -70 * units::kDegree_rad, 85 * units::kDegree_rad);
    const double around_rad = behind.heading_rad + kPi + settings.chase_azimuth_rad;
    const Vec3 out_S(std::cos(elevation_rad) * std::cos(around_rad),
                     std::cos(elevation_rad) * std::sin(around_rad), std::sin(elevation_rad));
    Camera camera;
    camera.eye_S_m = target_S_m + settings.chase_distance_m * out_S;
    camera.eye_S_m.z = std::max(camera.eye_S_m.z, kLowestEye_m);
    const Vec3 look = target_S_m - camera.eye_S_m;
    camera.forward_S = glm::length(look) > 0.1 ? glm::normalize(look) : -out_S;
    standUpright(camera, Vec3(-std::cos(around_rad), -std::sin(around_rad), 0));
    camera.vertical_fov_rad = verticalFieldOfView(kChaseLens_mm, aspect);
    camera.near_m = std::min(2.0, 0.2 * settings.chase_distance_m);
    return camera;
}

struct MapFit {
    double x_m = 0, y_m = 0, half_height_m = 400;
};

MapFit mapFit(const path::Path& path, const data::Site& site, double aspect) {
    double x_low = 0, x_high = 0, y_low = std::min(0.0, site.crowd_line_y_m), y_high = 0;
    const auto include = [&](double x_m, double y_m) {
        x_low = std::min(x_low, x_m);
        x_high = std::max(x_high, x_m);
        y_low = std::min(y_low, y_m);
        y_high = std::max(y_high, y_m);
    };
    if (site.box) {
        include(site.box->x_min_m, site.box->y_min_m);
        include(site.box->x_max_m, site.box->y_max_m);
    }
    // Some two thousand samples say enough of where a path goes.
    const std::size_t stride = 1 + path.samples.size() / 2048;
    for (std::size_t i = 0; i < path.samples.size(); i += stride) {
        include(path.samples[i].position_S_m.x, path.samples[i].position_S_m.y);
    }
    constexpr double kMargin = 1.12, kLeast_m = 150;  // chosen
    MapFit fit;
    fit.x_m = 0.5 * (x_low + x_high);
    fit.y_m = 0.5 * (y_low + y_high);
    fit.half_height_m = std::max(
        {kLeast_m, kMargin * 0.5 * (y_high - y_low), kMargin * 0.5 * (x_high - x_low) / aspect});
    return fit;
}

Camera mapCamera(const ViewSettings& settings, const path::Path& path, const data::Site& site,
                 double aspect) {
    const MapFit fit = mapFit(path, site, aspect);
    Camera camera;
    camera.orthographic = true;
    camera.half_height_m =
        settings.map_half_height_m > 0 ? settings.map_half_height_m : fit.half_height_m;
    camera.eye_S_m = {fit.x_m + settings.map_x_m, fit.y_m + settings.map_y_m, kMapHeight_m};
    camera.forward_S = {0, 0, -1};
    camera.up_S = {0, 1, 0};  // the crowd at the bottom, as it sees left and right
    camera.near_m = 1;
    return camera;
}

Camera freeCamera(const ViewSettings& settings, const path::Path& path, double time_s,
                  double aspect) {
    Vec3 target_S_m = settings.orbit_target_S_m;
    if (settings.orbit_follow && !path.samples.empty()) {
        target_S_m = placeAt(path, time_s).position_S_m;
    }
    const double c = std::cos(settings.orbit_elevation_rad);
    const double s = std::sin(settings.orbit_elevation_rad);
    const Vec3 out_S(c * std::sin(settings.orbit_azimuth_rad),
                     -c * std::cos(settings.orbit_azimuth_rad), s);
    Camera camera;
    camera.eye_S_m = target_S_m + settings.orbit_distance_m * out_S;
    camera.eye_S_m.z = std::max(camera.eye_S_m.z, kLowestEye_m);
    const Vec3 look = target_S_m - camera.eye_S_m;
    camera.forward_S = glm::length(look) > 0.1 ? glm::normalize(look) : -out_S;
    standUpright(camera, Vec3(-std::sin(settings.orbit_azimuth_rad),
                              std::cos(settings.orbit_azimuth_rad), 0));
    camera.vertical_fov_rad = verticalFieldOfView(kFreeLens_mm, aspect);
    camera.near_m = std::clamp(0.02 * settings.orbit_distance_m, 1.0, 6.0);
    return camera;
}

}  // namespace

double mapFitHalfHeight(const path::Path& path, const data::Site& site, double picture_aspect) {
    return mapFit(path, site, picture_aspect).half_height_m;
}

Vec3 seatOf(const ViewSettings& settings, const data::Site& site) {
    if (settings.view == View::Judge) return judgeEye(site);
    return {settings.seat_x_m, site.crowd_line_y_m - settings.rows_back_m, settings.eye_height_m};
}

Camera cameraAt(const ViewSettings& settings, const path::Path& path, const data::Site& site,
                const data::Aircraft& aircraft, double time_s, double picture_aspect) {
    const double aspect = picture_aspect > 0 ? picture_aspect : 1;
    const bool empty = path.samples.empty();
    switch (settings.view) {
        case View::Judge:
            return groundCamera(settings, path, seatOf(settings, site), time_s, aspect);
        case View::Cockpit:
            if (empty) break;
            return cockpitCamera(settings, path, aircraft, time_s, aspect);
        case View::Chase:
            if (empty) break;
            return chaseCamera(settings, path, time_s, aspect);
        case View::Map:
            return mapCamera(settings, path, site, aspect);
        case View::Free:
            return freeCamera(settings, path, time_s, aspect);
        case View::Crowd:
            break;
    }
    return groundCamera(settings, path, seatOf(settings, site), time_s, aspect);
}

}  // namespace plumbline::scene

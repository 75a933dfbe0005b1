#include "viewer/model/view_motion.h"

#include <algorithm>
#include <cmath>

namespace plumbline::model {

void turnView(scene::ViewSettings& view, double x, double y) {
    constexpr double kTurn = 0.35;  // chosen: rad for 100 px
    switch (view.view) {
        case scene::View::Crowd:
        case scene::View::Judge: {
            // The scene behind the pointer follows it; a longer lens turns slower.
            const double turn = kTurn * 37 / view.lens_mm;
            view.follow = false;
            view.crowd_azimuth_rad = std::clamp(view.crowd_azimuth_rad - x * turn, -kPi, kPi);
            view.crowd_elevation_rad = std::clamp(view.crowd_elevation_rad + y * turn, -0.3, 1.5);
            break;
        }
        case scene::View::Cockpit:
            view.head_right_rad = std::clamp(view.head_right_rad + x * kTurn, -2.6, 2.6);
            view.head_up_rad = std::clamp(view.head_up_rad - y * kTurn, -0.9, 1.5);
            break;
        case scene::View::Chase:
            view.chase_azimuth_rad = std::remainder(view.chase_azimuth_rad - x * kTurn, 2 * kPi);
            view.chase_elevation_rad = std::clamp(view.chase_elevation_rad + y * kTurn, -1.2, 1.5);
            break;
        case scene::View::Map:
            break;
        case scene::View::Free:
            view.orbit_azimuth_rad = std::remainder(view.orbit_azimuth_rad - x * kTurn, 2 * kPi);
            view.orbit_elevation_rad = std::clamp(view.orbit_elevation_rad + y * kTurn, 0.02, 1.55);
            break;
    }
}

void panView(scene::ViewSettings& view, double x, double y) {
    switch (view.view) {
        case scene::View::Map: {
            const double half_m = view.map_half_height_m > 0 ? view.map_half_height_m : 600;
            view.map_x_m -= x * half_m * 0.3;
            view.map_y_m += y * half_m * 0.3;
            break;
        }
        case scene::View::Free: {
            const double step_m = view.orbit_distance_m * 0.12;
            const double c = std::cos(view.orbit_azimuth_rad);
            const double s = std::sin(view.orbit_azimuth_rad);
            view.orbit_target_S_m.x -= x * step_m * c;
            view.orbit_target_S_m.y -= x * step_m * s;
            view.orbit_target_S_m.z = std::clamp(view.orbit_target_S_m.z + y * step_m, 0.0, 5000.0);
            view.orbit_follow = false;
            break;
        }
        case scene::View::Crowd:
            view.seat_x_m = std::clamp(view.seat_x_m - x * 20, -3000.0, 3000.0);
            view.rows_back_m = std::clamp(view.rows_back_m + y * 6, 0.5, 300.0);
            break;
        case scene::View::Judge:
        case scene::View::Cockpit:
        case scene::View::Chase:
            turnView(view, x, y);
            break;
    }
}

void zoomView(scene::ViewSettings& view, double notches) {
    const double nearer = std::pow(0.88, notches);
    switch (view.view) {
        case scene::View::Crowd:
        case scene::View::Judge:
            view.lens_mm = std::clamp(view.lens_mm / nearer, kShortestLens_mm, kLongestLens_mm);
            break;
        case scene::View::Cockpit:
            break;
        case scene::View::Chase:
            view.chase_distance_m = std::clamp(view.chase_distance_m * nearer, 8.0, 500.0);
            break;
        case scene::View::Map: {
            const double half_m = view.map_half_height_m > 0 ? view.map_half_height_m : 600;
            view.map_half_height_m = std::clamp(half_m * nearer, 50.0, 20000.0);
            break;
        }
        case scene::View::Free:
            view.orbit_distance_m = std::clamp(view.orbit_distance_m * nearer, 20.0, 20000.0);
            break;
    }
}

/// The view as it is at first; the other views keep what was set.
void resetView(scene::ViewSettings& view) {
    const scene::ViewSettings fresh;
    switch (view.view) {
        case scene::View::Crowd:
        case scene::View::Judge:
            view.seat_x_m = fresh.seat_x_m;
            view.rows_back_m = fresh.rows_back_m;
            view.eye_height_m = fresh.eye_height_m;
            view.lens_mm = fresh.lens_mm;
            view.follow = true;
            break;
        case scene::View::Cockpit:
            view.head_right_rad = 0;
            view.head_up_rad = scene::kRestingLook_rad;
            break;
        case scene::View::Chase:
            view.chase_distance_m = fresh.chase_distance_m;
            view.chase_azimuth_rad = fresh.chase_azimuth_rad;
            view.chase_elevation_rad = fresh.chase_elevation_rad;
            break;
        case scene::View::Map:
            view.map_half_height_m = 0;
            view.map_x_m = 0;
            view.map_y_m = 0;
            break;
        case scene::View::Free:
            view.orbit_target_S_m = fresh.orbit_target_S_m;
            view.orbit_distance_m = fresh.orbit_distance_m;
            view.orbit_azimuth_rad = fresh.orbit_azimuth_rad;
            view.orbit_elevation_rad = fresh.orbit_elevation_rad;
            view.orbit_follow = fresh.orbit_follow;
            break;
    }
}

}  // namespace plumbline::model

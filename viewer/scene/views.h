#pragma once
// The six places to look from: how a camera follows from the path, the time and the view's
// settings. No GL.

#include <string>

#include "engine/data/aircraft.h"
#include "engine/data/site.h"
#include "engine/path/path.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::scene {

enum class View { Crowd, Judge, Cockpit, Chase, Map, Free };
inline constexpr int kViewCount = 6;

/// "crowd", "judge", "cockpit", "chase", "map", "free".
const char* viewWord(View view);
bool viewFromWord(const std::string& word, View& view);

/// chosen: a little down, so that the panel is in sight.
inline constexpr double kRestingLook_rad = -9 * kPi / 180;

/// chosen: eyes of people in a crowd; above the middle of the two they stand
inline constexpr double kSitting_m = 1.2, kStanding_m = 1.7;

/// What a person has set for the views; saved with the session, not undone.
struct ViewSettings {
    View view = View::Crowd;
    // Crowd line: seat along the line and back from it, eye height, lens (mm of full frame).
    double seat_x_m = 0;
    double rows_back_m = 4;
    double eye_height_m = kStanding_m;
    double lens_mm = 37;
    bool follow = true;
    double crowd_azimuth_rad = 0;  ///< when not following: look from +y towards +x
    double crowd_elevation_rad = 0.12;
    // Cockpit: head turned right / up.
    double head_right_rad = 0;
    double head_up_rad = kRestingLook_rad;
    // Chase: behind, above, turned about.
    double chase_distance_m = 22;
    double chase_azimuth_rad = 0.35;
    double chase_elevation_rad = 0.22;
    // Map.
    double map_half_height_m = 0;     ///< 0: fit the path
    double map_x_m = 0, map_y_m = 0;  ///< from the middle of path and box
    // Free orbit.
    Vec3 orbit_target_S_m{0, 0, 200};
    double orbit_distance_m = 1000;
    double orbit_azimuth_rad =
        0.5;  ///< eye seen from the target: 0 at the crowd side, positive to crowd right
    double orbit_elevation_rad = 0.12;
    bool orbit_follow = false;
};

/// The camera of a view at a time. The crowd's and judge's cameras lag the aircraft like a hand
/// (critically damped, 0.25 s); the lag is evaluated from the path itself, so that scrubbing and
/// playing give the same picture.
Camera cameraAt(const ViewSettings& settings, const path::Path& path, const data::Site& site,
                const data::Aircraft& aircraft, double time_s, double picture_aspect);

/// Where the crowd's or, in the judge's view, the judge's eyes and ears are.
Vec3 seatOf(const ViewSettings& settings, const data::Site& site);

/// Angle between the aircraft and the sun's middle, from an eye; pi when the sun is down.
double sunAngle(const Vec3& eye_S_m, const Vec3& position_S_m, const World& world);

/// Half height of a map that shows the whole path and the box (ViewSettings::map_half_height_m =
/// 0).
double mapFitHalfHeight(const path::Path& path, const data::Site& site, double picture_aspect);

/// Vertical field of view of a full-frame lens (36 x 24 mm), for a picture of this aspect: the
/// horizontal field is kept.
double verticalFieldOfView(double lens_mm, double picture_aspect);
/// Angle that a span makes at a distance.
double apparentAngle(double span_m, double distance_m);

}  // namespace plumbline::scene

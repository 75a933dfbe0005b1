#pragma once
// What to draw for one view at one moment: plain data, no GL. Positions are in site axes, metres;
// the renderer subtracts the eye in double before it goes to float. Colours are display-space RGBA,
// 0..1, not premultiplied.

#include <cstdint>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include <glm/ext/vector_float2.hpp>
#include <glm/ext/vector_float3.hpp>
#include <glm/ext/vector_float4.hpp>

#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/earth/wind.h"
#include "engine/math/frames.h"

namespace plumbline::scene {

/// A pin-hole camera in site axes.
struct Camera {
    Vec3 eye_S_m{0, -150, 1.7};
    Vec3 forward_S{0, 1, 0};        ///< unit
    Vec3 up_S{0, 0, 1};             ///< unit, across forward
    double vertical_fov_rad = 0.8;  ///< of the whole picture's height
    double near_m = 0.5;
    bool orthographic = false;  ///< the map; then half_height_m spans the picture's half height
    double half_height_m = 800;
};

/// A picture from above, as pixels.
struct GroundPicture {
    int width_px = 0;
    int height_px = 0;
    std::vector<std::uint8_t> rgba;  ///< rows from the top
    Vec3 top_left_S_m{0}, top_right_S_m{0}, bottom_left_S_m{0};

    /// True for a place on the ground that it covers.
    bool covers(double x_m, double y_m) const;
};

/// The ground, sky and things that stand still: made once per site, sun and weather; the renderer
/// keeps its own meshes and textures keyed by `revision`.
struct World {
    std::uint64_t revision = 0;
    data::Site site;
    data::Weather weather;
    Vec3 sun_S{0.5, 0.5, 0.7};  ///< unit vector to the sun
    double sun_elevation_rad = 0.7;
    std::shared_ptr<const GroundPicture> aerial;  ///< laid on the ground; null: none
    earth::WindProfile wind;                      ///< for smoke and the wind sock
    double speed_of_sound_mps = 340.294;          ///< at show centre; ICAO Doc 7488 at sea level
};

/// The aircraft as drawn. Surfaces in radians, positive as their names say.
struct AircraftPose {
    Vec3 position_S_m{0};
    Quat q_SB{0, 1, 0, 0};
    double propeller_rad = 0;   ///< blade angle, for the disc's shimmer
    double propeller_blur = 1;  ///< 0: blades, 1: disc
    double aileron_rad = 0;     ///< right roll positive
    double elevator_rad = 0;    ///< nose up positive
    double rudder_rad = 0;      ///< nose right positive
    float opacity = 1;
    bool attitude_known = true;  ///< false: draw a plain marker that has no bank
    bool hidden = false;         ///< not drawn at all
    bool cockpit = false;        ///< seen from the pilot's eye: all but the canopy's glass
    double span_m = 8;           ///< the model is scaled so that its span is this
};

/// A strip of the path band: two edges, colour on the canopy side (the wheel side is derived by the
/// renderer). `to_come` strips are drawn as an open ladder: edges and a rung where `rung` is set.
struct BandVertex {
    Vec3 left_S_m;  ///< left wing's edge
    Vec3 right_S_m;
    Vec3 canopy_S;  ///< unit, towards the canopy
    glm::vec4 colour;
    float time_s = 0;  ///< for cross stripes (six a second) and lines (each second)
    bool rung = false;
};
struct Band {
    bool ladder = false;
    std::vector<BandVertex> vertices;
};

/// A line on the ground or in the air, as a screen-space quad strip.
struct Polyline {
    std::vector<Vec3> points_S_m;
    glm::vec4 colour{1};
    float width_px = 1.2F;   ///< at picture height 720; scaled with the picture and pixel ratio
    float width_m = 0;       ///< > 0: this width instead, not less than width_px
    bool round = false;      ///< width_m is that of a rod or a ribbon, not of paint on the ground
    float dash_m = 0;        ///< > 0: dash and gap length
    float halo_px = 0;       ///< > 0: a dark line of this width below, 35 %
    bool on_ground = false;  ///< drawn over the ground without depth fighting
    bool depth_test = true;
    bool inside = false;  ///< on the aircraft, seen from its seat: over everything else
};

/// One puff of smoke: a lit, noise-eaten sprite.
struct Puff {
    Vec3 position_S_m{0};
    float diameter_m = 1;
    float opacity = 0.5F;
    float seed = 0;   ///< 0..1
    float spent = 0;  ///< share of its life that is over: old smoke has no edge left
};

/// A small screen-facing mark: the bob of the thread, a gate's end.
struct Bob {
    Vec3 position_S_m{0};
    float size_px = 17;  ///< height of the bob
    glm::vec4 colour{1};
};

/// A word or number to set over the picture; drawn by the UI, which projects it with the camera.
struct Label {
    Vec3 position_S_m{0};
    std::string text;                ///< words before the length; may be empty
    std::optional<double> height_m;  ///< told in the chosen units
    bool least = false;              ///< never told as less than it is
    std::string quiet;               ///< second, quieter part; may be empty
    std::optional<double> quiet_m;   ///< its length
    float offset_x_px = 10, offset_y_px = -8;
    bool leads = false;  ///< a line leads from the place to it
};

/// The sighting frame's bars, by the angle of the zero-lift axis to the horizontal. The same bar
/// serves 45 up upright and 45 down inverted.
enum class Bar { Level, Vertical, Climbing45, Descending45 };

/// What the sighting frame shows (sighting.h).
struct SightingReading {
    Bar bar = Bar::Level;
    double angle_rad = 0;      ///< from the horizon to the bar, as seen; anticlockwise positive
    double pull_rad = 0;       ///< nose towards the canopy by so much puts it right; < 0: push
    double right_low_rad = 0;  ///< right wing below the left; on a vertical: leaning to the right
    double attitude_rad = 0;   ///< zero-lift axis from the bar's angle, towards the canopy positive
    double path_rad = 0;       ///< flight path from it, in the plane of symmetry, likewise
    double wind_rad = 0;       ///< how much of path_rad is the wind's
    double left_above_rad = 0;  ///< left hub above the horizon with its dip
    double right_above_rad = 0;
};

enum class Quality { Low, Normal, High };

struct DrawList {
    Camera camera;
    std::shared_ptr<const World> world;
    bool show_aircraft = true;
    AircraftPose aircraft;
    bool show_ghost = false;
    AircraftPose ghost;
    std::vector<Band> bands;
    std::vector<Polyline> lines;
    std::vector<Puff> smoke;
    std::vector<Bob> bobs;
    std::vector<Label> labels;
    std::optional<SightingReading> sighting;  ///< while the pilot looks along a wing
    bool show_crowd = true;
    double time_s = 0;  ///< for the wind sock, cloud drift and the propeller
    Quality quality = Quality::Normal;
    float render_scale = 1;  ///< < 1: drawn smaller and stretched
};

/// World to picture: pixel coordinates (origin top left) and distance; false behind the eye.
bool project(const Camera& camera, int width_px, int height_px, const Vec3& point_S_m, double& x_px,
             double& y_px, double& distance_m);

}  // namespace plumbline::scene

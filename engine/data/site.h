#pragma once
// A display site: show centre, lines, box, floor, things on the ground. Site axes S (frames.h).

#include <optional>
#include <string>
#include <vector>

#include "engine/base/problem.h"
#include "engine/earth/geo_point.h"
#include "engine/math/frames.h"

namespace plumbline::data {

using GeoPoint = earth::GeoPoint;

struct Runway {
    Vec3 centre_S_m{0};
    double bearing_rad = 0;  ///< true, of one direction
    double length_m = 0;
    double width_m = 0;
    std::string low_mark;  ///< painted at the end where one starts flying along bearing_rad, "07"
    std::string high_mark;
};

/// A vertical prism to keep clear of.
struct Obstacle {
    std::string name;
    std::vector<Vec3> outline_S_m;
    double top_m = 0;  ///< height above show centre
};

struct Box {
    double x_min_m = 0, x_max_m = 0, y_min_m = 0, y_max_m = 0, top_m = 0;
};

/// A part of the field with a floor of its own: over a road, houses, the far side.
struct FloorArea {
    std::string name;
    std::vector<Vec3> outline_S_m;
    double floor_m = 0;
};

/// Where one could land without an engine, in both directions of its bearing.
struct LandingStrip {
    std::string name;
    Vec3 centre_S_m{0};
    double bearing_rad = 0;  ///< true
    double length_m = 0;
};

/// A rule set that the site asks for, and where its file says so.
struct RuleName {
    std::string name;
    TextPosition where;
};

/// A ribbon between two poles, stretched across the show line.
struct Ribbon {
    std::string name;
    double x_m = 0, y_m = 0;  ///< its middle
    double height_m = 0;      ///< above show centre
    double length_m = 0;      ///< between the poles
};

/// A picture of the field from above, laid on the ground.
struct AerialPicture {
    std::string file;  ///< beside the site file; from the loader: where it lies
    // Where its corners come to lie; the fourth follows from them.
    Vec3 top_left_S_m{0}, top_right_S_m{0}, bottom_left_S_m{0};
};

/// What is said on the radio, and on what; each may be empty.
struct Radio {
    std::string frequency, spare_frequency;  ///< "119.005 MHz"
    std::string first_call, stop_call, last_call;
};

/// What is done when something goes wrong, as it is briefed; each may be empty.
struct Emergency {
    std::string break_off, fire_rescue, other_field, crowd;
};

/// Where somebody stands to watch: eye position in site axes.
struct Viewpoint {
    std::string name;
    Vec3 eye_S_m{0};
};

struct Site {
    std::string name;
    std::string note;
    std::string outlines_file;  ///< GeoJSON beside the site file; empty: none
    GeoPoint show_centre;
    double show_line_bearing_rad = 0;  ///< true bearing of +x_S
    double crowd_line_y_m = 0;         ///< negative
    double crowd_x_min_m = 0, crowd_x_max_m = 0;
    double show_line_offset_m = 0;     ///< least distance of the flight path from the crowd line
    double reaction_s = 2;             ///< flight toward the crowd is looked ahead so far (chosen)
    double obstacle_clearance_m = 15;  ///< least distance from every obstacle (chosen)
    double floor_m = 0;                ///< least height
    std::vector<FloorArea> floor_areas;
    std::vector<LandingStrip> strips;  ///< beside the runway
    std::vector<RuleName> rules;       ///< rule files beside the site file, or built-in names
    std::optional<Box> box;
    std::optional<Runway> runway;
    std::optional<AerialPicture> aerial;
    std::vector<Obstacle> obstacles;
    std::vector<Ribbon> ribbons;
    Radio radio;
    Emergency emergency;
    std::vector<Viewpoint> viewpoints;  ///< "judge" is the judge's seat
    // The day of the show, for the sun: UTC.
    std::string show_time_utc;  ///< ISO 8601 "2026-06-27T17:40:00Z"; empty: noon of a midsummer day
};

}  // namespace plumbline::data

#pragma once
// A crowd line and an aircraft of eight metres of span.

#include "engine/data/aircraft.h"
#include "engine/data/site.h"

namespace plumbline::scene {

inline data::Site siteWithCrowd() {
    data::Site site;
    site.crowd_line_y_m = -150;
    site.crowd_x_min_m = -400;
    site.crowd_x_max_m = 400;
    return site;
}

inline data::Aircraft smallAircraft() {
    data::Aircraft aircraft;
    aircraft.geometry.span_m = 8;
    aircraft.geometry.wing_area_m2 = 10;
    aircraft.geometry.eye_B_m = {-0.75, 0, -0.7};
    return aircraft;
}

}  // namespace plumbline::scene

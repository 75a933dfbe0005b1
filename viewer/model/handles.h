#pragma once
// Numbers of the open figure's text that have a place in the picture, to be dragged there: how long
// a line is, where it ends, how high, how round.

#include <cstddef>
#include <string>
#include <vector>

#include "engine/math/frames.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::model {

struct Model;

struct Handle {
    std::size_t byte = 0;  ///< of the number's first digit in the routine's text
    std::string unit;      ///< "m" or "ft"
    double value = 0;      ///< in that unit
    Vec3 position_S_m{0};  ///< what it sets
    Vec3 way_S{0, 0, 1};   ///< metres that the place moves by for each metre of the number
    std::string words;     ///< "line up 190 m"
};

/// Of the figure that is open and flown as it is written; in the order of the text.
std::vector<Handle> handlesOf(const Model& model);

/// How many metres the number grows when the pointer goes so far on the picture; 0 where its way
/// points at the eye.
double draggedBy_m(const Handle& handle, const scene::Camera& camera, int width_px, int height_px,
                   double right_px, double down_px);

/// The number that it is dragged to, rounded to steps that somebody on the ground would see.
std::string draggedDigits(const Handle& taken, double by_m);

}  // namespace plumbline::model

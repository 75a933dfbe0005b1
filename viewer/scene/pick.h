#pragma once
// What lies under the pointer in the picture.

#include <optional>

#include "engine/path/path.h"
#include "viewer/scene/draw_list.h"

namespace plumbline::scene {

/// The stretch of the path that is drawn, and how near a pointer must come.
struct PickWish {
    double from_s = 0;
    double to_s = 0;
    double within_px = 10;
};

/// The moment at which the path is nearest to the pointer in the picture, where stretches cross on
/// the one nearer to the eye; nothing when the path is farther from the pointer than wished.
std::optional<double> pickPath(const path::Path& path, const Camera& camera, int width_px,
                               int height_px, double x_px, double y_px, const PickWish& wish);

}  // namespace plumbline::scene

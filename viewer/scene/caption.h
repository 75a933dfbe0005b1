#pragma once
// Where one looks from and what one sees of the aircraft there, in words.

#include <functional>
#include <string>

#include "viewer/scene/views.h"

namespace plumbline::scene {

/// A height in words, with its unit.
using HeightWords = std::function<std::string(double height_m)>;
/// From here on a distance is told in kilometres, and nothing is heard.
inline constexpr double kFar_m = 10e3;  // chosen
/// "315 m", from kFar_m on "12 km".
std::string metres(double length_m);

/// What the two lines under the view chooser say.
struct ViewCaption {
    std::string where;     ///< "Row 3, 150 m right of centre, 37 mm, standing"
    std::string distance;  ///< "Aircraft 315 m away, spans 1.5 deg, heard 0.92 s late"
    std::string glare;     ///< "Sun 4 deg from the aircraft"; empty: no glare
};
/// Distances are in metres, heights as `height` tells them.
ViewCaption captionAt(const ViewSettings& settings, const Camera& camera, const path::Path& path,
                      const data::Aircraft& aircraft, double time_s, const World& world,
                      const HeightWords& height = metres);

}  // namespace plumbline::scene

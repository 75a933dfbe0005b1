#pragma once
// A vertical line as an eye on the ground sees it.

#include <optional>

#include "engine/data/site.h"
#include "engine/review/lines.h"

namespace plumbline::review {

/// Where the judge sits, else the middle of the crowd: what is measured "as seen" is seen from
/// there.
Vec3 judgesEye(const data::Site& site);
/// Somebody who stands in the middle of the crowd line.
Vec3 crowdsEye(const data::Site& site);

struct Seen {
    double from_vertical_rad = 0;  ///< of the aircraft's axis in the eye's picture, 0..pi/2
    double sigma_rad = 0;          ///< by what the recording is not sure of; 0: not told
};
/// Nothing for a line that is not meant to be vertical: the same 45 deg look different from every
/// seat.
std::optional<Seen> seenFrom(const Vec3& eye_S_m, const path::Path& flight,
                             const LineMeasure& line);

}  // namespace plumbline::review

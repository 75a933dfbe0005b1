#pragma once
// A line as an eye on the ground sees it.

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
    /// The same of a true line at that place: 0 for a vertical; the same 45 deg look different from
    /// every seat.
    double true_from_vertical_rad = 0;
    double sigma_rad = 0;  ///< by what the recording is not sure of; 0: not told
    /// How much more upright than a true line it looks; negative: flatter, or a vertical that
    /// leans.
    double steeper_rad() const { return true_from_vertical_rad - from_vertical_rad; }
};
/// Nothing for a level line, and for one that the eye sees nearly from its end (within 20 deg).
std::optional<Seen> seenFrom(const Vec3& eye_S_m, const path::Path& flight,
                             const LineMeasure& line);

}  // namespace plumbline::review

#pragma once
// A path as CSV: what `plumbline solve` and `plumbline import` write and every other tool can read.

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

#include "engine/path/path.h"

namespace plumbline::out {

/// One row a sample, frames and signs of math/frames.h.
///
/// Columns, first the ones every reader may rely on, in this order: time_s, x_m, y_m, height_m, qw,
/// qx, qy, qz (body to site, scalar first, dot >= 0 from row to row), airspeed_mps,
/// groundspeed_mps, pitch_deg, roll_deg, heading_deg (true; held within 0.01 deg of vertical, where
/// roll takes the rest), aoa_deg, sideslip_deg, normal_g, lateral_g, axial_g, power_frac, mass_kg,
/// figure, element. Then velocity_{x,y,z}_mps, {roll,pitch,yaw}_rate_dps, fuel_kg,
/// element_number, smoke; and when the attitude or the bank is not known, attitude_known and
/// bank_known; and where a recording tells how sure it is, attitude_sigma_deg and position_sigma_m
/// (twice these hold about 95 % of the errors). time_s is the recording's own clock. What is not
/// known is left empty.
std::string pathCsv(const path::Path& path);

/// The same text in pieces of about a megabyte, for hours of flight.
class PathCsvPieces {
public:
    /// The path must stay as long as this.
    explicit PathCsvPieces(const path::Path& path);
    ~PathCsvPieces();
    PathCsvPieces(const PathCsvPieces&) = delete;
    PathCsvPieces& operator=(const PathCsvPieces&) = delete;

    /// Good until the next call; empty when there is no more.
    std::string_view next();

private:
    class Writer;
    const path::Path& path_;
    std::string piece_;
    std::unique_ptr<Writer> writer_;
    std::size_t row_ = 0;
    bool begun_ = false;
};

}  // namespace plumbline::out

#pragma once
// IGC flight recorder files: B records as a track.

#include "engine/record/track.h"

namespace plumbline::record {

/// True when the bytes look like an IGC file: a B record of the fixed form stands among them.
bool looksLikeIgc(std::string_view bytes);

/// Reads the B records (time, place, both altitudes), the date of the H record and from the I
/// record the additions LAD, LOD (more digits of latitude and longitude) and TDS (fraction of a
/// second).
///
/// Height is the GNSS altitude where nine fixes of ten have one, else the pressure altitude.
/// Midnight is recognised. A line that cannot be read becomes a warning; 2-D fixes are left out and
/// counted.
/// @errors no usable fix
/// @source FAI/IGC Technical Specification for GNSS Flight Recorders, 2nd ed. with AL8, 1 Feb
///         2023, Appendix A, A4.1 (B record) and A4.8 / A3.4 (I record)
Expected<FixLog, Problems> readIgc(const NamedBytes& input);

}  // namespace plumbline::record

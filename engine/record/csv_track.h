#pragma once
// CSV logs of any logger: time and place from the columns that can be recognised.

#include "engine/record/track.h"

namespace plumbline::record {

/// True when one of the first lines is a header with columns for time and place.
bool looksLikeCsvTrack(std::string_view bytes);

/// Reads time and place from recognised columns, in any order; lines above the header are passed
/// over.
///
/// Time: "time", "t", "timestamp", "utc"... in s, ms, us or min, or as a date and time (ISO 8601)
/// or a time of day; plain numbers past 1e8 s count as Unix time. Place: latitude and longitude in
/// degrees or radians with an altitude in m or ft, or x, y, z (east, north, up) in m or ft. The
/// unit stands in the header: "alt (ft)", "alt_ft", "alt [ft]"; one that is missing is taken as s,
/// deg or m, with a warning. A row that cannot be read becomes a warning.
/// @errors no header with these columns, more bad rows than good ones
Expected<FixLog, Problems> readCsvTrack(const NamedBytes& input);

}  // namespace plumbline::record

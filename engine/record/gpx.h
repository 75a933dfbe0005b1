#pragma once
// GPX 1.0 and 1.1: the points of all tracks and their segments, joined.

#include "engine/record/track.h"

namespace plumbline::record {

/// True when the bytes look like XML with a gpx element at its root.
bool looksLikeGpx(std::string_view bytes);

/// Reads every trkpt of every trkseg of every trk, whatever the name space. Points without a time
/// or a height, or with a place that is none, are left out and counted.
/// @errors XML that is not well formed (a file cut short, too), no track, no usable point
/// @source GPX 1.1 schema, www.topografix.com/GPX/1/1: lat and lon in decimal degrees WGS 84, ele
///         in metres, time in UTC by ISO 8601
Expected<FixLog, Problems> readGpx(const NamedBytes& input);

}  // namespace plumbline::record

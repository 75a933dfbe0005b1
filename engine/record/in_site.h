#pragma once
// A recording in the axes of a site.

#include "engine/data/site.h"
#include "engine/path/path.h"
#include "engine/record/read_recording.h"

namespace plumbline::record {

/// A recording in the axes of a site. One without latitude and longitude is taken to be in them
/// already.
/// simplified: the meridians of the two origins are parallel; elevations as logged.
path::Path inSite(ImportedTrack track, const data::Site& site);

}  // namespace plumbline::record

#pragma once
// What is opened beside the thing that is shown: a second routine, or the flight over its plan.

#include "engine/data/site.h"
#include "engine/path/path.h"
#include "engine/record/read_recording.h"

namespace plumbline::model {

/// A recording in the axes of a site. One without latitude and longitude is taken to be in them
/// already.
/// simplified: the meridians of the two origins are parallel; elevations as logged.
path::Path inSite(record::ImportedTrack track, const data::Site& site);

}  // namespace plumbline::model

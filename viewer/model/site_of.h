#pragma once
// The site that a recording was flown at, where one is known.

#include <filesystem>
#include <optional>
#include <string>

#include "engine/base/problem.h"
#include "engine/data/site.h"
#include "engine/record/track.h"

namespace plumbline::model {

/// The site that the person named, else the nearest of the site files beside the recording and the
/// one that is built in, if the recording comes close to its show centre.
///
/// @param named     a site file; absent: none
/// @param warnings  gets what was chosen and why, and what is wrong with a site file
/// @return nothing for a recording without latitude and longitude
std::optional<data::Site> siteOf(const record::ImportedTrack& track,
                                 const std::filesystem::path& recording,
                                 const std::optional<std::string>& named, Problems& warnings);

}  // namespace plumbline::model

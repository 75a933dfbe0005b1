#pragma once
// What is shown of a routine whose text has mistakes, so that it can be mended where it stands.

#include <filesystem>
#include <memory>
#include <string>

#include "viewer/model/document.h"

namespace plumbline::model {

/// The routine without the figures that are wrong; where nothing of it can be flown, the demo.
/// @param problems  of loading the file
/// @return nothing shown where the file itself cannot be read
StandIn standInFor(const std::filesystem::path& file, const load::Overrides& overrides,
                   const Problems& problems, std::uint64_t revision);

}  // namespace plumbline::model

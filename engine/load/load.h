#pragma once
// From a file name to everything a routine needs: routine, aircraft, site, weather read and
// cross-checked.

#include <filesystem>
#include <optional>
#include <string>

#include "engine/base/expected.h"
#include "engine/data/aircraft.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/routine/routine.h"

namespace plumbline::load {

/// A routine with what it flies in.
struct Workspace {
    std::filesystem::path routine_path;
    std::string routine_text;  ///< the file's bytes
    routine::Routine routine;
    data::Aircraft aircraft;
    data::Site site;
    data::Weather weather;
};

struct Overrides {
    std::optional<std::string> site_file;
    std::optional<std::string> weather;  ///< file or METAR string
};

/// Reads the routine and the files it names (relative to it).
/// @errors every problem of every file; a missing file names the place that asked for it
Expected<Workspace, Problems> loadWorkspace(const std::filesystem::path& routine_file,
                                            const Overrides& overrides = {});

}  // namespace plumbline::load

#pragma once
// From a file name to everything a routine needs: routine, aircraft, site, weather read and
// cross-checked.

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/expected.h"
#include "engine/base/fingerprint.h"
#include "engine/data/aircraft.h"
#include "engine/data/pilot.h"
#include "engine/data/rules.h"
#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/routine/routine.h"
#include "engine/system/whole_file.h"

namespace plumbline::load {

/// A routine with what it flies in.
struct Workspace {
    std::filesystem::path routine_path;
    std::string routine_text;  ///< the file's bytes
    routine::Routine routine;
    data::Aircraft aircraft;
    data::Site site;
    data::Weather weather;
    data::Pilot pilot;                 ///< nothing set where the routine names none
    std::vector<data::RuleSet> rules;  ///< those that the site names
    std::vector<std::string> outside;  ///< files that are named elsewhere than below who names them
    Fingerprint written;               ///< of the routine's file and those of its figures
    Fingerprint around;                ///< of all other files and texts

    /// Of everything that was read: "4c1e 90b7".
    std::string revision() const;
};

/// What the person at the command line or in the viewer wants in place of the routine's own.
struct Overrides {
    std::optional<std::string> site_file;  ///< relative to the working folder
    std::optional<std::string> weather;    ///< likewise, or a METAR
};

/// Where files come from: the disk, the program itself, an editor's unsaved text.
using FileSource = std::function<system::ReadFile(const std::filesystem::path&)>;
FileSource diskFiles();
/// What is built into the program, by its path in assets/.
FileSource builtInFiles();

/// Reads the routine and the files it names (relative to it); a figure that is named without a
/// path is one of the shelf.
/// @param override_files  where the overrides, and what they name, come from
/// @errors every problem of every file; a missing file names the place that asked for it
Expected<Workspace, Problems> loadWorkspace(const std::filesystem::path& routine_file,
                                            const Overrides& overrides = {},
                                            const FileSource& files = diskFiles(),
                                            const FileSource& override_files = diskFiles());

/// The routine file read again; aircraft, site, weather, pilot and rules stay as they are. Nothing
/// where it names others now.
std::optional<Expected<Workspace, Problems>> loadAgain(const Workspace& before,
                                                       const FileSource& files);

/// The demo that is built into the program.
Expected<Workspace, Problems> loadDemo(const Overrides& overrides = {},
                                       const FileSource& override_files = diskFiles());

/// A site file of the disk with the outlines and the rule sets that it names.
/// @errors every problem of every file
Expected<data::Site, Problems> loadSite(const std::filesystem::path& site_file);

/// Rule sets that are built in, by the names that site files use, in alphabetical order.
std::vector<std::string_view> builtInRules();

/// A file that is built into the program, by its path in assets/: "demo/demo.routine.toml".
std::optional<std::string_view> embeddedAsset(std::string_view name);

/// The figures of the shelf, by the names that routines use, in alphabetical order.
std::vector<std::string_view> shelfNames();
/// The figure file of that name; nothing where the shelf has none.
std::optional<std::string_view> shelfFigure(std::string_view name);

}  // namespace plumbline::load

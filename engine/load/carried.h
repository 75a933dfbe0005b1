#pragma once
// A routine with all the files that it needs, to be opened elsewhere.

#include <filesystem>
#include <string>
#include <vector>

#include "engine/load/load.h"

namespace plumbline::load {

struct Carried {
    struct File {
        std::string name;  ///< relative, with '/', nothing of it leads upwards; UTF-8
        std::string bytes;
    };
    std::vector<File> files;  ///< each once; they name one another as they did
    std::string routine;  ///< name of the routine among them; empty: the demo, which is everywhere
    std::string site;     ///< of the site file that takes the place of the routine's; or empty
    std::string weather;  ///< likewise; a file's name or a METAR
    std::vector<std::string> left_out;  ///< what stays behind and why, one clause each
};

/// Reads everything that the routine reads, as loadWorkspace does, its notes and the site's aerial
/// picture. Of folders only what the files have in common is left out: who gets them does not learn
/// where they lay.
/// @errors those of loadWorkspace; a file that is named by its whole path, which is another
/// elsewhere
Expected<Carried, Problems> filesToCarry(const std::filesystem::path& routine_file,
                                         const Overrides& overrides = {},
                                         const FileSource& files = diskFiles(),
                                         const FileSource& override_files = diskFiles());

/// Of the demo only what takes the place of its own.
Expected<Carried, Problems> demoFilesToCarry(const Overrides& overrides,
                                             const FileSource& override_files = diskFiles());

}  // namespace plumbline::load

#pragma once
// Recordings named on a command line.

#include <string>
#include <vector>

#include "engine/record/read_recording.h"
#include "engine/system/mapped_file.h"

namespace plumbline::cli {

/// Files of one flight, open.
struct Logs {
    std::vector<std::string> names;
    std::vector<system::MappedFile> files;

    /// Their bytes, as long as this lives or until they are read.
    std::vector<record::NamedBytes> named();
};
/// @errors every file that cannot be read
Expected<Logs, Problems> openLogs(const std::vector<std::string>& names);

/// Reading on two cores, saying on stderr once a second how far a command has come.
record::Wishes wishesOf(const std::string& command);

}  // namespace plumbline::cli

#pragma once
// Recordings named on a command line.

#include <functional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/record/read_recording.h"
#include "engine/system/mapped_file.h"

namespace plumbline::cli {

/// Files of one flight, open.
struct Logs {
    std::vector<std::string> names;
    std::vector<system::MappedFile> files;

    /// Their bytes, as long as this lives.
    std::vector<record::NamedBytes> named() const;
};
/// @errors every file that cannot be read
Expected<Logs, Problems> openLogs(const std::vector<std::string>& names);

/// Says on stderr once a second how far a command has come.
std::function<void(double, std::string_view)> progressOn(const std::string& command);

}  // namespace plumbline::cli

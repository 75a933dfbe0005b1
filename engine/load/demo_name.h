/// What `demo` means on a command line.
#pragma once

#include <filesystem>
#include <string>

namespace plumbline::load {

/// True for `demo` where no file has that name. A folder that has it does not count: the archive
/// for Windows brings the demo's files in one.
inline bool meansDemo(const std::string& name) {
    std::error_code ignored;
    return name == "demo" && !std::filesystem::is_regular_file(name, ignored);
}

}  // namespace plumbline::load

#pragma once
// Where the system wants a program's own files.

#include <filesystem>

namespace plumbline::platform {

/// Folder for settings, "plumbline" in the person's own configuration folder; need not exist yet.
/// Empty when the system names none.
std::filesystem::path configFolder();

}  // namespace plumbline::platform

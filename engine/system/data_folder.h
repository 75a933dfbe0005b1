#pragma once
// Where the system wants what a person's programs keep for good.

#include <filesystem>

namespace plumbline::system {

/// "plumbline" in the person's own data folder; need not exist yet. Empty when the system names
/// none.
std::filesystem::path dataFolder();

}  // namespace plumbline::system

#pragma once
// Where the program that runs lies.

#include <filesystem>

namespace plumbline::system {

/// Its file; empty where the system does not tell.
std::filesystem::path programFile();

/// A variable of the environment as the name of a file; empty when not set.
std::filesystem::path fileFromEnvironment(const char* name);

}  // namespace plumbline::system

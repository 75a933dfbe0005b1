#pragma once
// The files that a routine names, seen from another folder.

#include <filesystem>
#include <string>
#include <string_view>

namespace plumbline::model {

/// The routine's text with the names of files (aircraft, site, weather, pilot, music, figures) that
/// stand for the same files when it is saved in another folder. A name stays where the new folder
/// has the same file, byte for byte, and where there was no such file before.
/// @param text  TOML, with or without mistakes
/// @param from  the folder that its names are relative to now
std::string namedFrom(std::string_view text, const std::filesystem::path& from,
                      const std::filesystem::path& to);

}  // namespace plumbline::model

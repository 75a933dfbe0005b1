#pragma once
// The two steps of a write that survives a power cut; whole_file.h puts them together.

#include <filesystem>
#include <functional>
#include <string_view>
#include <system_error>

namespace plumbline::system {

/// What is to be written, piece by piece; an empty piece is the end.
using NextPiece = std::function<std::string_view()>;

/// Makes a file that was not there (else: file_exists), writes it, flushes it to the drive, closes
/// it.
std::error_code writeNewFile(const std::filesystem::path& path, const NextPiece& next);

/// Flushes a file that another program has written to the drive.
std::error_code flushFile(const std::filesystem::path& path);

/// Gives a file the name of another, which is gone then, and flushes the folder.
std::error_code renameOver(const std::filesystem::path& from, const std::filesystem::path& to);

}  // namespace plumbline::system

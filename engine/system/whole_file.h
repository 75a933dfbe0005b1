#pragma once
// Files as a whole: read at once, written all or not at all.

#include <filesystem>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace plumbline::system {

/// A file's bytes, or why they cannot be had.
struct ReadFile {
    std::optional<std::string> bytes;
    std::string reason;  ///< "no such file or directory"; empty when there are bytes
};
ReadFile readWholeFile(const std::filesystem::path& path);

/// Whether a file that another one names by this lies in that one's folder or below it.
bool staysInside(const std::filesystem::path& named);

/// Writes beside the target, flushes to the drive, then renames over it: a reader sees the old
/// bytes or the new ones, and a full disk or a power cut leaves the old. Permissions stay. A target
/// that is no regular file (a device, a pipe) is written to directly.
/// @return why it failed; empty when it worked
std::string writeWholeFile(const std::filesystem::path& path, std::string_view bytes);
/// The same of what comes in pieces: the whole of it need not be in memory.
std::string writeWholeFile(const std::filesystem::path& path,
                           const std::function<std::string_view()>& next);

/// A file of several.
struct NamedContent {
    std::string name;
    std::string_view bytes;
};
/// Writes files into a folder, which is made if it is not there: all or none. Each is written and
/// flushed beside its place first; only then they take their names.
/// @return why it failed, with the name; empty when it worked
std::string writeWholeFiles(const std::filesystem::path& folder,
                            const std::vector<NamedContent>& files);

}  // namespace plumbline::system

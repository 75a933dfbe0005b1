#pragma once
// Unsaved texts as they are put aside every few moments, to be there again after a crash.

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace plumbline::model {

/// One file: the routine first, then aircraft, site, weather.
struct KeptText {
    std::string file;  ///< UTF-8 path
    std::string base;  ///< what the file held when it was read or written last
    std::string text;  ///< with the changes since
    bool operator==(const KeptText&) const = default;
};

std::string keptBytes(const std::vector<KeptText>& kept);
/// Nothing for bytes that are not whole.
std::optional<std::vector<KeptText>> keptFromBytes(std::string_view bytes);

/// Name of the file that keeps a routine's text: the same for one path, another for each of the
/// windows that have it open.
std::string keptName(const std::string& routine_file, int window);

}  // namespace plumbline::model

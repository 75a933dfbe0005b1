#include "viewer/model/named_files.h"

#include <algorithm>
#include <array>

#include "engine/system/whole_file.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

constexpr std::array<std::string_view, 6> kKeys{"aircraft", "site",  "weather",
                                                "pilot",    "music", "figure"};

/// Of the text between the quotes of `key = "name"`.
struct Span {
    std::size_t at = 0, length = 0;
};

/// @return length 0: the line names no file
Span nameIn(std::string_view line) {
    const std::size_t begin = line.find_first_not_of(" \t");
    if (begin == std::string_view::npos) return {};
    const std::size_t key_end = line.find_first_of(" \t=", begin);
    if (key_end == std::string_view::npos) return {};
    const std::string_view key = line.substr(begin, key_end - begin);
    if (std::find(kKeys.begin(), kKeys.end(), key) == kKeys.end()) return {};
    const std::size_t equals = line.find_first_not_of(" \t", key_end);
    if (equals == std::string_view::npos || line[equals] != '=') return {};
    const std::size_t quote = line.find_first_not_of(" \t", equals + 1);
    if (quote == std::string_view::npos || (line[quote] != '"' && line[quote] != '\'')) return {};
    const std::size_t close = line.find(line[quote], quote + 1);
    if (close == std::string_view::npos) return {};
    return {quote + 1, close - quote - 1};
}

std::string nameFrom(const std::string& name, const fs::path& from, const fs::path& to) {
    // A name with escapes in it is left as it is: rare, and its file would not be found below.
    const fs::path path(name);
    std::error_code failed;
    if (path.is_absolute() || !fs::is_regular_file(from / path, failed)) return name;
    if (fs::is_regular_file(to / path, failed)) {
        const system::ReadFile old = system::readWholeFile(from / path);
        const system::ReadFile there = system::readWholeFile(to / path);
        if (old.bytes && there.bytes && *old.bytes == *there.bytes) return name;
    }
    const fs::path whole = fs::weakly_canonical(from / path, failed);
    const fs::path relative = whole.lexically_relative(fs::weakly_canonical(to, failed));
    return (relative.empty() ? whole : relative).generic_string();
}

}  // namespace

std::string namedFrom(std::string_view text, const fs::path& from, const fs::path& to) {
    std::string out;
    while (!text.empty()) {
        const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
        const std::string_view line = text.substr(0, end);
        text.remove_prefix(end);
        const Span span = nameIn(line);
        const std::string name(line.substr(span.at, span.length));
        if (span.length == 0) {
            out += line;
            continue;
        }
        out += line.substr(0, span.at);
        out += nameFrom(name, from, to);
        out += line.substr(span.at + span.length);
    }
    return out;
}

}  // namespace plumbline::model

#include "viewer/model/kept_text.h"

#include <cstdint>

#include "engine/base/number_text.h"

namespace plumbline::model {
namespace {

constexpr std::string_view kHead = "plumbline: texts not saved\n";

/// A length, a line end and that many bytes.
std::string counted(const std::string& bytes) {
    return std::to_string(bytes.size()) + '\n' + bytes;
}

/// Digits up to a line end.
std::optional<std::size_t> takeNumber(std::string_view& rest) {
    const std::size_t end = rest.find('\n');
    if (end == std::string_view::npos || end == 0 || end > 9) return std::nullopt;
    std::size_t number = 0;
    for (const char c : rest.substr(0, end)) {
        if (c < '0' || c > '9') return std::nullopt;
        number = number * 10 + static_cast<std::size_t>(c - '0');
    }
    rest.remove_prefix(end + 1);
    return number;
}

std::optional<std::string> takeCounted(std::string_view& rest) {
    const auto length = takeNumber(rest);
    if (!length || *length > rest.size()) return std::nullopt;
    std::string out(rest.substr(0, *length));
    rest.remove_prefix(*length);
    return out;
}

}  // namespace

std::string keptBytes(const std::vector<KeptText>& kept) {
    std::string out(kHead);
    out += std::to_string(kept.size()) + '\n';
    for (const KeptText& one : kept)
        out += counted(one.file) + counted(one.base) + counted(one.text);
    return out;
}

std::optional<std::vector<KeptText>> keptFromBytes(std::string_view bytes) {
    if (bytes.substr(0, kHead.size()) != kHead) return std::nullopt;
    bytes.remove_prefix(kHead.size());
    const auto count = takeNumber(bytes);
    if (!count) return std::nullopt;
    std::vector<KeptText> out;
    for (std::size_t i = 0; i < *count; ++i) {
        const auto file = takeCounted(bytes);
        const auto base = file ? takeCounted(bytes) : std::nullopt;
        const auto text = base ? takeCounted(bytes) : std::nullopt;
        if (!text) return std::nullopt;
        out.push_back({*file, *base, *text});
    }
    if (!bytes.empty()) return std::nullopt;
    return out;
}

std::string keptName(const std::string& routine_file, int window) {
    std::uint64_t hash = 0xcbf29ce484222325U;  // FNV-1a: offset and prime by its authors, memory
    for (const char c : routine_file) {
        hash = (hash ^ static_cast<unsigned char>(c)) * 0x100000001b3U;
    }
    std::string name;
    for (int i = 0; i < 16; ++i) {
        name += "0123456789abcdef"[(hash >> (60 - 4 * i)) & 15U];
    }
    return name + '-' + std::to_string(window) + ".unsaved";
}

}  // namespace plumbline::model

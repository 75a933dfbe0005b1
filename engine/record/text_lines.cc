#include "engine/record/text_lines.h"

namespace plumbline::record {

LineReader::LineReader(std::string_view bytes) : rest_(bytes), size_(bytes.size()) {
    constexpr std::string_view kByteOrderMark = "\xEF\xBB\xBF";
    if (rest_.substr(0, 3) == kByteOrderMark) rest_.remove_prefix(3);
}

bool LineReader::next() {
    if (rest_.empty()) return false;
    const std::size_t end = rest_.find('\n');
    line_ = rest_.substr(0, end);
    rest_.remove_prefix(end == std::string_view::npos ? rest_.size() : end + 1);
    if (!line_.empty() && line_.back() == '\r') line_.remove_suffix(1);
    ++number_;
    return true;
}

std::int32_t columnOf(std::string_view line, std::size_t byte) {
    std::int32_t column = 1;
    for (const char c : line.substr(0, byte))
        if ((static_cast<unsigned char>(c) & 0xC0u) != 0x80u) ++column;
    return column;
}

std::string_view trimmed(std::string_view text) {
    constexpr std::string_view kBlank = " \t";
    const std::size_t first = text.find_first_not_of(kBlank);
    if (first == std::string_view::npos) return {};
    return text.substr(first, text.find_last_not_of(kBlank) - first + 1);
}

std::int32_t digits(std::string_view text) {
    if (text.empty() || text.size() > 9) return -1;
    std::int32_t value = 0;
    for (const char c : text) {
        if (c < '0' || c > '9') return -1;
        value = value * 10 + (c - '0');
    }
    return value;
}

}  // namespace plumbline::record

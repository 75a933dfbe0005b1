#include "engine/out/xml_text.h"

#include <cstddef>
#include <cstdint>

namespace plumbline::out {

namespace {

/// Length of the well-formed UTF-8 sequence that the text starts with; 0: none.
std::size_t sequenceLength(std::string_view text, std::uint32_t& code) {
    const auto at = [&text](std::size_t i) { return static_cast<unsigned char>(text[i]); };
    const unsigned char first = at(0);
    const std::size_t length = first < 0x80             ? 1
                               : (first & 0xE0) == 0xC0 ? 2
                               : (first & 0xF0) == 0xE0 ? 3
                               : (first & 0xF8) == 0xF0 ? 4
                                                        : 0;
    if (length == 0 || length > text.size()) return 0;
    code = length == 1 ? first : first & (0x7FU >> length);
    for (std::size_t i = 1; i < length; ++i) {
        if ((at(i) & 0xC0) != 0x80) return 0;
        code = (code << 6) | (at(i) & 0x3FU);
    }
    constexpr std::uint32_t kLeast[] = {0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xD800 && code <= 0xDFFF;
    return code < kLeast[length] || code > 0x10FFFF || surrogate ? 0 : length;
}

/// XML 1.0 (5th edition), production 2.
bool allowed(std::uint32_t code) {
    return code == '\t' || code == '\n' || code == '\r' ||
           (code >= 0x20 && code != 0xFFFE && code != 0xFFFF);
}

}  // namespace

std::string xmlText(std::string_view text) {
    std::string out;
    while (!text.empty()) {
        std::uint32_t code = 0;
        const std::size_t length = sequenceLength(text, code);
        if (length == 0) {
            out += "\xEF\xBF\xBD";
            text.remove_prefix(1);
            continue;
        }
        if (code == '&')
            out += "&amp;";
        else if (code == '<')
            out += "&lt;";
        else if (code == '>')
            out += "&gt;";
        else if (code == '"')
            out += "&quot;";
        else if (allowed(code))
            out += text.substr(0, length);
        text.remove_prefix(length);
    }
    return out;
}

}  // namespace plumbline::out

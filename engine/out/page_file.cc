#include "engine/out/page_file.h"

#include <array>
#include <cstdint>

namespace plumbline::out {
namespace {

/// Where viewer/browser/page.html has nothing to open.
constexpr std::string_view kBegin = "<script type=\"application/json\" id=\"carried\">";
constexpr std::string_view kNothing = "{}";

std::string list(const std::vector<std::string>& texts) {
    std::string out = "[";
    for (const std::string& text : texts) {
        if (out.size() > 1) out += ',';
        out += jsonText(text);
    }
    return out + "]";
}

/// One character, and how many bytes it takes. What is none: U+FFFD, one byte.
/// @source The Unicode Standard 15.0, table 3-7
struct Character {
    std::uint32_t code = 0xfffd;
    std::size_t bytes = 1;
};
Character characterAt(std::string_view text, std::size_t at) {
    const auto byte = [&](std::size_t i) {
        return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
    };
    const std::uint32_t first = byte(0);
    if (first < 0x80) return {first, 1};
    const std::size_t bytes = first >= 0xf0 ? 4 : first >= 0xe0 ? 3 : 2;
    if (first < 0xc2 || first > 0xf4) return {};
    std::uint32_t code = first & (0x7fU >> bytes);
    for (std::size_t i = 1; i < bytes; ++i) {
        if ((byte(i) & 0xc0U) != 0x80U) return {};
        code = code << 6U | (byte(i) & 0x3fU);
    }
    constexpr std::array<std::uint32_t, 5> kLeast{0, 0, 0x80, 0x800, 0x10000};
    const bool surrogate = code >= 0xd800 && code < 0xe000;
    if (code < kLeast[bytes] || code > 0x10ffff || surrogate) return {};
    return {code, bytes};
}

void addEscaped(std::uint32_t unit, std::string& out) {
    constexpr std::string_view kDigits = "0123456789abcdef";
    out += "\\u";
    for (int shift = 12; shift >= 0; shift -= 4)
        out += kDigits[unit >> static_cast<unsigned>(shift) & 15U];
}

}  // namespace

std::string jsonText(std::string_view utf8) {
    constexpr std::string_view kNever = "\"\\<>&'";
    std::string out = "\"";
    for (std::size_t at = 0; at < utf8.size();) {
        const Character character = characterAt(utf8, at);
        at += character.bytes;
        const std::uint32_t code = character.code;
        const bool plain = code >= 0x20 && code < 0x7f &&
                           kNever.find(static_cast<char>(code)) == std::string_view::npos;
        if (plain) {
            out += static_cast<char>(code);
        } else if (code < 0x10000) {
            addEscaped(code, out);
        } else {  // UTF-16: two halves
            addEscaped(0xd800 + ((code - 0x10000) >> 10U), out);
            addEscaped(0xdc00 + ((code - 0x10000) & 0x3ffU), out);
        }
    }
    return out + "\"";
}

std::string base64(std::string_view bytes) {
    constexpr std::string_view kLetters =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string out;
    out.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        std::uint32_t three = 0;
        const std::size_t count = bytes.size() - at < 3 ? bytes.size() - at : 3;
        for (std::size_t i = 0; i < 3; ++i) {
            three = three << 8U | (i < count ? static_cast<unsigned char>(bytes[at + i]) : 0U);
        }
        for (std::size_t i = 0; i < 4; ++i) {
            out += i <= count ? kLetters[three >> (18 - 6 * i) & 63U] : '=';
        }
    }
    return out;
}

std::optional<std::string> pageWith(std::string_view page, const PageContent& content) {
    const std::size_t begin = page.find(kBegin);
    if (begin == std::string_view::npos) return std::nullopt;
    const std::size_t at = begin + kBegin.size();
    if (page.substr(at, kNothing.size()) != kNothing) return std::nullopt;
    std::string json = "{\"files\":[";
    for (const load::Carried::File& file : content.files) {
        if (json.back() == '}') json += ',';
        json += "{\"name\":" + jsonText(file.name) + ",\"bytes\":\"" + base64(file.bytes) + "\"}";
    }
    json += "],\"open\":" + list(content.open) + ",\"options\":" + list(content.options) + "}";
    std::string out(page.substr(0, at));
    out += json;
    out += page.substr(at + kNothing.size());
    return out;
}

}  // namespace plumbline::out

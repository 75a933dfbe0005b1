#include "engine/out/page_file.h"

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

}  // namespace

std::string jsonText(std::string_view utf8) {
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string out = "\"";
    for (const char c : utf8) {
        const auto byte = static_cast<unsigned char>(c);
        if (byte < 0x20 || c == '"' || c == '\\' || c == '<' || c == '>' || c == '&' || c == '\'') {
            out += "\\u00";
            out += kDigits[byte >> 4U];
            out += kDigits[byte & 15U];
        } else {
            out += c;
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

#include "engine/base/nesting.h"

#include <algorithm>

namespace plumbline {
namespace {

/// From an opening quote to behind the closing one.
std::size_t behindText(std::string_view toml_text, std::size_t at) {
    const char quote = toml_text[at];
    const char marks[] = {quote, quote, quote};
    const bool escapes = quote == '"';
    const bool lines = toml_text.substr(at, 3) == std::string_view(marks, 3);
    if (!lines && at + 1 < toml_text.size() && toml_text[at + 1] == quote) return at + 2;
    for (at += lines ? 3 : 1; at < toml_text.size(); ++at) {
        const char c = toml_text[at];
        if (escapes && c == '\\') {
            ++at;
        } else if (!lines && (c == quote || c == '\n')) {
            return at + 1;
        } else if (lines && toml_text.substr(at, 3) == std::string_view(marks, 3)) {
            return at + 3;
        }
    }
    return toml_text.size();
}

}  // namespace

std::size_t nestedDeeper(std::string_view json_text, std::size_t most) {
    std::size_t depth = 0;
    bool in_text = false;
    for (std::size_t at = 0; at < json_text.size(); ++at) {
        const char c = json_text[at];
        if (in_text) {
            if (c == '\\')
                ++at;
            else if (c == '"')
                in_text = false;
        } else if (c == '"') {
            in_text = true;
        } else if (c == '[' || c == '{') {
            if (++depth > most) return at;
        } else if ((c == ']' || c == '}') && depth > 0) {
            --depth;
        }
    }
    return std::string_view::npos;
}

std::size_t dottedDeeper(std::string_view toml_text, std::size_t most) {
    std::size_t dots = 0;
    for (std::size_t at = 0; at < toml_text.size();) {
        const char c = toml_text[at];
        if (c == '"' || c == '\'') {
            at = behindText(toml_text, at);
            continue;
        }
        if (c == '#') {
            at = std::min(toml_text.find('\n', at), toml_text.size());
            continue;
        }
        if (c == '\n' || c == '=' || c == ',' || c == '{') dots = 0;
        if (c == '.' && ++dots >= most) return at;
        ++at;
    }
    return std::string_view::npos;
}

}  // namespace plumbline

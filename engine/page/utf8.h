#pragma once
// Letters from and to UTF-8.

#include <string>
#include <string_view>
#include <vector>

namespace plumbline::page {

/// A letter and where its bytes begin.
struct Utf8Letter {
    char32_t letter = 0;
    int at = 0, bytes = 0;
};

/// Every letter in turn; a byte that begins none is U+FFFD (Unicode 15, 3.9).
std::vector<Utf8Letter> lettersOf(std::string_view text);

void appendUtf8(std::string& text, char32_t letter);

}  // namespace plumbline::page

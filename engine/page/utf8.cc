#include "engine/page/utf8.h"

namespace plumbline::page {

std::vector<Utf8Letter> lettersOf(std::string_view text) {
    std::vector<Utf8Letter> out;
    for (std::size_t i = 0; i < text.size();) {
        const auto first = static_cast<unsigned char>(text[i]);
        const int more = first < 0x80   ? 0
                         : first < 0xc2 ? -1
                         : first < 0xe0 ? 1
                         : first < 0xf0 ? 2
                         : first < 0xf5 ? 3
                                        : -1;
        char32_t letter = first;
        int bytes = 1;
        bool good = more >= 0;
        if (more > 0) {
            letter = first & (0x3fU >> more);
            for (; bytes <= more && good; ++bytes) {
                const std::size_t at = i + static_cast<std::size_t>(bytes);
                const unsigned next = at < text.size() ? static_cast<unsigned char>(text[at]) : 0U;
                good = (next & 0xc0U) == 0x80;
                letter = (letter << 6) | (next & 0x3fU);
            }
            // Too long a form, half a pair, beyond the last letter.
            good = good &&
                   letter >= (more == 1   ? 0x80U
                              : more == 2 ? 0x800U
                                          : 0x10000U) &&
                   letter <= 0x10ffff && (letter < 0xd800 || letter > 0xdfff);
        }
        if (!good) {
            letter = 0xfffd;
            bytes = 1;
        }
        out.push_back({letter, static_cast<int>(i), bytes});
        i += static_cast<std::size_t>(bytes);
    }
    return out;
}

void appendUtf8(std::string& text, char32_t letter) {
    const auto put = [&](char32_t byte) { text.push_back(static_cast<char>(byte)); };
    if (letter < 0x80) {
        put(letter);
    } else if (letter < 0x800) {
        put(0xc0 | (letter >> 6));
        put(0x80 | (letter & 0x3f));
    } else if (letter < 0x10000) {
        put(0xe0 | (letter >> 12));
        put(0x80 | ((letter >> 6) & 0x3f));
        put(0x80 | (letter & 0x3f));
    } else {
        put(0xf0 | (letter >> 18));
        put(0x80 | ((letter >> 12) & 0x3f));
        put(0x80 | ((letter >> 6) & 0x3f));
        put(0x80 | (letter & 0x3f));
    }
}

}  // namespace plumbline::page

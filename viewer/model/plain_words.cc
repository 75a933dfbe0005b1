#include <algorithm>

#include "engine/page/utf8.h"
#include "viewer/model/word_picture.h"

namespace plumbline::model {
namespace {

/// Of Inter: Latin with its marks, Greek, Cyrillic, punctuation, arrows (Unicode 15 blocks); marks
/// that combine need a layout.
bool isPlain(char32_t l) {
    const bool combines = l >= 0x0300 && l <= 0x036f;
    return (l <= 0x052f && !combines) || (l >= 0x1e00 && l <= 0x1fff) ||
           (l >= 0x2000 && l <= 0x22ff && !(l >= 0x200e && l <= 0x200f));
}

}  // namespace

bool needsSetting(std::string_view words) {
    const std::vector<page::Utf8Letter> letters = page::lettersOf(words);
    return !std::all_of(letters.begin(), letters.end(),
                        [](const page::Utf8Letter& l) { return isPlain(l.letter); });
}

}  // namespace plumbline::model

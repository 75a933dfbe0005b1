#pragma once
// Where a line of Chinese or Japanese may not be parted; common practice, no source.

#include <string_view>

namespace plumbline::page {

/// It begins no line: closing signs, small kana.
inline bool staysWithTheOneBefore(char32_t c) {
    constexpr std::u32string_view kThese =
        U"、。，．：；！？）」』】〉》〕］｝ー…％々ぁぃぅぇぉっゃゅょゎァィゥェォッャュョヮ!?";
    return kThese.find(c) != std::u32string_view::npos;
}

/// It ends no line: opening signs.
inline bool staysWithTheOneAfter(char32_t c) {
    constexpr std::u32string_view kThese = U"（「『【〈《〔［｛";
    return kThese.find(c) != std::u32string_view::npos;
}

/// A clause ends with it: a good place to part.
inline bool endsClause(char32_t c) {
    constexpr std::u32string_view kThese = U"、。，．：；！？」』";
    return kThese.find(c) != std::u32string_view::npos;
}

}  // namespace plumbline::page

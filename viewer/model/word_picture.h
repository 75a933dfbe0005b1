#pragma once
// Words of any script as a picture. The only use of the pages' layout for the window's own words: a
// build without it draws what the window's font has, Latin, Greek and Cyrillic.

#include <cstdint>
#include <string>
#include <string_view>

#include "engine/page/document.h"
#include "engine/page/fonts.h"

namespace plumbline::model {

/// The words have letters beside those that the window's font has and that stand one behind the
/// other, left to right.
bool needsSetting(std::string_view words);

struct WordWish {
    std::string words;
    std::size_t said = 0;  ///< bytes of them in `ink`, the rest in `ahead`
    double size_px = 0, line_px = 0, width_px = 0;
    bool strong = false;
    page::Colour ink, ahead;
};

/// Lines from the top left; right-to-left text begins at the right. Without a ground.
page::Picture wordPicture(const page::Fonts& fonts, const WordWish& wish);

}  // namespace plumbline::model

#pragma once
// What Fonts is made of; for this layer's sources only.

#include <set>

#include "engine/page/embedded_font.h"
#include "engine/page/fonts.h"

struct hb_font_t;  // HarfBuzz

namespace plumbline::page {

/// One font file, ready to shape with.
struct ShapingFont {
    std::shared_ptr<const std::string> owned;  ///< of a file that was given
    std::string_view bytes;
    std::shared_ptr<hb_font_t> font;
    double per_unit = 0;  ///< size 1 over the font's own units
    bool embedded = false;

    bool has(char32_t letter) const;
};

inline constexpr int kEmbedded = 3;  ///< fonts, first in the list, in the order of Weight

struct Fonts::Impl {
    std::vector<ShapingFont> fonts;
    mutable std::set<char32_t> missing;

    /// @return the font for a letter, or -1
    int fontFor(char32_t letter, Weight weight) const;
};

}  // namespace plumbline::page

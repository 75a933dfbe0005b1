#pragma once
// Text as quads: glyphs rasterised by FreeType on first use, at four positions between pixels, into
// one atlas that also holds the white texel of all other marks.

#include <cstdint>
#include <memory>
#include <string_view>
#include <vector>

#include "engine/page/fonts.h"
#include "viewer/ui/theme.h"

struct FT_GlyphSlotRec_;  // FreeType

namespace plumbline::ui {

/// Where a glyph lies in the atlas and how it stands to the pen. Whole pixels but for the advance.
struct Glyph {
    std::int16_t x = 0, y = 0, width = 0, height = 0;  ///< texels
    std::int16_t left = 0;                             ///< from the pen to the bitmap's left edge
    std::int16_t top = 0;                              ///< from the baseline up to its top edge
    float advance = 0;                                 ///< unhinted, pixels
};

/// The atlas and the faces. Digits, plus and minus have one common width (tabular figures).
class Glyphs {
public:
    static constexpr int kSize = 2048;  ///< texels on each side
    static constexpr int kPhases = 4;   ///< positions between pixels

    Glyphs();
    ~Glyphs();
    Glyphs(const Glyphs&) = delete;
    Glyphs& operator=(const Glyphs&) = delete;

    /// @param phase  0..kPhases-1: quarters of a pixel right of the pen
    Glyph glyph(Weight weight, int size_px, char32_t code, int phase);
    float advance(Weight weight, int size_px, char32_t code);
    /// A letter shape by its number in one of the fonts that are set with useFonts.
    Glyph shape(int font, int size_px, unsigned index, int phase);
    /// Other fonts for shape(); between frames only. @param fonts  null: none
    void useFonts(std::shared_ptr<const page::Fonts> fonts);

    /// Baseline below the top of a line of this height, pixels.
    float baseline(int size_px, float line_px) const;

    /// One byte a texel, rows top to bottom.
    const std::uint8_t* texels() const { return texels_.data(); }
    struct Rows {
        int first = 0;
        int count = 0;
    };
    /// Rows changed since the last call.
    Rows takeChanged();
    /// Starts afresh when the atlas has run full; between frames only.
    void renewIfFull();

private:
    struct Faces;
    Glyph rasterise(Weight weight, int size_px, char32_t code, int phase);
    bool intoAtlas(FT_GlyphSlotRec_* slot, double shift_px, Glyph& out);
    bool place(int width, int height, int& x, int& y);
    void clear();

    std::unique_ptr<Faces> faces_;
    std::vector<std::uint8_t> texels_;
    int shelf_x_ = 0, shelf_y_ = 0, shelf_height_ = 0;
    int changed_first_ = 0, changed_end_ = 0;
    bool full_ = false;
};

/// Takes the first code point off a UTF-8 text; a broken byte gives U+FFFD and is taken alone.
char32_t takeCodePoint(std::string_view& text);

}  // namespace plumbline::ui

#include "viewer/ui/glyphs.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <unordered_map>

#include <ft2build.h>
#include FT_FREETYPE_H
#include FT_OUTLINE_H

#include "engine/base/check.h"
#include "viewer/ui/fonts.h"

namespace plumbline::ui {
namespace {

// Light hinting sharpens the horizontals of small sizes and leaves all widths alone.
constexpr int kHintedBelow_px = 16;
constexpr int kPhasesBelow_px = 64;  // chosen: larger glyphs gain nothing from quarter pixels
constexpr char32_t kMinus = 0x2212;
constexpr char32_t kThinSpace = 0x2009;

bool tabular(char32_t code) {
    return (code >= '0' && code <= '9') || code == '+' || code == kMinus;
}

std::uint64_t keyOf(Weight weight, int size_px, char32_t code, int phase) {
    return (static_cast<std::uint64_t>(code) << 24) | (static_cast<std::uint64_t>(size_px) << 8) |
           (static_cast<std::uint64_t>(weight) << 4) | static_cast<std::uint64_t>(phase);
}

}  // namespace

struct Glyphs::Faces {
    FT_Library library = nullptr;
    std::array<FT_Face, 3> faces{};
    std::array<int, 3> sizes_px{};
    std::unordered_map<std::uint64_t, Glyph> glyphs;
    std::shared_ptr<const page::Fonts> others;
    std::vector<FT_Face> other_faces;  ///< by their number there; null: not opened yet
    std::vector<int> other_sizes_px;
    std::unordered_map<std::uint64_t, float> advances;

    FT_Face sized(Weight weight, int size_px) {
        const auto i = static_cast<std::size_t>(weight);
        if (sizes_px[i] != size_px) {
            FT_Set_Pixel_Sizes(faces[i], 0, static_cast<FT_UInt>(size_px));
            sizes_px[i] = size_px;
        }
        return faces[i];
    }
    float ownAdvance(Weight weight, int size_px, char32_t code) {
        FT_Face face = sized(weight, size_px);
        if (FT_Load_Char(face, code, FT_LOAD_NO_HINTING) != 0) return 0;
        return static_cast<float>(static_cast<double>(face->glyph->linearHoriAdvance) / 65536.0);
    }
};

Glyphs::Glyphs()
    : faces_(std::make_unique<Faces>()), texels_(static_cast<std::size_t>(kSize) * kSize) {
    PL_EXPECT(FT_Init_FreeType(&faces_->library) == 0);
    constexpr std::array<const char*, 3> kFiles{"Inter-Regular.otf", "Inter-Medium.otf",
                                                "Inter-SemiBold.otf"};
    for (std::size_t i = 0; i < kFiles.size(); ++i) {
        const auto bytes = embeddedFont(kFiles[i]);
        PL_EXPECT(bytes.has_value());
        PL_EXPECT(
            FT_New_Memory_Face(faces_->library, reinterpret_cast<const FT_Byte*>(bytes->data()),
                               static_cast<FT_Long>(bytes->size()), 0, &faces_->faces[i]) == 0);
    }
    clear();
}

Glyphs::~Glyphs() {
    useFonts(nullptr);
    for (FT_Face face : faces_->faces) FT_Done_Face(face);
    FT_Done_FreeType(faces_->library);
}

void Glyphs::clear() {
    std::fill(texels_.begin(), texels_.end(), std::uint8_t{0});
    // The white texel's neighbours are white as well, so that filtering cannot dim it.
    constexpr int kWhite = 4;
    for (int y = 0; y < kWhite; ++y) {
        std::fill_n(texels_.begin() + static_cast<std::ptrdiff_t>(y) * kSize, kWhite,
                    std::uint8_t{255});
    }
    shelf_x_ = kWhite + 1;
    shelf_y_ = 0;
    shelf_height_ = kWhite;
    changed_first_ = 0;
    changed_end_ = kSize;
    full_ = false;
    faces_->glyphs.clear();
}

void Glyphs::renewIfFull() {
    if (full_) clear();
}

Glyphs::Rows Glyphs::takeChanged() {
    Rows rows;
    rows.first = changed_first_;
    rows.count = std::max(0, changed_end_ - changed_first_);
    changed_first_ = kSize;
    changed_end_ = 0;
    return rows;
}

bool Glyphs::place(int width, int height, int& x, int& y) {
    constexpr int kGap = 1;
    if (shelf_x_ + width + kGap > kSize) {
        shelf_y_ += shelf_height_ + kGap;
        shelf_x_ = 0;
        shelf_height_ = 0;
    }
    if (shelf_y_ + height + kGap > kSize || width + kGap > kSize) {
        full_ = true;
        return false;
    }
    x = shelf_x_;
    y = shelf_y_;
    shelf_x_ += width + kGap;
    shelf_height_ = std::max(shelf_height_, height);
    return true;
}

Glyph Glyphs::rasterise(Weight weight, int size_px, char32_t code, int phase) {
    Glyph out;
    out.advance = advance(weight, size_px, code);
    FT_Face face = faces_->sized(weight, size_px);
    const FT_Int32 flags = size_px < kHintedBelow_px ? FT_LOAD_TARGET_LIGHT : FT_LOAD_NO_HINTING;
    if (code == kThinSpace || FT_Load_Char(face, code, flags) != 0) return out;
    FT_GlyphSlot slot = face->glyph;
    double shift_px = static_cast<double>(phase) / kPhases;
    if (tabular(code)) {  // in the middle of its common width
        shift_px += (static_cast<double>(out.advance) -
                     static_cast<double>(faces_->ownAdvance(weight, size_px, code))) /
                    2;
        if (FT_Load_Char(face, code, flags) != 0) return out;
        slot = face->glyph;
    }
    intoAtlas(slot, shift_px, out);
    return out;
}

/// Draws what was loaded a little to the right. @return false: there is nothing to be seen
bool Glyphs::intoAtlas(FT_GlyphSlot slot, double shift_px, Glyph& out) {
    FT_Outline_Translate(&slot->outline, static_cast<FT_Pos>(std::lround(shift_px * 64)), 0);
    if (FT_Render_Glyph(slot, FT_RENDER_MODE_NORMAL) != 0) return false;
    const FT_Bitmap& bitmap = slot->bitmap;
    const auto width = static_cast<int>(bitmap.width);
    const auto height = static_cast<int>(bitmap.rows);
    int x = 0, y = 0;
    if (width == 0 || height == 0 || !place(width, height, x, y)) return false;
    for (int row = 0; row < height; ++row) {
        std::copy_n(bitmap.buffer + static_cast<std::ptrdiff_t>(row) * bitmap.pitch, width,
                    texels_.begin() + static_cast<std::ptrdiff_t>(y + row) * kSize + x);
    }
    changed_first_ = std::min(changed_first_, y);
    changed_end_ = std::max(changed_end_, y + height);
    out.x = static_cast<std::int16_t>(x);
    out.y = static_cast<std::int16_t>(y);
    out.width = static_cast<std::int16_t>(width);
    out.height = static_cast<std::int16_t>(height);
    out.left = static_cast<std::int16_t>(slot->bitmap_left);
    out.top = static_cast<std::int16_t>(slot->bitmap_top);
    return true;
}

void Glyphs::useFonts(std::shared_ptr<const page::Fonts> fonts) {
    if (faces_->others == fonts) return;
    for (FT_Face face : faces_->other_faces)
        if (face != nullptr) FT_Done_Face(face);
    const auto count = fonts ? static_cast<std::size_t>(fonts->count()) : 0;
    faces_->other_faces.assign(count, nullptr);
    faces_->other_sizes_px.assign(count, 0);
    faces_->others = std::move(fonts);
    clear();  // shapes of the fonts before
}

Glyph Glyphs::shape(int font, int size_px, unsigned index, int phase) {
    Faces& f = *faces_;
    const auto number = static_cast<std::size_t>(font);
    if (number >= f.other_faces.size()) return {};
    // Beyond every code point, so that it cannot be taken for a letter.
    constexpr std::uint32_t kBeyond = 0x200000;
    const std::uint64_t key =
        (static_cast<std::uint64_t>(kBeyond + static_cast<std::uint32_t>(font)) << 44) |
        (static_cast<std::uint64_t>(index & 0xFFFFFU) << 24) |
        (static_cast<std::uint64_t>(size_px) << 8) | static_cast<std::uint64_t>(phase);
    const auto found = f.glyphs.find(key);
    if (found != f.glyphs.end()) return found->second;
    FT_Face& face = f.other_faces[number];
    if (face == nullptr) {
        const std::string_view bytes = f.others->bytesOf(font);
        if (FT_New_Memory_Face(f.library, reinterpret_cast<const FT_Byte*>(bytes.data()),
                               static_cast<FT_Long>(bytes.size()), 0, &face) != 0) {
            face = nullptr;
            return {};
        }
    }
    if (f.other_sizes_px[number] != size_px) {
        FT_Set_Pixel_Sizes(face, 0, static_cast<FT_UInt>(size_px));
        f.other_sizes_px[number] = size_px;
    }
    const FT_Int32 flags = size_px < kHintedBelow_px ? FT_LOAD_TARGET_LIGHT : FT_LOAD_NO_HINTING;
    Glyph out;
    if (FT_Load_Glyph(face, index, flags) == 0) {
        intoAtlas(face->glyph, static_cast<double>(phase) / kPhases, out);
    }
    if (!full_) f.glyphs.emplace(key, out);
    return out;
}

Glyph Glyphs::glyph(Weight weight, int size_px, char32_t code, int phase) {
    if (size_px >= kPhasesBelow_px) phase = 0;
    const std::uint64_t key = keyOf(weight, size_px, code, phase);
    const auto found = faces_->glyphs.find(key);
    if (found != faces_->glyphs.end()) return found->second;
    const Glyph made = rasterise(weight, size_px, code, phase);
    if (!full_) faces_->glyphs.emplace(key, made);
    return made;
}

float Glyphs::advance(Weight weight, int size_px, char32_t code) {
    const std::uint64_t key = keyOf(weight, size_px, tabular(code) ? U'0' : code, 0);
    const auto found = faces_->advances.find(key);
    if (found != faces_->advances.end()) return found->second;
    float width = 0;
    if (tabular(code)) {
        for (char32_t digit = '0'; digit <= '9'; ++digit) {
            width = std::max(width, faces_->ownAdvance(weight, size_px, digit));
        }
    } else if (code == kThinSpace) {
        width = static_cast<float>(size_px) / 6;
    } else {
        width = faces_->ownAdvance(weight, size_px, code);
    }
    faces_->advances.emplace(key, width);
    return width;
}

float Glyphs::baseline(int size_px, float line_px) const {
    const FT_Face face = faces_->faces[0];
    const float per_em = static_cast<float>(size_px) / static_cast<float>(face->units_per_EM);
    const float ascent = static_cast<float>(face->ascender) * per_em;
    const float descent = -static_cast<float>(face->descender) * per_em;
    return std::round((line_px - ascent - descent) / 2 + ascent);
}

char32_t takeCodePoint(std::string_view& text) {
    constexpr char32_t kReplacement = 0xFFFD;
    const auto first = static_cast<unsigned char>(text.front());
    const std::size_t length = first < 0x80 ? 1 : first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
    char32_t code = length == 1 ? first : first & (0xFFU >> (length + 1));
    bool good = first < 0x80 || (first >= 0xC2 && first < 0xF5);
    good = good && length <= text.size();
    for (std::size_t i = 1; good && i < length; ++i) {
        const auto next = static_cast<unsigned char>(text[i]);
        good = (next & 0xC0) == 0x80;
        code = (code << 6) | (next & 0x3FU);
    }
    text.remove_prefix(good ? length : 1);
    return good ? code : kReplacement;
}

}  // namespace plumbline::ui

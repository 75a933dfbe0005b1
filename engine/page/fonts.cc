#include "engine/page/fonts.h"

#include <hb.h>

#include "engine/page/fonts_impl.h"
#include "engine/page/utf8.h"

namespace plumbline::page {
namespace {

/// @return without a font when the bytes are none
ShapingFont open(std::string_view bytes, std::shared_ptr<const std::string> owned) {
    ShapingFont out;
    out.owned = std::move(owned);
    out.bytes = bytes;
    hb_blob_t* blob = hb_blob_create(bytes.data(), static_cast<unsigned>(bytes.size()),
                                     HB_MEMORY_MODE_READONLY, nullptr, nullptr);
    hb_face_t* face = hb_face_create(blob, 0);
    hb_blob_destroy(blob);
    // What is no font has no letters: a face is made of anything.
    if (hb_face_get_glyph_count(face) > 1) {
        const unsigned units = hb_face_get_upem(face);
        hb_font_t* font = hb_font_create(face);
        hb_font_set_scale(font, static_cast<int>(units), static_cast<int>(units));
        out.font = std::shared_ptr<hb_font_t>(font, hb_font_destroy);
        out.per_unit = 1.0 / units;
    }
    hb_face_destroy(face);
    return out;
}

}  // namespace

bool ShapingFont::has(char32_t letter) const {
    hb_codepoint_t glyph = 0;
    return hb_font_get_nominal_glyph(font.get(), letter, &glyph) != 0 && glyph != 0;
}

int Fonts::Impl::fontFor(char32_t letter, Weight weight) const {
    const int own = static_cast<int>(weight);
    if (fonts[static_cast<std::size_t>(own)].has(letter)) return own;
    for (std::size_t i = kEmbedded; i < fonts.size(); ++i)
        if (fonts[i].has(letter)) return static_cast<int>(i);
    return -1;
}

Fonts::Fonts() : impl_(std::make_unique<Impl>()) {
    for (const char* name : {"Inter-Regular.otf", "Inter-SemiBold.otf", "Inter-Bold.otf"}) {
        impl_->fonts.push_back(open(embeddedFont(name).value_or(std::string_view()), nullptr));
        impl_->fonts.back().embedded = true;
    }
}
Fonts::~Fonts() = default;
Fonts::Fonts(Fonts&&) noexcept = default;
Fonts& Fonts::operator=(Fonts&&) noexcept = default;

std::string Fonts::add(std::string bytes) {
    const auto owned = std::make_shared<const std::string>(std::move(bytes));
    ShapingFont font = open(*owned, owned);
    if (!font.font) return "it is no TrueType or OpenType font";
    impl_->fonts.push_back(std::move(font));
    return "";
}

std::string Fonts::missing() const {
    std::string out;
    for (const char32_t letter : impl_->missing) appendUtf8(out, letter);
    return out;
}

std::shared_ptr<const std::string> Fonts::owned(int font) const {
    return impl_->fonts[static_cast<std::size_t>(font)].owned;
}
std::string_view Fonts::bytesOf(int font) const {
    return impl_->fonts[static_cast<std::size_t>(font)].bytes;
}
int Fonts::count() const { return static_cast<int>(impl_->fonts.size()); }

}  // namespace plumbline::page

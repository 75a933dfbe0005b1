#include "viewer/app/word_pictures.h"

#include <algorithm>
#include <filesystem>

#include "engine/system/whole_file.h"
#include "viewer/model/word_picture.h"
#include "viewer/render/shared_picture.h"

namespace plumbline::app {
namespace {

constexpr int kUnusedFrames = 120;  // chosen: two seconds; the words come back after a step back

page::Colour colourOf(ui::Colour colour) {
    const auto part = [colour](int shift) { return ((colour >> shift) & 0xFFU) / 255.0; };
    return {part(0), part(8), part(16)};
}

}  // namespace

WordPictures::WordPictures() = default;
WordPictures::~WordPictures() = default;

void WordPictures::begin(const std::vector<std::string>& fonts) {
    if (fonts != files_) {
        files_ = fonts;
        fonts_ = nullptr;
        kept_.clear();
    }
    std::erase_if(kept_, [](Kept& one) { return ++one.unused > kUnusedFrames; });
}

ui::WordSetter::Picture WordPictures::set(const Wish& wish) {
    for (Kept& one : kept_) {
        if (one.wish != wish) continue;
        one.unused = 0;
        return {reinterpret_cast<ImTextureID>(static_cast<std::intptr_t>(one.texture->name())),
                static_cast<float>(one.texture->width()),
                static_cast<float>(one.texture->height())};
    }
    if (!fonts_) {
        fonts_ = std::make_unique<page::Fonts>();
        for (const std::string& file : files_) {
            // One that cannot be read leaves its letters as boxes: seen at once.
            system::ReadFile read = system::readWholeFile(std::filesystem::u8path(file));
            if (read.bytes) static_cast<void>(fonts_->add(std::move(*read.bytes)));
        }
    }
    model::WordWish words;
    words.words = wish.words;
    words.said = wish.said;
    words.size_px = wish.size_px;
    words.line_px = static_cast<double>(wish.line_px);
    words.width_px = static_cast<double>(wish.width_px);
    words.strong = wish.strong;
    words.ink = colourOf(wish.ink);
    words.ahead = colourOf(wish.ahead);
    const page::Picture picture = model::wordPicture(*fonts_, words);
    if (picture.width <= 0 || picture.height <= 0) return {};
    Kept kept;
    kept.wish = wish;
    kept.texture = render::textureOf(picture.rgba.data(), picture.width, picture.height);
    kept_.push_back(std::move(kept));
    return set(wish);
}

}  // namespace plumbline::app

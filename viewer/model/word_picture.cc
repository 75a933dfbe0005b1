#include "viewer/model/word_picture.h"

#include <algorithm>

namespace plumbline::model {
namespace {

constexpr double kDotsPerMm = 4;  // chosen: any; the page is as large as the picture asks for
constexpr double kPtPerMm = 72 / 25.4;

}  // namespace

page::Picture wordPicture(const page::Fonts& fonts, const WordWish& wish) {
    page::Style style;
    style.size_pt = wish.size_px / kDotsPerMm * kPtPerMm;
    style.weight = wish.strong ? page::Weight::SemiBold : page::Weight::Regular;
    const std::size_t said = std::min(wish.said, wish.words.size());
    page::Text text;
    style.colour = wish.ink;
    if (said > 0) text.push_back({wish.words.substr(0, said), style});
    style.colour = wish.ahead;
    if (said < wish.words.size()) text.push_back({wish.words.substr(said), style});
    const double width_mm = wish.width_px / kDotsPerMm;
    const double leading = wish.line_px / wish.size_px;
    constexpr double kHighest_mm = 4000;  // chosen: more than any screen
    page::Document document(page::Size{width_mm, kHighest_mm}, fonts);
    const double height_mm =
        document.paragraph({0, 0}, width_mm, text, page::Align::Start, leading);
    page::Painting painting;
    painting.dots_per_mm = kDotsPerMm;
    painting.part = page::Box{0, 0, width_mm, std::min(height_mm, kHighest_mm)};
    painting.ground = std::nullopt;
    return document.pictureOf(0, painting);
}

}  // namespace plumbline::model

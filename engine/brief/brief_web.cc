// In a browser a brief has no files to print; what they are laid out from is the same.

#include "engine/brief/brief.h"

namespace plumbline::brief {

page::Document pagesOf(SheetKind kind, const variant::Flown&, const Content&,
                       const page::Fonts& fonts, const Wishes& wishes) {
    const bool small = kind == SheetKind::Card;
    const page::Paper paper = wishes.letter
                                  ? (small ? page::Paper::HalfLetter : page::Paper::Letter)
                                  : (small ? page::Paper::A5 : page::Paper::A4);
    return page::Document(page::sizeOf(paper), fonts);
}

}  // namespace plumbline::brief

// In a browser a brief has no files to print; what they are laid out from is the same.

#include "engine/brief/brief.h"

namespace plumbline::brief {

page::Document pagesOf(SheetKind kind, const variant::Flown&, const Content&,
                       const page::Fonts& fonts, const Wishes& wishes) {
    return page::Document(page::sizeOf(paperOf(kind, wishes.letter)), fonts);
}

}  // namespace plumbline::brief

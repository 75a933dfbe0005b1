// A page in a browser has the window's own font and no layout for other scripts.

#include "viewer/model/word_picture.h"

namespace plumbline::model {

page::Picture wordPicture(const page::Fonts&, const WordWish&) { return {}; }

}  // namespace plumbline::model

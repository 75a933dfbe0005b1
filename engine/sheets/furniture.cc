#include "engine/sheets/furniture.h"

#include "engine/brief/head.h"
#include "engine/check/check.h"

namespace plumbline::sheets {

using page::Align;
using page::Document;
using page::Point;

double drawHead(Document& document, const Head& head) {
    const double right_mm = document.size().width_mm - kMargin_mm;
    brief::drawBob(document, kMargin_mm + 2.2, 10.5, 17, 0.43);
    const double text_mm = kMargin_mm + 8.5;
    document.words({text_mm, 17.2}, {{head.title, heavy(16.5)}});
    document.words({text_mm, 22.4}, {{head.below, plain(8)}});
    document.words({right_mm, 18.2}, {{head.right_above, plain(8)}}, Align::Right);
    document.words({right_mm, 22.4}, {{head.right_below, plain(8)}}, Align::Right);
    document.line({kMargin_mm, 26.6}, {right_mm, 26.6}, {2, page::kInk});
    return 27;
}

double footTop(const Document& document) { return document.size().height_mm - 20; }

void drawFoot(Document& document, const std::string& revision, int page, int pages) {
    const double top_mm = footTop(document) + 3;
    const double right_mm = document.size().width_mm - kMargin_mm;
    document.paragraph({kMargin_mm, top_mm}, 118, {{check::caution(), quiet(7)}});
    document.paragraph({right_mm - 62, top_mm}, 62,
                       {{revision + (revision.empty() ? "" : ", ") + "page " +
                             std::to_string(page) + " of " + std::to_string(pages),
                         quiet(7)}},
                       Align::Right);
}

void drawTitle(Document& document, Point base, const std::string& title,
               const std::string& beside) {
    page::Text text = {{title, strong(10)}};
    if (!beside.empty()) text.push_back({"   " + beside, quiet(8)});
    document.words(base, text);
}

double drawDo(Document& document, Point top_left, double width_mm, const std::string& words) {
    const page::Text text = {{words, strong(8.6)}};
    const double height_mm = document.heightOf_mm(width_mm - 4, text);
    document.fill(page::Box{top_left.x_mm, top_left.y_mm, 1, height_mm + 0.6}, page::kDo);
    document.paragraph({top_left.x_mm + 3.6, top_left.y_mm + 0.3}, width_mm - 4, text);
    return height_mm + 0.6;
}

}  // namespace plumbline::sheets

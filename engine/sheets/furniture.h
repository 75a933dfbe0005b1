#pragma once
// What every sheet has at its head and foot, and the styles of its words.

#include <string>

#include "engine/page/document.h"

namespace plumbline::sheets {

inline constexpr double kMargin_mm = 12.5;

inline page::Style plain(double size_pt = 8.4) {
    return {size_pt, page::Weight::Regular, page::kInk};
}
inline page::Style quiet(double size_pt = 7.2) {
    return {size_pt, page::Weight::Regular, page::kQuiet};
}
inline page::Style strong(double size_pt = 8.4) {
    return {size_pt, page::Weight::SemiBold, page::kInk};
}
inline page::Style heavy(double size_pt) { return {size_pt, page::Weight::Bold, page::kInk}; }

struct Head {
    std::string title, below;
    std::string right_above, right_below;
};
/// @return where what follows may begin
double drawHead(page::Document& document, const Head& head);

/// The caution and, on the right, what the sheet was made of and which page it is.
/// @return where what stands above must have ended
double footTop(const page::Document& document);
void drawFoot(page::Document& document, const std::string& revision, int page, int pages);

/// A name over a part, and words beside it.
void drawTitle(page::Document& document, page::Point base, const std::string& title,
               const std::string& beside = "");

/// A saffron rule with what to do.
/// @return its height
double drawDo(page::Document& document, page::Point top_left, double width_mm,
              const std::string& words);

}  // namespace plumbline::sheets

#pragma once
// Words as they are printed: which letters, how large, in which order.

#include <string>
#include <vector>

#include "engine/page/paper.h"

namespace plumbline::page {

enum class Weight { Regular, SemiBold, Bold };

struct Style {
    double size_pt = 9;
    Weight weight = Weight::Regular;
    Colour colour = kInk;
};

/// UTF-8 of any script; what is not UTF-8 prints as U+FFFD. A line feed begins a new line.
struct Span {
    std::string words;
    Style style;
};
using Text = std::vector<Span>;

enum class Align {
    Start,  ///< left, or right where the text runs to the left
    Left,
    Centre,
    Right,
};

}  // namespace plumbline::page

#pragma once
// What an element is called in lists and in the CSV.

#include <string>

#include "engine/text/figure_text.h"

namespace plumbline::fly {

/// Short trade words.
std::string labelOf(const text::ElementBody& body);

}  // namespace plumbline::fly

#pragma once
// Figure text as in a mirror that stands at show centre: left and right as the crowd sees them.

#include <string>
#include <string_view>

#include "engine/text/figure_text.h"

namespace plumbline::text {

/// An element with x, left and right exchanged for their opposites; the words of cues stay.
ElementBody mirrorBody(const ElementBody& body);

/// With the words; the pattern and what it uses stay as written.
Element mirrorElement(Element element);

/// The same done to one line of figure text without parameters: what mirrorBody makes of what the
/// line says is what the mirrored line says. A line that is no figure text comes back as it is.
std::string mirrorWords(std::string_view line);

}  // namespace plumbline::text

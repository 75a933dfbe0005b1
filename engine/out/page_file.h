#pragma once
// One HTML file that holds the viewer and what it opens.

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/load/carried.h"

namespace plumbline::out {

/// What the page opens, besides the files that it carries.
struct PageContent {
    std::vector<load::Carried::File> files;
    std::vector<std::string> open;     ///< names among the files, or none: the demo
    std::vector<std::string> options;  ///< how to open them: variant::readWishWords
};

/// @param page  the viewer made for a browser, as it is built: with nothing to open
/// @return nothing when the page is none of ours
std::optional<std::string> pageWith(std::string_view page, const PageContent& content);

/// As a JSON string (RFC 8259) in ASCII that HTML text may hold: nothing in it ends an element or
/// begins a comment. What is no UTF-8 becomes U+FFFD.
std::string jsonText(std::string_view utf8);

/// RFC 4648, section 4.
std::string base64(std::string_view bytes);

}  // namespace plumbline::out

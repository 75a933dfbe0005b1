#pragma once
// Text inside an XML file.

#include <string>
#include <string_view>

namespace plumbline::out {

/// Fit for the text of an element or of an attribute in double quotes. What XML 1.0 cannot hold
/// (control characters) is left out; bytes that are no UTF-8 become U+FFFD.
std::string xmlText(std::string_view text);

}  // namespace plumbline::out

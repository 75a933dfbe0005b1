#pragma once
// Numbers to and from text, the same in every locale and on every system.

#include <optional>
#include <string>
#include <string_view>

namespace plumbline {

/// The number that is the whole of `text` (leading '+' allowed, no blanks); nothing when it is not
/// one or not finite.
std::optional<double> parseDouble(std::string_view text);

/// The number that `first` starts with, as far as it goes (no sign '+', no blanks): one past it, or
/// `first` when there is none. For the inner loops of readers.
const char* parseNumberAt(const char* first, const char* last, double& value);

/// Shortest text that reads back to the same double; "nan", "inf", "-inf" for the others.
std::string formatDouble(double value);

/// Fixed number of decimals, '.' as the point; never "-0.00".
std::string formatFixed(double value, int decimals);

}  // namespace plumbline

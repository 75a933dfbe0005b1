#pragma once
// The font inside the program.

#include <optional>
#include <string_view>

namespace plumbline::page {

/// The bytes of "Inter-Regular.otf" and its like.
std::optional<std::string_view> embeddedFont(std::string_view name);

}  // namespace plumbline::page

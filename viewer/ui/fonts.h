#pragma once
// The fonts inside the program.

#include <optional>
#include <string_view>

namespace plumbline::ui {

/// Bytes of "Inter-Regular.otf", "Inter-Medium.otf", "Inter-SemiBold.otf".
std::optional<std::string_view> embeddedFont(std::string_view name);

}  // namespace plumbline::ui

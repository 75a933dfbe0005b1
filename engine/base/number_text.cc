#include "engine/base/number_text.h"

#include <cmath>

#include <fast_float/fast_float.h>
#include <fmt/format.h>

#include "engine/base/check.h"

namespace plumbline {

std::optional<double> parseDouble(std::string_view text) {
    if (!text.empty() && text.front() == '+') {
        text.remove_prefix(1);
        if (!text.empty() && text.front() == '-') return std::nullopt;
    }
    double value = 0;
    const char* const end = text.data() + text.size();
    const auto result = fast_float::from_chars(text.data(), end, value);
    if (result.ec != std::errc() || result.ptr != end || !std::isfinite(value)) return std::nullopt;
    return value;
}

std::string formatDouble(double value) {
    if (std::isnan(value)) return "nan";
    if (std::isinf(value)) return value > 0 ? "inf" : "-inf";
    return fmt::format("{}", value);
}

std::string formatFixed(double value, int decimals) {
    PL_EXPECT(decimals >= 0);
    if (!std::isfinite(value)) return formatDouble(value);
    std::string text = fmt::format("{:.{}f}", value, decimals);
    if (text.front() == '-' && text.find_first_not_of("-0.") == std::string::npos) text.erase(0, 1);
    return text;
}

}  // namespace plumbline

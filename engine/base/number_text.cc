#include "engine/base/number_text.h"

#include <cmath>
#include <cstddef>
#include <cstdint>

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

const char* parseNumberAt(const char* first, const char* last, double& value) {
    // Few digits make an exact integer, and a power of ten up to 1e22 is exact: their quotient is
    // rounded once (W. D. Clinger, PLDI 1990). Most numbers of a log are such; the rest takes the
    // general way.
    static constexpr double kTens[] = {1,   1e1, 1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                       1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15};
    const char* at = first;
    const bool negative = at < last && *at == '-';
    if (negative) ++at;
    std::uint64_t digits = 0;
    const char* const start = at;
    while (at < last && static_cast<unsigned char>(*at - '0') < 10)
        digits = digits * 10 + static_cast<unsigned char>(*at++ - '0');
    std::ptrdiff_t count = at - start, decimals = 0;
    if (at < last && *at == '.') {
        const char* const point = ++at;
        while (at < last && static_cast<unsigned char>(*at - '0') < 10)
            digits = digits * 10 + static_cast<unsigned char>(*at++ - '0');
        decimals = at - point;
        count += decimals;
    }
    const bool more =
        at < last && ((*at | 0x20) == 'e' || (*at | 0x20) == 'n' || (*at | 0x20) == 'i');
    if (count > 0 && count <= 15 && !more) {
        const double size = static_cast<double>(digits) / kTens[decimals];
        value = negative ? -size : size;
        return at;
    }
    const auto result = fast_float::from_chars(first, last, value);
    return result.ec == std::errc() && std::isfinite(value) ? result.ptr : first;
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

#include "engine/earth/utc_time.h"

#include <chrono>

#include "engine/base/number_text.h"

namespace plumbline::earth {
namespace {

/// Takes exactly `digits` digits off the front.
std::optional<int> takeNumber(std::string_view& text, std::size_t digits) {
    if (text.size() < digits) return std::nullopt;
    int number = 0;
    for (const char c : text.substr(0, digits)) {
        if (c < '0' || c > '9') return std::nullopt;
        number = 10 * number + (c - '0');
    }
    text.remove_prefix(digits);
    return number;
}

bool take(std::string_view& text, char wanted) {
    if (text.empty() || text.front() != wanted) return false;
    text.remove_prefix(1);
    return true;
}

std::optional<double> takeSeconds(std::string_view& text) {
    const std::size_t length = text.find_first_not_of("0123456789.");
    const std::string_view number = text.substr(0, length);
    if (number.find_first_of('.') != 2 && number.size() != 2) return std::nullopt;
    text.remove_prefix(number.size());
    const std::optional<double> seconds = parseDouble(number);
    if (!seconds || *seconds >= 60) return std::nullopt;
    return seconds;
}

/// Seconds east of UTC; the zone is all that is left.
std::optional<double> takeZone(std::string_view& text) {
    if (text == "Z" || text == "z") return 0;
    const double sign = take(text, '+') ? 1 : take(text, '-') ? -1 : 0;
    const auto hours = takeNumber(text, 2);
    if (sign == 0 || !hours || !take(text, ':')) return std::nullopt;
    const auto minutes = takeNumber(text, 2);
    if (!minutes || !text.empty() || *hours > 14 || *minutes > 59) return std::nullopt;
    return sign * (*hours * 3600 + *minutes * 60);
}

}  // namespace

std::optional<double> parseUtc(std::string_view text) {
    const auto year = takeNumber(text, 4);
    if (!year || !take(text, '-')) return std::nullopt;
    const auto month = takeNumber(text, 2);
    if (!month || !take(text, '-')) return std::nullopt;
    const auto day = takeNumber(text, 2);
    if (!day || !(take(text, 'T') || take(text, 't') || take(text, ' '))) return std::nullopt;
    const auto hour = takeNumber(text, 2);
    if (!hour || !take(text, ':')) return std::nullopt;
    const auto minute = takeNumber(text, 2);
    if (!minute || *hour > 23 || *minute > 59) return std::nullopt;
    std::optional<double> seconds = 0;
    if (take(text, ':')) seconds = takeSeconds(text);
    if (!seconds) return std::nullopt;
    const auto zone_s = takeZone(text);
    if (!zone_s) return std::nullopt;

    const std::chrono::year_month_day date{std::chrono::year(*year),
                                           std::chrono::month(static_cast<unsigned>(*month)),
                                           std::chrono::day(static_cast<unsigned>(*day))};
    if (!date.ok()) return std::nullopt;
    const auto days = std::chrono::sys_days(date).time_since_epoch().count();
    return 86400.0 * static_cast<double>(days) + 3600.0 * *hour + 60.0 * *minute + *seconds -
           *zone_s;
}

}  // namespace plumbline::earth

#include "engine/record/clock_text.h"

#include <chrono>
#include <cmath>
#include <cstdio>

#include "engine/base/number_text.h"
#include "engine/earth/utc_time.h"
#include "engine/record/text_lines.h"

namespace plumbline::record {

std::optional<double> secondsOfDate(std::int32_t year, std::int32_t month, std::int32_t day) {
    const std::chrono::year_month_day date{std::chrono::year{year},
                                           std::chrono::month{static_cast<unsigned>(month)},
                                           std::chrono::day{static_cast<unsigned>(day)}};
    if (year < 1900 || month < 1 || day < 1 || !date.ok()) return std::nullopt;
    return 86400.0 * static_cast<double>(std::chrono::sys_days(date).time_since_epoch().count());
}

std::optional<double> parseTimeOfDay(std::string_view text) {
    if (text.size() < 5 || text[2] != ':') return std::nullopt;
    const std::int32_t hours = digits(text.substr(0, 2));
    const std::int32_t minutes = digits(text.substr(3, 2));
    double seconds = 0;
    if (text.size() > 5) {
        const std::string_view rest = text.substr(6);
        if (text[5] != ':' || rest.empty() || rest[0] < '0' || rest[0] > '9') return std::nullopt;
        const std::optional<double> value = parseDouble(rest);
        if (!value) return std::nullopt;
        seconds = *value;
    }
    // 60 is a leap second.
    if (hours < 0 || hours > 24 || minutes < 0 || minutes > 59 || seconds >= 61)
        return std::nullopt;
    return hours * 3600.0 + minutes * 60.0 + seconds;
}

std::optional<double> parseUtc(std::string_view text) {
    text = trimmed(text);
    if (const std::optional<double> utc_s = earth::parseUtc(text)) return utc_s;
    std::string with_zone = std::string(text) + "Z";
    // "2009-10-17 18:37:26", "2009/10/17 18:37:26"
    if (with_zone.size() > 11 && with_zone[10] == ' ') with_zone[10] = 'T';
    if (with_zone.size() > 11 && with_zone[4] == '/' && with_zone[7] == '/')
        with_zone[4] = with_zone[7] = '-';
    return earth::parseUtc(with_zone);
}

std::optional<double> parseDate(std::string_view text) {
    text = trimmed(text);
    if (text.size() == 8 && digits(text) > 0)
        return secondsOfDate(digits(text.substr(0, 4)), digits(text.substr(4, 2)),
                             digits(text.substr(6, 2)));
    const std::size_t first = text.find_first_of("-/.");
    if (first == std::string_view::npos) return std::nullopt;
    const std::size_t second = text.find_first_of("-/.", first + 1);
    if (second == std::string_view::npos) return std::nullopt;
    const std::int32_t a = digits(text.substr(0, first));
    const std::int32_t b = digits(text.substr(first + 1, second - first - 1));
    const std::int32_t c = digits(text.substr(second + 1));
    return first == 4 ? secondsOfDate(a, b, c) : secondsOfDate(c, b, a);
}

std::string formatUtc(double utc_s) {
    const double day = std::floor(utc_s / 86400);
    const std::chrono::year_month_day date{
        std::chrono::sys_days(std::chrono::days(static_cast<std::int64_t>(day)))};
    const int second = static_cast<int>(utc_s - day * 86400);
    char text[48];
    std::snprintf(text, sizeof text, "%04d-%02u-%02uT%02d:%02d:%02dZ",
                  static_cast<int>(date.year()), static_cast<unsigned>(date.month()),
                  static_cast<unsigned>(date.day()), second / 3600, second / 60 % 60, second % 60);
    return text;
}

}  // namespace plumbline::record

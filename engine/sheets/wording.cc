#include "engine/sheets/wording.h"

#include <algorithm>
#include <cmath>

#include "engine/base/measured_text.h"
#include "engine/base/number_text.h"

namespace plumbline::sheets {

std::string number(double value, int decimals, bool plus) {
    std::string text = formatFixed(std::fabs(value), decimals);
    const bool zero = text.find_first_not_of("0.") == std::string::npos;
    if (value < 0 && !zero) return "\u2212" + text;
    return plus && !zero ? "+" + text : text;
}

std::string within(double value, double doubt, int most_decimals, bool plus) {
    return measuredText(value, doubt, {most_decimals, plus});
}

std::string withSigns(const std::string& plain) {
    std::string out;
    for (std::size_t i = 0; i < plain.size();) {
        if (plain.compare(i, 4, " deg") == 0 &&
            (i + 4 == plain.size() || !std::isalpha(static_cast<unsigned char>(plain[i + 4])))) {
            out += "\u00b0";
            i += 4;
        } else if (plain.compare(i, 3, "+- ") == 0) {
            out += "\u00b1";
            i += 3;
        } else {
            out += plain[i++];
        }
    }
    return out;
}

namespace {

constexpr const char* kMonths[] = {"January",   "February", "March",    "April",
                                   "May",       "June",     "July",     "August",
                                   "September", "October",  "November", "December"};

int digits(const std::string& text, std::size_t at, std::size_t count) {
    int value = 0;
    for (std::size_t i = at; i < at + count; ++i) {
        if (i >= text.size() || text[i] < '0' || text[i] > '9') return -1;
        value = 10 * value + (text[i] - '0');
    }
    return value;
}

}  // namespace

std::string dayOf(const std::string& utc) {
    const int year = digits(utc, 0, 4), month = digits(utc, 5, 2), day = digits(utc, 8, 2);
    if (year < 0 || month < 1 || month > 12 || day < 1) return utc;
    return std::to_string(day) + " " + kMonths[month - 1] + " " + std::to_string(year);
}

std::string dayAndTime(const std::string& utc) {
    const std::string day = dayOf(utc);
    if (day == utc || digits(utc, 11, 2) < 0 || digits(utc, 14, 2) < 0) return day;
    return day + ", " + utc.substr(11, 5) + " UTC";
}

std::string windWords(const data::Weather& weather, const data::Site& site,
                      units::DisplayUnits units) {
    std::string text = "calm";
    constexpr double kCalm_mps = 0.5, kLow_m = 10;
    const data::WindLayer* low = nullptr;
    for (const data::WindLayer& layer : weather.wind)
        if (!low || layer.height_m <= kLow_m) low = &layer;
    if (low && low->speed_mps >= kCalm_mps) {
        // Where it comes from, by the crowd: x to its right, y away from it.
        const double angle = site.show_line_bearing_rad - low->from_rad;
        const double right = std::cos(angle), away = std::sin(angle);
        const char* side = right > 0 ? "the right" : "the left";
        if (std::fabs(away) > 2.4 * std::fabs(right))
            side = away > 0 ? "beyond the show line" : "behind the crowd";
        text = units::formatSpeed(low->speed_mps, units) + " from " + side;
    }
    return text + ", " + number(weather.temperature_k - 273.15, 0) + " \u00b0C";
}

}  // namespace plumbline::sheets

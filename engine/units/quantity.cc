#include "engine/units/quantity.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <iterator>
#include <optional>
#include <vector>

#include <fmt/format.h>

#include "engine/base/nearest_word.h"
#include "engine/base/number_text.h"
#include "engine/units/measured.h"
#include "engine/units/units.h"

namespace plumbline::units {
namespace {

// The first listed one of a kind is the one that messages show in their examples.
constexpr Unit kUnits[] = {
    {"m", Dimension::Length, 1},
    {"ft", Dimension::Length, kFoot_m},
    {"km", Dimension::Length, 1000},
    {"cm", Dimension::Length, 0.01},
    {"NM", Dimension::Length, kNauticalMile_m},
    {"m2", Dimension::Area, 1},
    {"m\u00b2", Dimension::Area, 1, 0, false},
    {"ft2", Dimension::Area, kFoot_m* kFoot_m},
    {"l", Dimension::Volume, kLitre_m3},
    {"L", Dimension::Volume, kLitre_m3, 0, false},
    {"US gal", Dimension::Volume, kUsGallon_m3},
    {"s", Dimension::Time, 1},
    {"min", Dimension::Time, kMinute_s},
    {"h", Dimension::Time, kHour_s},
    {"m/s", Dimension::Speed, 1},
    {"kt", Dimension::Speed, kKnot_mps},
    {"km/h", Dimension::Speed, kKilometrePerHour_mps},
    {"mph", Dimension::Speed, kMilePerHour_mps},
    {"ft/min", Dimension::Speed, kFootPerMinute_mps},
    {"deg", Dimension::Angle, kDegree_rad},
    {"\u00b0", Dimension::Angle, kDegree_rad, 0, false},
    {"rad", Dimension::Angle, 1},
    {"deg/s", Dimension::AngularRate, kDegree_rad},
    {"rad/s", Dimension::AngularRate, 1},
    {"rad/s2", Dimension::AngularAcceleration, 1},
    {"deg/s2", Dimension::AngularAcceleration, kDegree_rad},
    {"rpm", Dimension::RotationSpeed, 1},
    {"/rad", Dimension::PerAngle, 1},
    {"/deg", Dimension::PerAngle, 1 / kDegree_rad},
    {"g", Dimension::Load, 1},
    {"g/s", Dimension::LoadRate, 1},
    {"%", Dimension::Ratio, 0.01},
    {"kg", Dimension::Mass, 1},
    {"lb", Dimension::Mass, kPound_kg},
    {"kg/l", Dimension::Density, 1 / kLitre_m3},
    {"kg/m3", Dimension::Density, 1},
    {"kg m2", Dimension::Inertia, 1},
    {"N m", Dimension::Moment, 1},
    {"degC", Dimension::Temperature, 1, kCelsiusZero_k},
    {"\u00b0C", Dimension::Temperature, 1, kCelsiusZero_k, false},
    {"degF", Dimension::Temperature, kFahrenheit_k, kFahrenheitZero_k},
    {"K", Dimension::Temperature, 1},
    {"K", Dimension::TemperatureStep, 1},
    {"hPa", Dimension::Pressure, kHectopascal_pa},
    {"inHg", Dimension::Pressure, kInchOfMercury_pa},
    {"Pa", Dimension::Pressure, 1},
    {"kW", Dimension::Power, 1000},
    {"hp", Dimension::Power, kHorsepower_w},
    {"PS", Dimension::Power, kMetricHorsepower_w},
    {"W", Dimension::Power, 1},
    {"kg/kWh", Dimension::SpecificConsumption, 1 / kKilowattHour_j},
    {"g/kWh", Dimension::SpecificConsumption, 0.001 / kKilowattHour_j},
    {"lb/hp/h", Dimension::SpecificConsumption, kPound_kg / (kHorsepower_w * kHour_s)},
    {"l/h", Dimension::VolumeFlow, kLitre_m3 / kHour_s},
    {"US gal/h", Dimension::VolumeFlow, kUsGallon_m3 / kHour_s},
};

constexpr std::string_view kMinus = "\u2212";

bool isDigit(char c) { return c >= '0' && c <= '9'; }

std::size_t skipDigits(std::string_view text, std::size_t at) {
    while (at < text.size() && isDigit(text[at])) ++at;
    return at;
}

/// Length of the number at the front of the text, 0 when there is none.
std::size_t numberLength(std::string_view text) {
    std::size_t at = !text.empty() && (text[0] == '+' || text[0] == '-') ? 1 : 0;
    const std::size_t whole = at;
    at = skipDigits(text, at);
    std::size_t digits = at - whole;
    if (at < text.size() && text[at] == '.') {
        const std::size_t end = skipDigits(text, at + 1);
        digits += end - at - 1;
        at = end;
    }
    if (digits == 0) return 0;
    if (at < text.size() && (text[at] == 'e' || text[at] == 'E')) {
        std::size_t power = at + 1;
        if (power < text.size() && (text[power] == '+' || text[power] == '-')) ++power;
        if (power < text.size() && isDigit(text[power])) at = skipDigits(text, power);
    }
    return at;
}

/// One blank for several, none at the ends.
std::string tidied(std::string_view text) {
    std::string out;
    for (const char c : text) {
        const bool blank = c == ' ' || c == '\t';
        if (!blank)
            out += c;
        else if (!out.empty() && out.back() != ' ')
            out += ' ';
    }
    if (!out.empty() && out.back() == ' ') out.pop_back();
    return out;
}

std::string exampleUnit(Dimension dimension) {
    for (const Unit& unit : kUnits)
        if (unit.dimension == dimension) return std::string(unit.name);
    return {};
}

QuantityError unitError(std::size_t offset, const std::string& name, const std::string& number,
                        Dimension dimension) {
    QuantityError error;
    error.offset = offset;
    error.remedy = fmt::format("write {} in {}, such as {} {}", dimensionName(dimension),
                               unitList(dimension), number, exampleUnit(dimension));
    if (name.empty()) {
        error.what = fmt::format("{} has no unit", number);
        return error;
    }
    const Unit* other = findUnit(name);
    if (other != nullptr && other->dimension != dimension) {
        error.what = fmt::format("{} {} is {}, not {}", number, name,
                                 dimensionName(other->dimension), dimensionName(dimension));
        return error;
    }
    error.what = fmt::format("\"{}\" is no unit known here", name);
    const std::string_view near = nearestUnit(name, dimension);
    if (!near.empty()) error.remedy = fmt::format("did you mean {}? {}", near, error.remedy);
    return error;
}

std::string known(double value, int decimals, std::string_view unit) {
    if (!std::isfinite(value)) return "not known";
    const std::string digits = formatFixed(std::fabs(value), decimals);
    const bool negative = value < 0 && digits.find_first_not_of("0.") != std::string::npos;
    return fmt::format("{}{} {}", negative ? kMinus : "", digits, unit);
}

}  // namespace

const Unit* findUnit(std::string_view name) {
    const auto* found = std::find_if(std::begin(kUnits), std::end(kUnits),
                                     [&](const Unit& unit) { return unit.name == name; });
    return found == std::end(kUnits) ? nullptr : found;
}

std::string_view nearestUnit(std::string_view name, Dimension dimension) {
    std::vector<std::string_view> fitting;
    for (const Unit& unit : kUnits)
        if (unit.dimension == dimension && unit.listed) fitting.push_back(unit.name);
    return nearestWord(name, fitting);
}

Expected<double, QuantityError> parseQuantity(std::string_view text, Dimension dimension) {
    const std::size_t start = std::min(text.find_first_not_of(" \t"), text.size());
    std::string plain(text.substr(start));
    std::size_t shortened = 0;  // bytes that the typographic minus is longer
    if (plain.rfind(kMinus, 0) == 0) {
        plain.replace(0, kMinus.size(), "-");
        shortened = kMinus.size() - 1;
    }
    const std::size_t length = numberLength(plain);
    const std::string number = plain.substr(0, length);
    const std::optional<double> value = parseDouble(number);
    if (!value) {
        QuantityError error;
        error.offset = start;
        error.what = length > 0      ? fmt::format("{} is too large a number", number)
                     : plain.empty() ? "there is nothing here"
                                     : fmt::format("\"{}\" does not start with a number", plain);
        error.remedy = fmt::format("write {} as a number with its unit, such as 10 {}",
                                   dimensionName(dimension), exampleUnit(dimension));
        return Unexpected(std::move(error));
    }
    const std::size_t unit_at = std::min(plain.find_first_not_of(" \t", length), plain.size());
    const std::size_t offset = start + shortened + unit_at;
    if (plain[length] == ',' && length + 1 < plain.size() && isDigit(plain[length + 1])) {
        return Unexpected(
            QuantityError{start + shortened + length, "a comma within a number",
                          "write the decimals after a point, thousands without mark"});
    }
    const std::string name = tidied(std::string_view(plain).substr(unit_at));
    for (const Unit& unit : kUnits)
        if (unit.dimension == dimension && unit.name == name) {
            const double si = *value * unit.factor + unit.zero;
            if (std::isfinite(si)) return si;
        }
    return Unexpected(unitError(offset, name, number, dimension));
}

std::string_view dimensionName(Dimension dimension) {
    switch (dimension) {
        case Dimension::Length:
            return "a length";
        case Dimension::Area:
            return "an area";
        case Dimension::Volume:
            return "a volume";
        case Dimension::Time:
            return "a time";
        case Dimension::Speed:
            return "a speed";
        case Dimension::Angle:
            return "an angle";
        case Dimension::AngularRate:
            return "a rate of rotation";
        case Dimension::AngularAcceleration:
            return "an angular acceleration";
        case Dimension::RotationSpeed:
            return "an engine speed";
        case Dimension::PerAngle:
            return "a slope by angle";
        case Dimension::Load:
            return "a load";
        case Dimension::LoadRate:
            return "a load onset";
        case Dimension::Ratio:
            return "a share";
        case Dimension::Mass:
            return "a mass";
        case Dimension::Density:
            return "a density";
        case Dimension::Inertia:
            return "a moment of inertia";
        case Dimension::Moment:
            return "a moment";
        case Dimension::Temperature:
            return "a temperature";
        case Dimension::TemperatureStep:
            return "a temperature difference";
        case Dimension::Pressure:
            return "a pressure";
        case Dimension::Power:
            return "a power";
        case Dimension::SpecificConsumption:
            return "a specific consumption";
        case Dimension::VolumeFlow:
            return "a fuel flow";
    }
    return "a quantity";
}

std::string unitList(Dimension dimension) {
    std::vector<std::string_view> names;
    for (const Unit& unit : kUnits)
        if (unit.dimension == dimension && unit.listed) names.push_back(unit.name);
    std::string list;
    for (std::size_t i = 0; i < names.size(); ++i) {
        if (i > 0) list += i + 1 == names.size() ? " or " : ", ";
        list += names[i];
    }
    return list;
}

std::string formatHeight(double height_m, DisplayUnits units) {
    const ShownIn shown = heightShownIn(height_m, units);
    const double height = height_m / shown.unit;
    return known(shown.decimals < 0 ? 10 * std::round(height / 10) : height, 0, shown.name);
}

std::string formatDistance(double distance_m) { return known(distance_m, 0, "m"); }

std::string formatSpeed(double speed_mps, DisplayUnits units) {
    const ShownIn shown = speedShownIn(units);
    return known(speed_mps / shown.unit, 0, shown.name);
}

std::string formatLoad(double load_g) {
    const std::string text = known(load_g, 1, "g");
    return std::isfinite(load_g) && text.rfind(kMinus, 0) != 0 ? "+" + text : text;
}

std::string formatTime(double time_s) {
    if (!std::isfinite(time_s) || std::fabs(time_s) > 1e9) return "not known";
    // A time such as 59.9999999 s that stands for a minute is shown as one.
    const auto seconds = static_cast<std::int64_t>(std::floor(std::fabs(time_s) + 1e-6));
    return fmt::format("{}{}:{:02}", time_s < 0 && seconds > 0 ? kMinus : "", seconds / 60,
                       seconds % 60);
}

std::string formatAngle(double angle_rad) { return known(angle_rad / kDegree_rad, 0, "deg"); }

std::string formatHeading(double heading_rad) {
    if (!std::isfinite(heading_rad)) return "not known";
    const double turned = std::remainder(heading_rad / kDegree_rad, 360);
    const auto whole = static_cast<int>(std::lround(turned));
    return fmt::format("{:03}", whole <= 0 ? whole + 360 : whole);
}

}  // namespace plumbline::units

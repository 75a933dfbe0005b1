#include "engine/routine/any_quantity.h"

#include "engine/base/check.h"
#include "engine/base/number_text.h"

namespace plumbline::routine {

namespace {

/// With no factor, so that nothing is rounded; the ratio has only one unit.
std::string_view unitOf(units::Dimension dimension) {
    switch (dimension) {
        case units::Dimension::Length:
            return "m";
        case units::Dimension::Time:
            return "s";
        case units::Dimension::Speed:
            return "m/s";
        case units::Dimension::Angle:
            return "rad";
        case units::Dimension::AngularRate:
            return "rad/s";
        case units::Dimension::Load:
            return "g";
        case units::Dimension::Ratio:
            return "%";
        default:
            return {};
    }
}

}  // namespace

std::optional<AnyQuantity> readAnyQuantity(std::string_view text) {
    constexpr std::string_view kBlanks = " \t";
    const std::size_t first = text.find_first_not_of(kBlanks);
    if (first == std::string_view::npos) return std::nullopt;
    text.remove_prefix(first);
    text = text.substr(0, text.find_last_not_of(kBlanks) + 1);
    const std::size_t digits = text.find_first_not_of("+-.0123456789");
    if (digits == std::string_view::npos) return std::nullopt;
    const std::optional<double> number = parseDouble(text.substr(0, digits));
    std::string_view name = text.substr(digits);
    const std::size_t letter = name.find_first_not_of(kBlanks);
    if (!number || letter == std::string_view::npos) return std::nullopt;
    const units::Unit* unit = units::findUnit(name.substr(letter));
    if (unit == nullptr || unitOf(unit->dimension).empty()) return std::nullopt;
    return AnyQuantity{unit->dimension, *number * unit->factor + unit->zero};
}

std::string writeQuantity(const AnyQuantity& quantity) {
    const std::string_view name = unitOf(quantity.dimension);
    PL_EXPECT(!name.empty());
    const double number = quantity.value / units::findUnit(name)->factor;
    std::string digits = formatDouble(number);
    constexpr int kDecimals = 15;  // figure text has no exponents
    if (digits.find('e') != std::string::npos) digits = formatFixed(number, kDecimals);
    return digits + " " + std::string(name);
}

}  // namespace plumbline::routine

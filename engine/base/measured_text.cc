#include "engine/base/measured_text.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"

namespace plumbline {
namespace {

// chosen: rounded up beyond this, a doubt would look a step larger than it is
constexpr double kHair = 0.05;

double stepOf(int decimals) { return std::pow(10, -decimals); }

}  // namespace

int decimalsKnown(double within, int most) {
    if (!(within > 0)) return most;
    const int power = static_cast<int>(std::floor(std::log10(within)));
    const bool two_figures = within / std::pow(10, power) <= 1.9 + 0.1 * kHair;
    return std::min(most, (two_figures ? 1 : 0) - power);
}

std::string doubtText(double within, int most_decimals) {
    const int decimals = decimalsKnown(within, most_decimals);
    const double step = stepOf(decimals);
    const double steps = std::max(1.0, std::ceil(within / step - kHair));
    return formatFixed(steps * step, std::max(decimals, 0));
}

std::string valueText(double value, double within, const MeasuredForm& form) {
    const int decimals = decimalsKnown(within, form.decimals);
    const double step = stepOf(decimals);
    const double rounded = std::round(value / step) * step;
    const std::string words = formatFixed(std::fabs(rounded), std::max(decimals, 0));
    if (std::fabs(rounded) < 0.5 * step) return words;
    if (rounded < 0) return (form.signs == Signs::Typeset ? "\u2212" : "-") + words;
    return form.with_plus ? "+" + words : words;
}

std::string measuredText(double value, double within, const MeasuredForm& form) {
    std::string words = valueText(value, within, form);
    if (within > 0)
        words +=
            (form.signs == Signs::Typeset ? " \u00B1" : " +- ") + doubtText(within, form.decimals);
    return words;
}

}  // namespace plumbline

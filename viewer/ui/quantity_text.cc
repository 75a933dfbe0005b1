#include "viewer/ui/quantity_text.h"

#include <cmath>

#include "engine/base/number_text.h"
#include "engine/units/least_height.h"
#include "engine/units/measured.h"

namespace plumbline::ui {
namespace {

using units::kFoot_m;
using units::kKnot_mps;

std::string withMinus(std::string text) {
    if (!text.empty() && text[0] == '-') text.replace(0, 1, "\u2212");
    return text;
}

double rounded(double value, double step) { return std::round(value / step) * step; }

NumberText make(std::string number, const char* unit) {
    NumberText out;
    out.number = std::move(number);
    out.unit = unit;
    return out;
}

}  // namespace

std::string NumberText::joined() const { return unit.empty() ? number : number + "\u2009" + unit; }

std::string wholeText(double value) { return withMinus(formatFixed(value, 0)); }

double heightInUnit(double height_m, model::UnitChoice choice) {
    return choice == model::UnitChoice::Feet ? height_m / kFoot_m : height_m;
}

std::string measuredHeightText(double height_m, double sigma_m, model::UnitChoice units) {
    return units::measuredHeight(height_m, 2 * sigma_m, displayUnits(units), Signs::Typeset)
        .joined("\u2009");
}

std::string measuredSpeedText(double speed_mps, double sigma_mps, model::UnitChoice units) {
    return units::measuredSpeed(speed_mps, 2 * sigma_mps, displayUnits(units), Signs::Typeset)
        .joined("\u2009");
}

double speedInUnit(double speed_mps, model::UnitChoice choice) {
    return speed_mps /
           (choice == model::UnitChoice::Metric ? units::kKilometrePerHour_mps : kKnot_mps);
}

const char* heightUnit(model::UnitChoice choice) {
    return choice == model::UnitChoice::Feet ? "ft" : "m";
}

const char* speedUnit(model::UnitChoice choice) {
    return choice == model::UnitChoice::Metric ? "km/h" : "kt";
}

units::DisplayUnits displayUnits(model::UnitChoice choice) {
    switch (choice) {
        case model::UnitChoice::Metric:
            return units::DisplayUnits::Metric;
        case model::UnitChoice::Aviation:
            return units::DisplayUnits::Aviation;
        case model::UnitChoice::Feet:
            break;
    }
    return units::DisplayUnits::Feet;
}

const char* unitsWord(model::UnitChoice choice) {
    switch (choice) {
        case model::UnitChoice::Metric:
            return "m, km/h";
        case model::UnitChoice::Aviation:
            return "m, kt";
        case model::UnitChoice::Feet:
            break;
    }
    return "ft, kt";
}

NumberText heightText(double height_m, model::UnitChoice choice) {
    double value = heightInUnit(height_m, choice);
    if (choice == model::UnitChoice::Feet && std::abs(value) > 1000) value = rounded(value, 10);
    return make(wholeText(value), heightUnit(choice));
}

NumberText leastHeightText(double height_m, model::UnitChoice choice) {
    if (choice != model::UnitChoice::Feet) return make(wholeText(std::ceil(height_m)), "m");
    return make(wholeText(units::leastHeight_ft(height_m)), "ft");
}

NumberText speedText(double speed_mps, model::UnitChoice choice) {
    return make(wholeText(speedInUnit(speed_mps, choice)), speedUnit(choice));
}

NumberText climbText(double climb_mps, model::UnitChoice choice) {
    if (choice == model::UnitChoice::Feet) {
        return make(wholeText(rounded(climb_mps / units::kFootPerMinute_mps, 100)), "ft/min");
    }
    return make(wholeText(climb_mps), "m/s");
}

NumberText loadText(double load_g) {
    const std::string number = formatFixed(load_g, 1);
    return make(number[0] == '-' ? withMinus(number) : "+" + number, "g");
}

std::string timeText(double time_s) {
    const bool before = time_s < 0;
    // The hundredths shown beside it are cut off, too.
    const auto hundredths = static_cast<std::int64_t>(std::floor(std::abs(time_s) * 100 + 1e-6));
    const std::int64_t seconds = hundredths / 100;
    const std::string rest = std::to_string(seconds % 60);
    return (before ? "\u2212" : "") + std::to_string(seconds / 60) +
           (rest.size() < 2 ? ":0" : ":") + rest;
}

std::string hundredthsText(double time_s) {
    const auto hundredths =
        static_cast<std::int64_t>(std::floor(std::abs(time_s) * 100 + 1e-6)) % 100;
    return (hundredths < 10 ? ".0" : ".") + std::to_string(hundredths);
}

}  // namespace plumbline::ui

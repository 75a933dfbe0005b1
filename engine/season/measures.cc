#include "engine/season/measures.h"

#include <array>

#include "engine/base/measured_text.h"
#include "engine/units/measured.h"
#include "engine/units/units.h"

namespace plumbline::season {

namespace {

using units::Dimension;

constexpr std::array kKinds = {
    MeasureKind{"lowest", Dimension::Length, Better::NearerPlan},
    MeasureKind{"highest", Dimension::Length, Better::NearerPlan},
    MeasureKind{"from crowd line", Dimension::Length, Better::NearerPlan},
    MeasureKind{"entry speed", Dimension::Speed, Better::NearerPlan},
    MeasureKind{"greatest load", Dimension::Load, Better::NearerPlan},
    MeasureKind{"least load", Dimension::Load, Better::NearerPlan},
    MeasureKind{"late", Dimension::Time, Better::NearerZero},
    MeasureKind{"line off", Dimension::Angle, Better::Less},
    MeasureKind{"line to canopy", Dimension::Angle, Better::NearerZero},
    MeasureKind{"line to right", Dimension::Angle, Better::NearerZero},
    MeasureKind{"roll too far", Dimension::Angle, Better::NearerZero},
    MeasureKind{"roll off its place", Dimension::Length, Better::NearerZero},
    MeasureKind{"radius", Dimension::Length, Better::NearerPlan},
    MeasureKind{"unround", Dimension::Ratio, Better::Less},
    MeasureKind{"slide length", Dimension::Length, Better::NearerPlan},
    MeasureKind{"slide speed", Dimension::Speed, Better::NearerPlan},
    MeasureKind{"spin too far", Dimension::Angle, Better::NearerZero},
    MeasureKind{"top over gate", Dimension::Length, Better::NotSaid},
    MeasureKind{"pivot aside, half spans", Dimension::Ratio, Better::Less},
};

units::ShownIn shownIn(const MeasureKind& kind, double value, units::DisplayUnits units) {
    switch (kind.dimension) {
        case Dimension::Angle:
            return {units::kDegree_rad, 1, "deg"};
        case Dimension::Length:
            if (kind.name == "from crowd line") return {1, 0, "m"};
            return units::heightShownIn(value, units);
        case Dimension::Speed:
            return units::speedShownIn(units);
        case Dimension::Load:
            return {1, 1, "g"};
        case Dimension::Time:
            return {1, 1, "s"};
        default:
            if (kind.name == "unround") return {0.01, 0, "%"};
            return {1, 1, ""};
    }
}

/// @param text  valueText or measuredText
std::string wordsBy(std::string (*text)(double, double, const MeasuredForm&),
                    const MeasureKind& kind, double value, std::optional<double> sigma,
                    units::DisplayUnits units) {
    const units::ShownIn shown = shownIn(kind, value, units);
    const std::string words = text(value / shown.unit, 2 * sigma.value_or(0) / shown.unit,
                                   {shown.decimals, false, Signs::Plain});
    return *shown.name == 0 ? words : words + " " + shown.name;
}

}  // namespace

std::span<const MeasureKind> measureKinds() { return kKinds; }

const MeasureKind* measureKind(std::string_view name) {
    for (const MeasureKind& kind : kKinds)
        if (kind.name == name) return &kind;
    return nullptr;
}

std::string measureWords(const MeasureKind& kind, double value, std::optional<double> sigma,
                         units::DisplayUnits units) {
    return wordsBy(valueText, kind, value, sigma, units);
}

std::string measuredWords(const MeasureKind& kind, double value, std::optional<double> sigma,
                          units::DisplayUnits units) {
    return wordsBy(measuredText, kind, value, sigma, units);
}

}  // namespace plumbline::season

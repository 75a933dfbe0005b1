#include "engine/season/measures.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "engine/base/number_text.h"
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

/// Decimals that show no more than a tenth of the doubt.
int decimalsFor(std::optional<double> sigma, int most) {
    if (!sigma || *sigma <= 0) return most;
    return std::clamp(static_cast<int>(std::ceil(-std::log10(2 * *sigma))), 0, most);
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
    switch (kind.dimension) {
        case units::Dimension::Angle: {
            const auto in_deg = sigma ? std::optional(*sigma / units::kDegree_rad) : std::nullopt;
            return formatFixed(value / units::kDegree_rad, decimalsFor(in_deg, 1)) + " deg";
        }
        case units::Dimension::Length:
            return kind.name == "from crowd line" ? units::formatDistance(value)
                                                  : units::formatHeight(value, units);
        case units::Dimension::Speed:
            return units::formatSpeed(value, units);
        case units::Dimension::Load:
            return formatFixed(value, 1) + " g";
        case units::Dimension::Time:
            return formatFixed(value, 1) + " s";
        default:
            return kind.name == "unround" ? formatFixed(100 * value, 0) + " %"
                                          : formatFixed(value, 1);
    }
}

}  // namespace plumbline::season

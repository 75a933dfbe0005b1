#include "engine/season/measures.h"

#include <array>
#include <cmath>

#include "engine/base/measured_text.h"
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

/// A value, its doubt and its unit.
struct Words {
    std::string value, doubt, unit;
};

Words wordsOf(const MeasureKind& kind, double value, std::optional<double> sigma,
              units::DisplayUnits units) {
    const double within = 2 * sigma.value_or(0);
    const auto plain = [&](double unit, int decimals, const char* name) {
        return Words{valueText(value / unit, within / unit, {decimals, false, Signs::Plain}),
                     sigma ? doubtText(within / unit, decimals) : "", name};
    };
    const bool feet = units == units::DisplayUnits::Feet;
    switch (kind.dimension) {
        case Dimension::Angle:
            return plain(units::kDegree_rad, 1, " deg");
        case Dimension::Length: {
            if (!feet || kind.name == "from crowd line") return plain(1, 0, " m");
            constexpr double kCoarse_m = 1000 * units::kFoot_m;  // as units::formatHeight
            return plain(units::kFoot_m, std::fabs(value) > kCoarse_m ? -1 : 0, " ft");
        }
        case Dimension::Speed:
            return units == units::DisplayUnits::Metric
                       ? plain(units::kKilometrePerHour_mps, 0, " km/h")
                       : plain(units::kKnot_mps, 0, " kt");
        case Dimension::Load:
            return plain(1, 1, " g");
        case Dimension::Time:
            return plain(1, 1, " s");
        default:
            return kind.name == "unround" ? plain(0.01, 0, " %") : plain(1, 1, "");
    }
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
    const Words words = wordsOf(kind, value, sigma, units);
    return words.value + words.unit;
}

std::string measuredWords(const MeasureKind& kind, double value, std::optional<double> sigma,
                          units::DisplayUnits units) {
    const Words words = wordsOf(kind, value, sigma, units);
    return words.value + (words.doubt.empty() ? "" : " +- " + words.doubt) + words.unit;
}

}  // namespace plumbline::season

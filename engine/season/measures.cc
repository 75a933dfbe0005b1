#include "engine/season/measures.h"

#include <array>

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
    MeasureKind{"radius", Dimension::Length, Better::NearerPlan},
    MeasureKind{"unround", Dimension::Ratio, Better::Less},
    MeasureKind{"slide length", Dimension::Length, Better::NearerPlan},
    MeasureKind{"slide speed", Dimension::Speed, Better::NearerPlan},
    MeasureKind{"pivot aside, half spans", Dimension::Ratio, Better::Less},
};

}  // namespace

std::span<const MeasureKind> measureKinds() { return kKinds; }

const MeasureKind* measureKind(std::string_view name) {
    for (const MeasureKind& kind : kKinds)
        if (kind.name == name) return &kind;
    return nullptr;
}

}  // namespace plumbline::season

#pragma once
// The numbers that are kept of each figure.

#include <optional>
#include <span>
#include <string>
#include <string_view>

#include "engine/units/quantity.h"

namespace plumbline::season {

/// Which way is better, where that can be said.
enum class Better { Less, NearerZero, NearerPlan, NotSaid };

struct MeasureKind {
    std::string_view name;
    units::Dimension dimension;
    Better better = Better::NotSaid;
};

/// All of them, in the order of listings.
std::span<const MeasureKind> measureKinds();
/// Null for an unknown name.
const MeasureKind* measureKind(std::string_view name);

/// A value with its unit, no finer than its doubt (twice the sigma) lets it be.
std::string measureWords(const MeasureKind& kind, double value, std::optional<double> sigma,
                         units::DisplayUnits units);
/// The same with its doubt: "2.1 +- 0.4 deg".
std::string measuredWords(const MeasureKind& kind, double value, std::optional<double> sigma,
                          units::DisplayUnits units);

}  // namespace plumbline::season

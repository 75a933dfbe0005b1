#pragma once
// Quantities of whatever kind, from and to text.

#include <optional>
#include <string>
#include <string_view>

#include "engine/units/quantity.h"

namespace plumbline::routine {

struct AnyQuantity {
    units::Dimension dimension = units::Dimension::Length;
    double value = 0;  ///< SI, as listed at units::Dimension
    bool operator==(const AnyQuantity&) const = default;
};

/// `50 m`, `-0.3 g`: a number and a unit; nothing for all else.
std::optional<AnyQuantity> readAnyQuantity(std::string_view text);

/// In the unit that reads back to the same value, `50.25 m`; of the kinds that figure text has.
std::string writeQuantity(const AnyQuantity& quantity);

}  // namespace plumbline::routine

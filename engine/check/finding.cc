#include "engine/check/finding.h"

#include <algorithm>
#include <array>
#include <string_view>

namespace plumbline::check {

std::string inUnits(const Finding& finding, const std::string& quantity,
                    units::DisplayUnits units) {
    if (const auto speed_mps = units::parseQuantity(quantity, units::Dimension::Speed)) {
        return units::formatSpeed(*speed_mps, units);
    }
    constexpr std::array<std::string_view, 5> kHeights{"floor", "lowest height", "gate", "cloud",
                                                       "density altitude"};
    const auto height_m = units::parseQuantity(quantity, units::Dimension::Length);
    const bool height = std::find(kHeights.begin(), kHeights.end(), finding.kind) != kHeights.end();
    return height && height_m ? units::formatHeight(*height_m, units) : quantity;
}

}  // namespace plumbline::check

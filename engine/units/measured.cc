#include "engine/units/measured.h"

#include <cmath>

#include "engine/units/units.h"

namespace plumbline::units {

namespace {

MeasuredWords measuredIn(const ShownIn& shown, double value, double within, Signs signs) {
    return {measuredText(value / shown.unit, within / shown.unit, {shown.decimals, false, signs}),
            shown.name};
}

}  // namespace

ShownIn heightShownIn(double height_m, DisplayUnits units) {
    if (units != DisplayUnits::Feet) return {1, 0, "m"};
    constexpr double kCoarse_ft = 1000;
    return {kFoot_m, std::fabs(height_m / kFoot_m) > kCoarse_ft ? -1 : 0, "ft"};
}

ShownIn speedShownIn(DisplayUnits units) {
    if (units == DisplayUnits::Metric) return {kKilometrePerHour_mps, 0, "km/h"};
    return {kKnot_mps, 0, "kt"};
}

MeasuredWords measuredHeight(double height_m, double within_m, DisplayUnits units, Signs signs) {
    return measuredIn(heightShownIn(height_m, units), height_m, within_m, signs);
}

MeasuredWords measuredSpeed(double speed_mps, double within_mps, DisplayUnits units, Signs signs) {
    return measuredIn(speedShownIn(units), speed_mps, within_mps, signs);
}

MeasuredWords measuredLoad(double load_g, double within_g, Signs signs) {
    return {measuredText(load_g, within_g, {1, true, signs}), "g"};
}

}  // namespace plumbline::units

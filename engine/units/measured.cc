#include "engine/units/measured.h"

#include <cmath>

#include "engine/units/units.h"

namespace plumbline::units {

MeasuredWords measuredHeight(double height_m, double within_m, DisplayUnits units, Signs signs) {
    if (units != DisplayUnits::Feet) return measuredDistance(height_m, within_m, signs);
    constexpr double kCoarse_ft = 1000;  // as formatHeight
    const double height_ft = height_m / kFoot_m;
    const int decimals = std::fabs(height_ft) > kCoarse_ft ? -1 : 0;
    return {measuredText(height_ft, within_m / kFoot_m, {decimals, false, signs}), "ft"};
}

MeasuredWords measuredDistance(double distance_m, double within_m, Signs signs) {
    return {measuredText(distance_m, within_m, {0, false, signs}), "m"};
}

MeasuredWords measuredSpeed(double speed_mps, double within_mps, DisplayUnits units, Signs signs) {
    const bool metric = units == DisplayUnits::Metric;
    const double unit_mps = metric ? kKilometrePerHour_mps : kKnot_mps;
    return {measuredText(speed_mps / unit_mps, within_mps / unit_mps, {0, false, signs}),
            metric ? "km/h" : "kt"};
}

MeasuredWords measuredLoad(double load_g, double within_g, Signs signs) {
    return {measuredText(load_g, within_g, {1, true, signs}), "g"};
}

}  // namespace plumbline::units

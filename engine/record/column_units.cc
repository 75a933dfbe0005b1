#include "engine/record/column_units.h"

#include <algorithm>
#include <iterator>

#include "engine/units/units.h"

namespace plumbline::record {

namespace {

struct UnitRow {
    UnitKind kind;
    std::string_view name;
    double value;
};

constexpr UnitRow kUnits[] = {
    {UnitKind::Time, "s", 1},
    {UnitKind::Time, "sec", 1},
    {UnitKind::Time, "seconds", 1},
    {UnitKind::Time, "ms", 1e-3},
    {UnitKind::Time, "msec", 1e-3},
    {UnitKind::Time, "milliseconds", 1e-3},
    {UnitKind::Time, "us", 1e-6},
    {UnitKind::Time, "usec", 1e-6},
    {UnitKind::Time, "microseconds", 1e-6},
    {UnitKind::Time, "ns", 1e-9},
    {UnitKind::Time, "min", units::kMinute_s},
    {UnitKind::Time, "minutes", units::kMinute_s},
    {UnitKind::Time, "h", units::kHour_s},
    {UnitKind::Time, "hours", units::kHour_s},
    {UnitKind::Length, "m", 1},
    {UnitKind::Length, "metre", 1},
    {UnitKind::Length, "metres", 1},
    {UnitKind::Length, "meter", 1},
    {UnitKind::Length, "meters", 1},
    {UnitKind::Length, "ft", units::kFoot_m},
    {UnitKind::Length, "feet", units::kFoot_m},
    {UnitKind::Length, "km", 1000},
    {UnitKind::Length, "cm", 0.01},
    {UnitKind::Length, "mm", 0.001},
    {UnitKind::Length, "m_agl", 1},
    {UnitKind::Length, "m_msl", 1},
    {UnitKind::Length, "ft_agl", units::kFoot_m},
    {UnitKind::Length, "ft_msl", units::kFoot_m},
    {UnitKind::Angle, "deg", units::kDegree_rad},
    {UnitKind::Angle, "degree", units::kDegree_rad},
    {UnitKind::Angle, "degrees", units::kDegree_rad},
    {UnitKind::Angle, "rad", 1},
    {UnitKind::Angle, "radians", 1},
    {UnitKind::Angle, "dege7", 1e-7 * units::kDegree_rad},
    {UnitKind::Angle, "deg_1e7", 1e-7 * units::kDegree_rad},
    {UnitKind::Angle, "1e7_deg", 1e-7 * units::kDegree_rad},
    {UnitKind::Angle, "cdeg", 0.01 * units::kDegree_rad},
    {UnitKind::Speed, "mps", 1},
    {UnitKind::Speed, "m_s", 1},
    {UnitKind::Speed, "m_sec", 1},
    {UnitKind::Speed, "cm_s", 0.01},
    {UnitKind::Speed, "mm_s", 0.001},
    {UnitKind::Speed, "km_h", units::kKilometrePerHour_mps},
    {UnitKind::Speed, "kmh", units::kKilometrePerHour_mps},
    {UnitKind::Speed, "kph", units::kKilometrePerHour_mps},
    {UnitKind::Speed, "kt", units::kKnot_mps},
    {UnitKind::Speed, "kts", units::kKnot_mps},
    {UnitKind::Speed, "kn", units::kKnot_mps},
    {UnitKind::Speed, "knots", units::kKnot_mps},
    {UnitKind::Speed, "mph", units::kMilePerHour_mps},
    {UnitKind::Speed, "ft_min", units::kFootPerMinute_mps},
    {UnitKind::Speed, "fpm", units::kFootPerMinute_mps},
    {UnitKind::Speed, "ft_s", units::kFoot_m},
    {UnitKind::Rate, "rad_s", 1},
    {UnitKind::Rate, "rad", 1},  // as some logs name them
    {UnitKind::Rate, "radps", 1},
    {UnitKind::Rate, "rad_sec", 1},
    {UnitKind::Rate, "rps", 1},
    {UnitKind::Rate, "deg_s", units::kDegree_rad},
    {UnitKind::Rate, "degps", units::kDegree_rad},
    {UnitKind::Rate, "deg_sec", units::kDegree_rad},
    {UnitKind::Rate, "dps", units::kDegree_rad},
    {UnitKind::Rate, "mdps", 0.001 * units::kDegree_rad},
    {UnitKind::Force, "m_s2", 1},
    {UnitKind::Force, "m_s_2", 1},
    {UnitKind::Force, "mps2", 1},
    {UnitKind::Force, "m_ss", 1},
    {UnitKind::Force, "m_s_s", 1},
    {UnitKind::Force, "m_sec2", 1},
    {UnitKind::Force, "g", kGravity_mps2},
    {UnitKind::Force, "gs", kGravity_mps2},
    {UnitKind::Force, "mg", 0.001 * kGravity_mps2},
    {UnitKind::Field, "ut", 1},
    {UnitKind::Field, "nt", 0.001},
    {UnitKind::Field, "gauss", 100},
    {UnitKind::Field, "ga", 100},
    {UnitKind::Field, "g", 100},
    {UnitKind::Field, "mgauss", 0.1},
    {UnitKind::Field, "mga", 0.1},
    {UnitKind::Pressure, "pa", 1},
    {UnitKind::Pressure, "hpa", units::kHectopascal_pa},
    {UnitKind::Pressure, "mbar", units::kHectopascal_pa},
    {UnitKind::Pressure, "mb", units::kHectopascal_pa},
    {UnitKind::Pressure, "kpa", 1000},
    {UnitKind::Pressure, "bar", 1e5},
    {UnitKind::Pressure, "inhg", units::kInchOfMercury_pa},
};

}  // namespace

bool isColumnUnit(std::string_view unit) {
    return std::any_of(std::begin(kUnits), std::end(kUnits),
                       [unit](const UnitRow& row) { return row.name == unit; });
}

double unitValue(UnitKind kind, std::string_view unit) {
    for (const UnitRow& row : kUnits)
        if (row.kind == kind && row.name == unit) return row.value;
    return 0;
}

std::string_view usualUnit(UnitKind kind) {
    switch (kind) {
        case UnitKind::Time:
            return "s";
        case UnitKind::Angle:
            return "deg";
        case UnitKind::Length:
            return "m";
        case UnitKind::Speed:
            return "mps";
        case UnitKind::Field:
            return "ut";
        case UnitKind::Rate:
        case UnitKind::Force:
        case UnitKind::Pressure:
        case UnitKind::None:
            break;
    }
    return "";
}

double lengthOf(std::string_view unit) { return unitValue(UnitKind::Length, unit); }

}  // namespace plumbline::record

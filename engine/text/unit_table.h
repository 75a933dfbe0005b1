#pragma once
// The units that figure text knows.

#include <string>
#include <string_view>
namespace plumbline::text::units {
enum class Dimension { Length, Time, Speed, Angle, AngularRate, Load, Ratio };
struct Unit {
    std::string_view name;
    Dimension dimension;
    double factor;
};
const Unit* findUnit(std::string_view name);
std::string unitList(Dimension dimension);
std::string_view nearestUnit(std::string_view name, Dimension dimension);
std::string_view dimensionName(Dimension dimension);
}  // namespace plumbline::text::units

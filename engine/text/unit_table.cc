#include "engine/text/unit_table.h"

#include <vector>

#include "engine/base/nearest_word.h"
namespace plumbline::text::units {
namespace {
constexpr double kDeg = 3.14159265358979323846 / 180;
constexpr Unit kUnits[] = {{"m", Dimension::Length, 1},
                           {"ft", Dimension::Length, 0.3048},
                           {"km", Dimension::Length, 1000},
                           {"s", Dimension::Time, 1},
                           {"min", Dimension::Time, 60},
                           {"m/s", Dimension::Speed, 1},
                           {"kt", Dimension::Speed, 1852.0 / 3600},
                           {"km/h", Dimension::Speed, 1 / 3.6},
                           {"mph", Dimension::Speed, 0.44704},
                           {"deg", Dimension::Angle, kDeg},
                           {"deg/s", Dimension::AngularRate, kDeg},
                           {"g", Dimension::Load, 1},
                           {"%", Dimension::Ratio, 0.01}};
}  // namespace
const Unit* findUnit(std::string_view name) {
    for (const Unit& u : kUnits)
        if (u.name == name) return &u;
    return nullptr;
}
std::string unitList(Dimension d) {
    std::string list;
    for (const Unit& u : kUnits)
        if (u.dimension == d) {
            if (!list.empty()) list += " or ";
            list += u.name;
        }
    return list;
}
std::string_view nearestUnit(std::string_view name, Dimension d) {
    std::vector<std::string_view> names;
    for (const Unit& u : kUnits)
        if (u.dimension == d) names.push_back(u.name);
    return nearestWord(name, names);
}
std::string_view dimensionName(Dimension d) {
    constexpr std::string_view kNames[] = {"a length",           "a time", "a speed", "an angle",
                                           "a rate of rotation", "a load", "a share"};
    return kNames[static_cast<int>(d)];
}
}  // namespace plumbline::text::units

#pragma once
// Quantities with their units, from text and for people.

#include <cstddef>
#include <string>
#include <string_view>

#include "engine/base/expected.h"

namespace plumbline::units {

/// Kinds of quantity; beside each the unit that parseQuantity returns.
enum class Dimension {
    Length,               ///< m
    Area,                 ///< m2
    Volume,               ///< m3
    Time,                 ///< s
    Speed,                ///< m/s
    Angle,                ///< rad
    AngularRate,          ///< rad/s
    AngularAcceleration,  ///< rad/s2
    RotationSpeed,        ///< rpm, the one exception: engines are never spoken of otherwise
    PerAngle,             ///< 1/rad
    Load,                 ///< g
    LoadRate,             ///< g/s
    Ratio,                ///< 1, written in %
    Mass,                 ///< kg
    Density,              ///< kg/m3
    Inertia,              ///< kg m2
    Moment,               ///< N m
    Temperature,          ///< K
    TemperatureStep,      ///< K, a difference
    Pressure,             ///< Pa
    Power,                ///< W
    SpecificConsumption,  ///< kg/J
    VolumeFlow,           ///< m3/s
};

/// SI value = number * factor + zero.
struct Unit {
    std::string_view name;
    Dimension dimension;
    double factor;
    double zero = 0;     ///< SI value of 0 in this unit
    bool listed = true;  ///< false: understood, but not named in messages
};

/// The unit of that name, of whatever kind; null for none. A kelvin is a temperature here.
const Unit* findUnit(std::string_view name);

/// The unit of that kind that was probably meant; empty for none.
std::string_view nearestUnit(std::string_view name, Dimension dimension);

/// Why a text is no quantity of the kind wanted.
struct QuantityError {
    std::size_t offset = 0;  ///< byte of the text where it goes wrong
    std::string what;
    std::string remedy;
};

/// A number with its unit, blanks between them or not: "95 s", "1500ft", "-8 g", "900 kg m2".
///
/// @return SI as listed at Dimension
/// @errors no number, decimal comma, no unit, unknown unit, unit of another kind; the remedy names
///   the units that fit
Expected<double, QuantityError> parseQuantity(std::string_view text, Dimension dimension);

/// "a length", "a speed", ...
std::string_view dimensionName(Dimension dimension);

/// "m, ft or km".
std::string unitList(Dimension dimension);

/// What people read: metres and km/h, or feet and knots.
enum class DisplayUnits {
    Metric,    ///< m, km/h
    Aviation,  ///< m, kt: heights in metres as display sites give them
    Feet,      ///< ft, kt
};

/// "341 m", "995 ft", above 1000 ft in tens. "not known" for what is not finite, here and below.
std::string formatHeight(double height_m, DisplayUnits units);
/// As formatHeight; both speak of how far along the ground: metres in either system.
std::string formatDistance(double distance_m);
/// Whole km/h or knots, "165 kt".
std::string formatSpeed(double speed_mps, DisplayUnits units);
/// One decimal and always a sign, minus as U+2212: "+6.0 g".
std::string formatLoad(double load_g);
/// "4:07", minutes and whole seconds, rounded down so that a clock never runs ahead.
std::string formatTime(double time_s);
/// Whole degrees, "45 deg".
std::string formatAngle(double angle_rad);
/// Three digits, "070"; north is "360".
std::string formatHeading(double heading_rad);

}  // namespace plumbline::units

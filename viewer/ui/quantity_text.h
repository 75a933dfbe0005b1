#pragma once
// Numbers as people read them: display units, rounding, the true minus sign.

#include <string>

#include "engine/units/quantity.h"
#include "viewer/model/session.h"

namespace plumbline::ui {

/// What is shown where a value is not known.
inline constexpr const char* kUnknown = "\u2013";

/// A number and, apart from it, its unit.
struct NumberText {
    std::string number;
    std::string unit;
    /// Number, thin space, unit.
    std::string joined() const;
};

/// Heights: whole metres; feet in steps of 10 above 1000 ft.
NumberText heightText(double height_m, model::UnitChoice units);
/// A height that nothing may be lower than: metres as they are, feet up to whole tens.
NumberText leastHeightText(double height_m, model::UnitChoice units);
/// Whole km/h or kt.
NumberText speedText(double speed_mps, model::UnitChoice units);
/// Whole m/s, or ft/min in steps of 100.
NumberText climbText(double climb_mps, model::UnitChoice units);
/// One decimal, always with its sign.
NumberText loadText(double load_g);
/// A measured height or length with what it may be off by: number, doubt, unit.
/// @param sigma_m  twice it is told; 0: not told
std::string measuredHeightText(double height_m, double sigma_m, model::UnitChoice units);
/// The same of a speed.
std::string measuredSpeedText(double speed_mps, double sigma_mps, model::UnitChoice units);
/// Speed in the display unit, for scales.
double speedInUnit(double speed_mps, model::UnitChoice units);
double heightInUnit(double height_m, model::UnitChoice units);
const char* heightUnit(model::UnitChoice units);
const char* speedUnit(model::UnitChoice units);
/// "m, kt": what the choice means, for the control that changes it.
const char* unitsWord(model::UnitChoice units);

/// The same choice as the engine's words take it.
units::DisplayUnits displayUnits(model::UnitChoice units);

/// Whole number with the true minus sign.
std::string wholeText(double value);
/// "0:27" (seconds cut off, never rounded up), "-0:05".
std::string timeText(double time_s);
/// Hundredths of the second: ".68".
std::string hundredthsText(double time_s);

}  // namespace plumbline::ui

#pragma once
// Numbers and days as the sheets have them: no finer than they are known.

#include <string>

#include "engine/data/site.h"
#include "engine/data/weather.h"
#include "engine/units/quantity.h"

namespace plumbline::sheets {

/// "2.1", minus as U+2212; a plus where asked.
std::string number(double value, int decimals, bool plus = false);

/// "2.1 ±0.4", "14 ±2": as measuredText has it.
std::string within(double value, double doubt, int most_decimals, bool plus = false);

/// "deg" and "+-" of plain text as signs.
std::string withSigns(const std::string& plain);

/// "27 June 2026, 16:30 UTC" of ISO 8601; what is no such time as it is.
std::string dayAndTime(const std::string& utc);
/// "2026-06-27" as "27 June 2026"; else as it is.
std::string dayOf(const std::string& utc);

/// "11 kt from the left, 19 °C" by the crowd's left and right, at ten metres.
std::string windWords(const data::Weather& weather, const data::Site& site,
                      units::DisplayUnits units);

}  // namespace plumbline::sheets

#pragma once
// The sheet of a sortie for those who look after the aircraft.

#include "engine/base/expected.h"
#include "engine/sheets/sortie.h"

namespace plumbline::sheets {

/// As PDF: peaks, time at full power, overspeed, fuel, time above each load, load cycles.
Expected<std::string, std::string> crewPdf(const Sortie& sortie, const Print& print);

}  // namespace plumbline::sheets

#pragma once
// Units that a table's header does not tell.

#include "engine/record/csv_layout.h"

namespace plumbline::record {

/// Seconds in one of the time column's numbers, from the step between the first rows.
double guessTimeUnit(std::string_view bytes, const CsvLayout& layout);

/// Scales rates, forces and pressures by the size of their numbers where the header has no unit,
/// turns pressures into heights, and warns of all that was taken for granted.
void tellUnits(const CsvLayout& layout, double time_unit, FixLog& log);

}  // namespace plumbline::record

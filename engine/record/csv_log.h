#pragma once
// CSV logs of any logger: whatever of place, motion, attitude, sensors and air can be recognised.

#include "engine/record/csv_layout.h"
#include "engine/record/track.h"

namespace plumbline::record {

/// True when one of the first lines is a header with columns that can be used.
bool looksLikeCsvLog(std::string_view bytes, const ColumnMap* map = nullptr);

/// Reads recognised columns (column_names.h), in any order; lines above the header are passed over.
///
/// Separator comma, semicolon or tab, found; decimal commas where the separator is another; quotes;
/// comment lines (#, %, //); a row of units below the header. Time in s, ms, us, min, as a date and
/// time (ISO 8601), a time of day with or without a date's column (midnight is noticed); plain
/// numbers past 1e8 s count as Unix time. A unit that is missing is taken as s, deg, m, m/s or, for
/// rates, forces and pressures, as the size of the numbers tells, with a warning. A cell that stays
/// empty has no sample of its stream; one that repeats from row to row, as loggers fill the rows of
/// a slow sensor, counts once. Unreadable cells are counted, with the first place.
/// @errors no header with such columns, more bad rows than good ones
Expected<FixLog, Problems> readCsvLog(const NamedBytes& input, const ColumnMap* map = nullptr);

}  // namespace plumbline::record

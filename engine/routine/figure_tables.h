#pragma once
// [[show]], [[figure]] and [[substitute]] of a routine file.

#include "engine/data/table_reader.h"
#include "engine/routine/routine.h"
#include "engine/routine/string_positions.h"

namespace plumbline::routine {

/// Reads them into the routine; what is wrong goes to the reader's problems.
///
/// @param index  of the routine file
void readFigureTables(data::TableReader& reader, LineIndex& index, Routine& routine);

/// One [[figure.aim]].
Aim readAim(data::TableReader& reader);

/// What is wrong with a figure's aims: parameters that are none, values out of its range or that
/// its text cannot take. Its elements must be there.
Problems checkAims(const RoutineFigure& figure);

}  // namespace plumbline::routine

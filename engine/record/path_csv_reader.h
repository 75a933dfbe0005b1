#pragma once
// Our own path CSV (out/path_csv.h) back to a path, attitude and all.

#include "engine/record/track.h"

namespace plumbline::record {

/// True when the first line names the columns that make a path CSV: time, place, quaternion.
bool looksLikePathCsv(std::string_view bytes);

/// Columns in any order; beyond time, place and quaternion all may be missing or empty, and are
/// then not known (velocity and rates come from the rows themselves). The show-line bearing comes
/// from heading and quaternion together.
/// @errors every cell that is not what its column promises; a row cut short; fewer than two rows
Expected<ImportedTrack, Problems> readPathCsv(const NamedBytes& input);

}  // namespace plumbline::record

#pragma once
// Word of a run that was killed while files that belong together took their names.

namespace plumbline::system {

/// Stands in writeWholeFiles' folder while the files take their names: where a run is killed in
/// that moment, some are new, some old, and this stays beside them until they are written again.
inline constexpr const char* kCutOffNote = "plumbline-unfinished.txt";

}  // namespace plumbline::system

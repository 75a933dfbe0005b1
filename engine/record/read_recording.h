#pragma once
// A recording of any kind, recognised by what is in it.

#include <span>

#include "engine/record/track.h"

namespace plumbline::record {

/// Reads one recording, or several position logs of one flight that are joined by their clocks.
/// Kinds: path CSV, CSV, IGC, GPX.
/// @errors an empty file, bytes that no reader knows, and what the readers say
Expected<ImportedTrack, Problems> readRecordings(std::span<const NamedBytes> inputs);

/// One recording.
Expected<ImportedTrack, Problems> readRecording(std::string_view bytes, const std::string& file);

}  // namespace plumbline::record

#pragma once
// A recording of any kind, recognised by what is in it.

#include <span>

#include "engine/record/track.h"
#include "engine/record/wishes.h"

namespace plumbline::record {

/// Reads one recording, or several files of one flight that are joined by their clocks.
/// Kinds: path CSV, CSV, IGC, GPX, KML tracks, NMEA 0183, ULog; each also packed by gzip.
/// @errors an empty file, bytes that no reader knows, and what the readers say
Expected<ImportedTrack, Problems> readRecordings(std::span<const NamedBytes> inputs,
                                                 const Wishes& wishes = {});

/// One recording.
Expected<ImportedTrack, Problems> readRecording(std::string_view bytes, const std::string& file);

/// How a file is understood: for a table a column map to change and give back, for the others a few
/// lines of comment.
/// @errors as readRecordings
Expected<std::string, Problems> explainRecording(const NamedBytes& input,
                                                 const ColumnMap* columns = nullptr);

}  // namespace plumbline::record

#pragma once
// Recorded tracks in KML (OGC 12-007r2, KML 2.3): <Track> or <gx:Track> with <when> and <coord>.

#include "engine/record/track.h"

namespace plumbline::record {

bool looksLikeKml(std::string_view bytes);

/// Reads the places with times of all tracks; <angles> are of the picture drawn there, not measured
/// attitudes, and are left alone.
///
/// Heights that are not said to be absolute are taken as if they were, with a warning.
/// @errors no track; a track without a usable place; broken XML before the second place
Expected<FixLog, Problems> readKml(const NamedBytes& input);

}  // namespace plumbline::record

#pragma once
// NMEA 0183 sentences as receivers and loggers write them.
//
// Source: NMEA 0183 (IEC 61162-1) sentences RMC, GGA, GNS, VTG, ZDA, GST as receivers' public
// interface manuals print them; the standard itself is not free. Checksum: exclusive or of the
// characters between '$' and '*'.

#include "engine/record/track.h"

namespace plumbline::record {

bool looksLikeNmea(std::string_view bytes);

/// Positions with height from GGA or GNS, speed and track from RMC or VTG of the same epoch, the
/// day from RMC or ZDA, accuracy from GST. Sentences with a wrong checksum are left out and
/// counted; anything else in the file is passed over.
/// @errors no sentence with a position in three dimensions
Expected<FixLog, Problems> readNmea(const NamedBytes& input);

}  // namespace plumbline::record

#pragma once
// ULog files.
//
// Source: "ULog File Format", PX4 user guide (docs.px4.io), the file's three sections and their
// messages; topic and field names as each file's own format messages declare them.

#include "engine/record/track.h"

namespace plumbline::record {

bool looksLikeUlog(std::string_view bytes);

/// Rates, forces, field, pressure height, airspeed, attitude and places of the first instance of
/// each topic. Places from the satellite receiver, else from the log's own local solution. A file
/// that ends early or has broken messages gives what is whole, with a warning.
/// @errors no topic of use
Expected<FixLog, Problems> readUlog(const NamedBytes& input);

}  // namespace plumbline::record

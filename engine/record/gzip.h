#pragma once
// Compressed logs (RFC 1952).

#include <string>

#include "engine/record/track.h"

namespace plumbline::record {

bool looksLikeGzip(std::string_view bytes);

/// What a gzip file holds; several members one after the other are joined. A file that ends early
/// gives what there is, with a warning.
/// @errors broken from the start, more than a gigabyte unpacked
struct Unpacked {
    std::string bytes;
    Problems warnings;
};
Expected<Unpacked, Problems> unpackGzip(const NamedBytes& input);

}  // namespace plumbline::record

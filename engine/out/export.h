#pragma once
// A flight in an open format, chosen by the ending of its file's name.

#include <optional>
#include <string>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/out/flight.h"
#include "engine/units/quantity.h"

namespace plumbline::out {

enum class Format { Csv, Glb, Kml, Gpx };

/// By ".csv", ".glb", ".kml" or ".gpx", large or small letters.
/// @errors another ending
Expected<Format, Problem> formatOf(const std::string& file);

struct Exported {
    std::string bytes;
    std::vector<std::string> remarks;  ///< what is left out and why, a clause each
};

/// @param file   named in problems
/// @param units  of what people read in it
/// @errors a place is needed and not known; a model that cannot be read
Expected<Exported, Problem> exported(const Flight& flight, Format format, const std::string& file,
                                     units::DisplayUnits units, double gpx_hz = 10);

}  // namespace plumbline::out

#pragma once
// NAME.pilot.toml: a pilot's own limits.
//
//     name = "Sample pilot"          # required
//     note = "Invented"
//     lowest = "30 m"                # every other key may be absent: then it is not checked
//     load_max = "7 g"
//     load_min = "-4 g"
//     onset = "15 g/s"
//     sustained_load = "5 g"         # with sustained_time
//     sustained_time = "6 s"
//     after_negative = "6 g"         # greatest load within some seconds of a negative stretch
//     without_rest = "3 min"
//     wind = "25 kt"
//     crosswind = "15 kt"
//     gate_load = "6 g"
//     engine_failure = "3 s"         # from the failure to the glide

#include <string>
#include <string_view>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/pilot.h"

namespace plumbline::data {

/// @errors no TOML, unknown keys, values without unit or out of range, each at its place
Expected<Pilot, Problems> readPilot(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::data

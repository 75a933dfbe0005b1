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
//
//     [spread]                       # how unlike the plan he flies, one standard deviation each;
//     entry_speed = "4 kt"           # none: as in data/spread.h. New for each figure: 0..40 kt
//     load = "0.3 g"                 # 0..3 g
//     timing = "0.2 s"               # of each line's end; 0..3 s
//     heading = "1 deg"              # 0..30 deg
//     along = "15 m"                 # place where a figure begins: 0..200 m
//     across = "10 m"                # 0..200 m
//     height = "5 m"                 # 0..100 m
//     wind = "2 kt"                  # the same for a flight, along and across: 0..30 kt
//     temperature = "2 K"            # 0..20 K
//     mass = "5 kg"                  # 0..100 kg
//     power = "3 %"                  # 0..20 %
//     roll_rate = "5 %"              # 0..30 %
//     reaction = "0.1 s"             # how late or early all lines end: 0..2 s
//     left = "30 %"                  # of an error, at the start of the next figure: 0..100 %

#include <string>
#include <string_view>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/pilot.h"

namespace plumbline::data {

/// @errors no TOML, unknown keys, values without unit or out of range, each at its place
Expected<Pilot, Problems> readPilot(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::data

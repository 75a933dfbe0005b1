#pragma once
// NAME.rules.toml: rules of a display. Every rule has its source and says whether its number was
// read in the original:
//
//     name = "Own rules"                      # required
//     edition = "May"                         # required
//     remark = "The authority decides."       # required
//
//     [aerobatic]                             # none: all flight counts as aerobatic
//     pitch = "60 deg"                        # beyond either
//     bank = "75 deg"
//
//     [[distance]]                            # from the crowd line
//     flight = "aerobatic"                    # or "fly-past", "any"
//     speed_from = "100 kt"                   # calibrated; none: 0
//     speed_to = "200 kt"                     # none: no upper end
//     least = "150 m"
//     source = "..."                          # required
//     verified = "yes"                        # or "no"
//
//     [[category]]                            # the aircraft's file states which
//     name = "III"
//     least = "500 ft"
//     speed_to = "156 kt"
//
//     [[height]]
//     flight = "any"
//     least = "30 m"
//
//     [[zone]]                                # from the show line, about show centre
//     width = "1000 m"
//     depth = "1000 m"
//     bottom = "100 m"
//     top = "1000 m"

#include <string>
#include <string_view>

#include "engine/base/expected.h"
#include "engine/base/problem.h"
#include "engine/data/rules.h"

namespace plumbline::data {

/// @errors no TOML, unknown and missing keys, values without unit or out of range, a rule without
///   its source, no rule at all, each at its place
Expected<RuleSet, Problems> readRules(std::string_view toml_text, const std::string& file);

}  // namespace plumbline::data

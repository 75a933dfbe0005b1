#pragma once
// Figure text that is a string of a TOML file: elements and problems with their places in the file.

#include <cstdint>
#include <string>
#include <vector>

#include "engine/data/toml_tree.h"
#include "engine/routine/string_positions.h"
#include "engine/text/figure_text.h"

namespace plumbline::routine {

struct PlacedText {
    std::vector<text::Element> elements;  ///< spans are places in the file
    std::int32_t line = 0;                ///< of the file, where the text begins
    Problems problems;
};

/// @param index   of the file that `value`, a text, stands in
/// @param values  of the text's parameters
PlacedText readPlacedText(LineIndex& index, const data::TomlValue& value, const std::string& file,
                          const std::vector<text::ParameterValue>& values);

}  // namespace plumbline::routine

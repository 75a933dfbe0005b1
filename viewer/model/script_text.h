#pragma once
// The narrator's words where they stand in a routine's text: a figure's `narration`.

#include <string>
#include <string_view>

#include "viewer/model/routine_blocks.h"

namespace plumbline::model {

/// As they are said: what a TOML string escapes is undone.
std::string scriptWords(std::string_view routine_text, const FigureBlock& block);

/// What is typed or pasted, as it may stand inside the block's quotes: straight quotes become
/// curly ones, which end no string, and where the string is one line a line end becomes a blank.
/// @param before  what stands before it, up to the opening quotes
std::string asScript(std::string_view typed, const FigureBlock& block, std::string_view before);

/// The routine with an empty narration below the figure's name, where it has none.
std::string withScriptAdded(std::string_view routine_text, int index);
/// Without the figure's narration, where that is empty.
std::string withEmptyScriptRemoved(std::string_view routine_text, int index);

}  // namespace plumbline::model

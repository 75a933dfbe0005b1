#pragma once
// Where the figures stand in a routine's text, also while it is wrong, and what can be done with a
// figure as a whole. The text stays as a person wrote it: comments, order and blanks are kept.

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace plumbline::model {

/// Bytes [begin, end) of a text.
struct TextRange {
    std::size_t begin = 0;
    std::size_t end = 0;
    bool operator==(const TextRange&) const = default;
};

/// One [[figure]] of a routine.
struct FigureBlock {
    TextRange whole;  ///< from the comment above it to the next table
    TextRange text;   ///< figure text inside its quotes; without one, the lines below the heading
    bool own_text = false;
    std::string name;  ///< as written; empty: none
    TextRange name_range;
    /// The narrator's words inside their quotes; without any, where their line would stand.
    TextRange script;
    bool has_script = false;
    std::string script_quotes;  ///< that end it: ", ', three of one
};

/// In the order of the text.
std::vector<FigureBlock> figureBlocks(std::string_view routine_text);

/// The block that holds a byte; -1: none.
int blockAt(const std::vector<FigureBlock>& blocks, std::size_t at);

/// A whole routine text each; an index that is not there changes nothing.
std::string withFigureMoved(std::string_view routine_text, int from, int to);
std::string withFigureRemoved(std::string_view routine_text, int index);
/// The second one directly behind the first, by a name of its own.
std::string withFigureDoubled(std::string_view routine_text, int index);
/// Left and right as the crowd sees them, in the figure's own text.
std::string withFigureMirrored(std::string_view routine_text, int index);
/// Behind a figure, -1: before all.
std::string withFigureAdded(std::string_view routine_text, int behind, std::string_view block);

/// "Loop", "Loop 2", "Loop 3": the first that no figure has.
std::string freeName(std::string_view routine_text, const std::string& wish);

/// A block that flies a figure of the shelf, each of its parameters spelt out to be changed.
/// Empty: the shelf has no such figure.
std::string shelfBlock(std::string_view routine_text, std::string_view shelf_name);

/// A number with its unit: "120 m", "-30 deg", "6 g".
struct NumberInText {
    TextRange number;  ///< its digits
    std::string unit;
};
/// The number that stands at a byte or ends there.
std::optional<NumberInText> numberAt(std::string_view text, std::size_t at);
/// The number so many sensible steps on: 1 kt, 5 m, 0.1 g, 5 deg; rounded to the step.
/// @param fine  a tenth of the step
std::string steppedNumber(std::string_view digits, std::string_view unit, int steps, bool fine);

}  // namespace plumbline::model

#pragma once
// A figure file: one figure with its parameters, to be used in any routine, with other values too.
//
// TOML 1.0, by custom NAME.figure.toml. Every quantity is a text with its unit:
//
//     name = "Hammerhead"                     # required
//     about = "Straight up, pivot, down."     # required: one line
//     skill = "practised"                     # required: simple, practised or expert
//
//     entry = { speed = "160 kt", height = "100 m", attitude = "upright" }
//                                             # required: what it is entered with; height above
//                                             # the ground; attitude upright or inverted
//
//     text = """                              # required: figure text; {name} for a parameter
//     pull to up at {entry_g}
//     line up until 25 kt with {roll}
//     pivot {side}
//     line down {down}
//     pull to level at {entry_g}
//     """
//
//     [[parameter]]                           # any number, each used in the text
//     name = "entry_g"                        # required: letters, digits, - and _
//     value = "6 g"                           # required: what is flown where nothing else is said
//     from = "4 g"                            # its sane range, required of a quantity ...
//     to = "7 g"
//     about = "load of the pulls"             # required
//
//     [[parameter]]
//     name = "side"
//     value = "left"
//     choices = ["left", "right"]             # ... and of words, counts and rolls what they can be
//     about = "side of the pivot"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/problem.h"
#include "engine/routine/any_quantity.h"
#include "engine/text/figure_text.h"

namespace plumbline::routine {

enum class Skill { Simple, Practised, Expert };

struct FigureEntry {
    double speed_mps = 0;  ///< true airspeed
    double height_m = 0;   ///< above show centre
    bool inverted = false;
};

struct FigureParameter {
    std::string name;
    std::string value;  ///< the file's own, as written
    std::string about;
    /// The range of a quantity, absent where there are choices.
    struct Range {
        AnyQuantity from, to;
        std::string from_words, to_words;  ///< as written
        bool operator==(const Range&) const = default;
    };
    std::optional<Range> range;
    std::vector<std::string> choices;
    bool operator==(const FigureParameter&) const = default;
};

struct FigureFile {
    std::string name;
    std::string about;
    Skill skill = Skill::Simple;
    FigureEntry entry;
    std::vector<FigureParameter> parameters;
    std::string text;                          ///< as written
    std::vector<text::ParameterValue> values;  ///< in effect, in the order of the parameters
    std::vector<text::Element> elements;       ///< with these; spans are places in the figure file
};

/// A figure and everything wrong with its text; complete only where there are no problems.
struct ReadFigure {
    FigureFile figure;
    Problems problems;
};

/// Reads any bytes.
///
/// @param toml_text  the file's content, UTF-8
/// @param file       its name, for messages
/// @param values     in place of the file's own, of any of its parameters; told at their places
/// @errors as readRoutine; further parameters without a place in the text, values out of their
///   range or choices, ends of a range and choices with which the text cannot be understood
ReadFigure readFigureFile(std::string_view toml_text, const std::string& file,
                          const std::vector<text::ParameterValue>& values = {});

}  // namespace plumbline::routine

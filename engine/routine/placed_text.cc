#include "engine/routine/placed_text.h"

#include <utility>

namespace plumbline::routine {

PlacedText readPlacedText(LineIndex& index, const data::TomlValue& value, const std::string& file,
                          const std::vector<text::ParameterValue>& values) {
    // No file's name: tells what stands in the text from what stands where a value does.
    static const std::string kInText;
    const StringPositions positions(index, {value.line, value.column});
    text::ParsedText parsed = text::parseFigureText(value.text, kInText, 1, values);
    PlacedText placed;
    placed.line = positions.inFile({1, 1}).line;
    placed.problems = std::move(parsed.problems);
    for (Problem& problem : placed.problems) {
        if (problem.where.file != kInText) continue;
        const LineColumn place = positions.inFile({problem.where.line, problem.where.column});
        problem.where = {file, place.line, place.column};
    }
    const bool blank = value.text.find_first_not_of(" \t\r\n") == std::string::npos;
    if (parsed.elements.empty() && placed.problems.empty() && !blank) {
        placed.problems.push_back({{file, value.line, value.column},
                                   "the figure has no elements",
                                   "write its elements, one a line, or take the figure out"});
    }
    for (text::Element& element : parsed.elements) {
        const LineColumn begin = positions.inFile({element.span.line, element.span.column});
        const LineColumn last = positions.inFile({element.span.line, element.span.end_column - 1});
        // An element that a backslash spreads over lines is marked at its first word only.
        const std::int32_t end_column =
            last.line == begin.line ? last.column + 1 : begin.column + 1;
        element.span = {begin.line, begin.column, end_column};
    }
    placed.elements = std::move(parsed.elements);
    return placed;
}

}  // namespace plumbline::routine

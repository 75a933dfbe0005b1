#include "engine/text/figure_text.h"

#include <algorithm>
#include <utility>

#include "engine/text/element_parser.h"
#include "engine/text/line_reader.h"
#include "engine/text/token.h"

namespace plumbline::text {

namespace {

/// The line that begins at `at`, without its line end; `at` goes to the start of the next.
std::string_view nextLine(std::string_view text, std::size_t& at) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    std::string_view line = text.substr(at, end - at);
    if (!line.empty() && line.back() == '\r') line.remove_suffix(1);
    at = end + 1;
    return line;
}

/// The element of one line; nothing where it holds none or a problem was added.
std::optional<Element> parseLineOfText(std::string_view line, const std::string& file,
                                       std::int32_t line_number,
                                       const std::vector<ParameterValue>& values,
                                       Problems& problems) {
    const std::size_t problems_before = problems.size();
    LineTokens tokens = cutLine(line, file, line_number, problems, values);
    if (tokens.tokens.empty() || problems.size() > problems_before) return std::nullopt;
    LineReader reader(tokens, file, line_number, problems);
    std::optional<ElementBody> body = parseElement(reader);
    if (!body || problems.size() > problems_before) return std::nullopt;
    Element element;
    element.body = std::move(*body);
    element.span = {line_number, tokens.tokens.front().column, tokens.end_column};
    element.words = joinTokens(tokens.tokens, 0, tokens.tokens.size());
    if (!tokens.parameters.empty()) element.pattern = std::string(line);
    element.parameters = std::move(tokens.parameters);
    return element;
}

/// A value that no element uses was meant for something.
void reportUnused(const std::vector<ParameterValue>& values, ParsedText& parsed) {
    std::vector<bool> used(values.size(), false);
    for (const Element& element : parsed.elements) {
        for (const std::int32_t index : element.parameters) {
            used[static_cast<std::size_t>(index)] = true;
        }
    }
    for (std::size_t i = 0; i < values.size(); ++i) {
        if (used[i]) continue;
        Problem problem;
        problem.where = values[i].where;
        problem.what = "{" + values[i].name + "} stands nowhere in the figure text";
        problem.remedy = "use it there or take its value out";
        parsed.problems.push_back(std::move(problem));
    }
}

}  // namespace

ParsedText parseFigureText(std::string_view text, const std::string& file, std::int32_t first_line,
                           const std::vector<ParameterValue>& values) {
    // chosen: nobody reads further, and a file of junk must not fill the memory
    constexpr std::size_t kMostProblems = 1000;
    ParsedText parsed;
    std::int32_t line_number = first_line;
    for (std::size_t at = 0; at < text.size(); ++line_number) {
        if (parsed.problems.size() >= kMostProblems) {
            Problem problem;
            problem.where = {file, line_number, 1};
            problem.what = "more than 1000 problems: the rest was not read";
            problem.remedy = "make sure that this is a routine, and repair the first";
            parsed.problems.push_back(std::move(problem));
            break;
        }
        std::optional<Element> element =
            parseLineOfText(nextLine(text, at), file, line_number, values, parsed.problems);
        if (element) parsed.elements.push_back(std::move(*element));
    }
    if (parsed.problems.empty()) reportUnused(values, parsed);
    return parsed;
}

Expected<Element, Problems> parseAgain(const Element& element, const std::string& file,
                                       const std::vector<ParameterValue>& values) {
    Problems problems;
    const std::string& line = element.pattern.empty() ? element.words : element.pattern;
    std::optional<Element> again = parseLineOfText(line, file, element.span.line, values, problems);
    if (!again) return Unexpected(std::move(problems));
    again->span = element.span;
    return std::move(*again);
}

}  // namespace plumbline::text

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

void parseLineOfText(std::string_view line, const std::string& file, std::int32_t line_number,
                     ParsedText& parsed) {
    const std::size_t problems_before = parsed.problems.size();
    const LineTokens tokens = cutLine(line, file, line_number, parsed.problems);
    if (tokens.tokens.empty() || parsed.problems.size() > problems_before) return;
    LineReader reader(tokens, file, line_number, parsed.problems);
    std::optional<ElementBody> body = parseElement(reader);
    if (!body || parsed.problems.size() > problems_before) return;
    Element element;
    element.body = std::move(*body);
    element.span = {line_number, tokens.tokens.front().column, tokens.end_column};
    element.words = joinTokens(tokens.tokens, 0, tokens.tokens.size());
    parsed.elements.push_back(std::move(element));
}

}  // namespace

ParsedText parseFigureText(std::string_view text, const std::string& file,
                           std::int32_t first_line) {
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
        parseLineOfText(nextLine(text, at), file, line_number, parsed);
    }
    return parsed;
}

}  // namespace plumbline::text

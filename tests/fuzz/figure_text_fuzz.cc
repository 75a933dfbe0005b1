// Any bytes as figure text: no crash, every problem has a place inside the text and says something,
// and what was understood is understood again from its own words, printed and mirrored.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "engine/base/check.h"
#include "engine/text/figure_text.h"
#include "engine/text/mirror.h"
#include "engine/text/print.h"

namespace {

using namespace plumbline;

/// Whole, in canonical words and mirrored, an element stays what it is.
void expectSameAgain(const text::Element& element) {
    const text::ParsedText again = text::parseFigureText(element.words, "again", 1);
    PL_EXPECT(again.problems.empty() && again.elements.size() == 1);
    PL_EXPECT(again.elements[0].body.index() == element.body.index());
    const std::string printed = text::printElement(element.body);
    const text::ParsedText canonical = text::parseFigureText(printed, "printed", 1);
    PL_EXPECT(canonical.problems.empty() && canonical.elements.size() == 1);
    PL_EXPECT(text::printElement(canonical.elements[0].body) == printed);
    const text::Element mirrored = text::mirrorElement(element);
    const text::ParsedText other = text::parseFigureText(mirrored.words, "mirrored", 1);
    PL_EXPECT(other.problems.empty() && other.elements.size() == 1);
    PL_EXPECT(text::printElement(text::mirrorBody(mirrored.body)) == printed);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    const std::string input(bytes, bytes + size);
    const std::vector<text::ParameterValue> values = {
        {"a", "50 m", {"v", 1, 1}}, {"b", "1/4 roll left", {"v", 2, 1}}, {"c", "up", {"v", 3, 1}}};
    const text::ParsedText parsed = text::parseFigureText(input, "fuzz", 1, values);
    const auto lines = 1 + std::count(input.begin(), input.end(), '\n');
    for (const Problem& problem : parsed.problems) {
        PL_EXPECT(!problem.what.empty() && !problem.remedy.empty());
        PL_EXPECT(problem.where.line >= 1 && problem.where.column >= 1);
        PL_EXPECT(problem.where.file == "v" || problem.where.line <= lines);
    }
    for (const text::Element& element : parsed.elements) {
        PL_EXPECT(element.span.line >= 1 && element.span.line <= lines);
        expectSameAgain(element);
        PL_EXPECT(text::parseAgain(element, "fuzz", values)->body == element.body);
    }
    return 0;
}

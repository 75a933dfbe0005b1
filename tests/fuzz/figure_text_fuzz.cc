// Any bytes as figure text: no crash, every problem has a place inside the text and says something,
// and what was understood is understood again from its own words.

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/base/check.h"
#include "engine/text/figure_text.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string input(bytes, bytes + size);
    const text::ParsedText parsed = text::parseFigureText(input, "fuzz", 1);
    const auto lines = 1 + std::count(input.begin(), input.end(), '\n');
    for (const Problem& problem : parsed.problems) {
        PL_EXPECT(!problem.what.empty() && !problem.remedy.empty());
        PL_EXPECT(problem.where.line >= 1 && problem.where.line <= lines);
        PL_EXPECT(problem.where.column >= 1);
    }
    for (const text::Element& element : parsed.elements) {
        PL_EXPECT(element.span.line >= 1 && element.span.line <= lines);
        const text::ParsedText again = text::parseFigureText(element.words, "again", 1);
        if (parsed.problems.empty()) PL_EXPECT(again.elements.size() == 1);
    }
    return 0;
}

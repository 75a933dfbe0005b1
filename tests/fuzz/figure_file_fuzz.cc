// Any bytes as a figure file, and as the one that a routine names: no crash, problems that say
// something, and values of quantities that can be set to what they are.

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

#include "engine/base/check.h"
#include "engine/routine/routine.h"
#include "engine/routine/variant.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    const std::string input(bytes, bytes + size);
    const routine::ReadFigure read = routine::readFigureFile(input, "fuzz");
    for (const Problem& problem : read.problems) {
        PL_EXPECT(!problem.what.empty() && !problem.remedy.empty());
    }
    routine::Routine named;
    named.figures.resize(2);
    for (routine::RoutineFigure& figure : named.figures) figure.figure_file = "f";
    const Problems problems = routine::bindFigures(
        named,
        [&](const std::string&, const TextPosition&) -> Expected<routine::FigureSource, Problem> {
            return routine::FigureSource{"fuzz", input};
        });
    PL_EXPECT(problems.empty() == read.problems.empty());
    if (!problems.empty()) return 0;
    routine::Routine mirrored = routine::mirrored(named);
    for (const text::ParameterValue& value : read.figure.values) {
        const auto quantity = routine::readAnyQuantity(value.value);
        if (!quantity) continue;
        PL_EXPECT(routine::setValue(mirrored.figures[0], value.name, quantity->value).empty());
    }
    return 0;
}

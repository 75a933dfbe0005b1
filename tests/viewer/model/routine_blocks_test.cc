#include "viewer/model/routine_blocks.h"

#include <gtest/gtest.h>

#include "engine/load/load.h"

namespace plumbline::model {
namespace {

constexpr const char* kRoutine = R"(name = "Three"

[[figure]]
name = "One"
text = """
line 200 m with 1/4 roll left
[[figure]] is no heading in here
"""

# belongs to the second
[[figure]]
name = "Two"
figure = "loop"
values = { radius = "105 m" }
[[figure.aim]]
change = "run"

[[figure]]
name = "Three"
text = "line 300 m"

[[substitute]]
name = "Low"
)";

std::string cut(std::string_view text, const TextRange& range) {
    return std::string(text.substr(range.begin, range.end - range.begin));
}

std::string namesOf(const std::string& text) {
    std::string names;
    for (const FigureBlock& block : figureBlocks(text)) names += block.name + ' ';
    return names;
}

TEST(RoutineBlocks, AreFoundWithTheirTexts) {
    const auto blocks = figureBlocks(kRoutine);
    ASSERT_EQ(blocks.size(), 3U);
    EXPECT_EQ(cut(kRoutine, blocks[0].text),
              "line 200 m with 1/4 roll left\n[[figure]] is no heading in here\n");
    EXPECT_EQ(cut(kRoutine, blocks[1].whole).substr(0, 9), "# belongs");
    EXPECT_FALSE(blocks[1].own_text);
    EXPECT_NE(cut(kRoutine, blocks[1].text).find("change = \"run\""), std::string::npos);
    EXPECT_EQ(cut(kRoutine, blocks[2].text), "line 300 m");
    EXPECT_EQ(cut(kRoutine, blocks[2].name_range), "Three");
    EXPECT_EQ(blockAt(blocks, blocks[1].text.begin), 1);
    EXPECT_EQ(blockAt(blocks, 0), -1);
}

TEST(RoutineBlocks, TheDemosAreThoseThatTheReaderFinds) {
    const std::string text(load::embeddedAsset("demo/demo.routine.toml").value());
    const routine::Routine read = routine::readRoutine(text, "demo").routine;
    const auto blocks = figureBlocks(text);
    ASSERT_EQ(blocks.size(), read.figures.size());
    for (std::size_t i = 0; i < blocks.size(); ++i) EXPECT_EQ(blocks[i].name, read.figures[i].name);
}

TEST(RoutineBlocks, AnUnfinishedTextIsNoReasonToFail) {
    const std::string text(kRoutine);
    for (std::size_t i = 0; i < text.size(); ++i) {
        for (const FigureBlock& block : figureBlocks(std::string_view(text).substr(0, i))) {
            EXPECT_LE(block.text.begin, block.text.end) << i;
            EXPECT_LE(block.text.end, i);
            EXPECT_LE(block.whole.end, i);
        }
    }
}

TEST(RoutineBlocks, AreMoved) {
    EXPECT_EQ(namesOf(withFigureMoved(kRoutine, 0, 2)), "Two Three One ");
    EXPECT_EQ(namesOf(withFigureMoved(kRoutine, 2, 0)), "Three One Two ");
    EXPECT_EQ(withFigureMoved(kRoutine, 1, 1), kRoutine);
    EXPECT_EQ(withFigureMoved(kRoutine, 1, 7), kRoutine);
    // There and back: nothing is lost on the way.
    EXPECT_EQ(namesOf(withFigureMoved(withFigureMoved(kRoutine, 0, 1), 1, 0)), "One Two Three ");
    EXPECT_NE(withFigureMoved(kRoutine, 1, 0).find("# belongs to the second\n[[figure]]"),
              std::string::npos);
}

TEST(RoutineBlocks, AreDoubledRemovedMirrored) {
    EXPECT_EQ(namesOf(withFigureDoubled(kRoutine, 0)), "One One 2 Two Three ");
    EXPECT_EQ(namesOf(withFigureRemoved(kRoutine, 1)), "One Three ");
    EXPECT_NE(withFigureMirrored(kRoutine, 0).find("1/4 roll right"), std::string::npos);
    EXPECT_NE(withFigureRemoved(kRoutine, 2).find("[[substitute]]"), std::string::npos);
}

TEST(RoutineBlocks, AFigureOfTheShelfIsAddedWithItsValues) {
    const std::string block = shelfBlock(kRoutine, "loop");
    EXPECT_NE(block.find("figure = \"loop\""), std::string::npos);
    EXPECT_NE(block.find("radius = \"118 m\""), std::string::npos);
    const std::string with = withFigureAdded(kRoutine, 0, block);
    EXPECT_EQ(namesOf(with), "One Loop Two Three ");
    EXPECT_EQ(shelfBlock(kRoutine, "no such figure"), "");
    EXPECT_EQ(namesOf(withFigureAdded("name = \"x\"", -1, block)), "Loop ");
}

TEST(NumberInText, IsFoundFromDigitsAndUnit) {
    const std::string text = "line -150 m at 6.5 g with 1/4 roll";
    const auto first = numberAt(text, 7);
    ASSERT_TRUE(first);
    EXPECT_EQ(cut(text, first->number), "-150");
    EXPECT_EQ(first->unit, "m");
    const auto second = numberAt(text, 20);  // in its unit
    ASSERT_TRUE(second);
    EXPECT_EQ(cut(text, second->number), "6.5");
    EXPECT_FALSE(numberAt(text, 26)) << "a part of a roll is no quantity";
    EXPECT_FALSE(numberAt(text, 2));
}

TEST(NumberInText, StepsAreSensible) {
    EXPECT_EQ(steppedNumber("150", "m", 1, false), "155");
    EXPECT_EQ(steppedNumber("6", "g", -2, false), "5.8");
    EXPECT_EQ(steppedNumber("25", "kt", 3, false), "28");
    EXPECT_EQ(steppedNumber("5", "m", -1, false), "0");
    EXPECT_EQ(steppedNumber("5", "m", 1, true), "5.5");
}

}  // namespace
}  // namespace plumbline::model

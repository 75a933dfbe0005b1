#include "engine/text/print.h"

#include <array>
#include <cstdio>
#include <fstream>
#include <iterator>
#include <random>

#include <gtest/gtest.h>

namespace plumbline::text {
namespace {

/// Bodies without the words of conditions, which say how a thing was written.
std::vector<ElementBody> bodiesOf(const ParsedText& parsed) {
    std::vector<ElementBody> bodies;
    for (const Element& element : parsed.elements) {
        bodies.push_back(element.body);
        if (Line* line = std::get_if<Line>(&bodies.back())) line->extent.until.words.clear();
    }
    return bodies;
}

void expectRoundTrip(const std::string& text) {
    const ParsedText parsed = parseFigureText(text, "t", 1);
    ASSERT_EQ(describe(parsed.problems), "") << text;
    const std::string printed = printFigureText(parsed.elements);
    const ParsedText again = parseFigureText(printed, "printed", 1);
    ASSERT_EQ(describe(again.problems), "") << printed;
    EXPECT_TRUE(bodiesOf(parsed) == bodiesOf(again)) << text << printed;
    EXPECT_EQ(printFigureText(again.elements), printed);
}

TEST(Print, WritesCanonicalWords) {
    const auto printed = [](const std::string& text) {
        return printFigureText(parseFigureText(text, "t", 1).elements);
    };
    EXPECT_EQ(printed("Line Level until  X -150m"), "line level until x -150 m\n");
    EXPECT_EQ(printed("line 100 ft with 0.75 roll left"), "line 30.48 m with 3/4 roll left\n");
    EXPECT_EQ(printed("line 1 km with 1.5 rolls right then 2 of 4 point left at end"),
              "line 1000 m with 1 1/2 rolls right then 2 of 4 points left at end\n");
    EXPECT_EQ(printed("pull to 45 deg up at 6g"), "pull to 45 deg up at 6 g\n");
    EXPECT_EQ(printed("power 100 %"), "power full\n");
}

TEST(Print, ParsesBackToTheSameTree) {
    std::ifstream file(std::string(PLUMBLINE_TEST_DATA) + "/figure_text_all.txt");
    ASSERT_TRUE(file);
    expectRoundTrip({std::istreambuf_iterator<char>(file), {}});
}

TEST(Print, KeepsOddNumbers) {
    std::mt19937 random(7);
    const auto number = [&](double from, double to, int decimals) {
        std::array<char, 64> digits{};
        const double value = std::uniform_real_distribution<double>(from, to)(random);
        std::snprintf(digits.data(), digits.size(), "%.*f", decimals, value);
        return std::string(digits.data());
    };
    for (int round = 0; round < 500; ++round) {
        const int decimals = round % 7;
        expectRoundTrip("line " + number(1, 89, decimals) + " deg down " +
                        number(1, 19000, decimals) + " ft with " + number(1, 9, decimals) +
                        " rolls left at " + number(1, 700, decimals) + " deg/s starting at " +
                        number(1, 500, decimals) + " kt\nline until " + number(1, 300, decimals) +
                        " mph or " + number(1, 60, decimals) + " s\nturn left " +
                        number(1, 700, decimals) + " deg bank " + number(2, 88, decimals) +
                        " deg\npower " + number(1, 99, decimals) + " %\npull " +
                        number(1, 350, decimals) + " deg at " + number(1, 14, decimals) + " g\n");
    }
}

}  // namespace
}  // namespace plumbline::text

#include <cmath>

#include <gtest/gtest.h>

#include "viewer/ui/glyphs.h"
#include "viewer/ui/quantity_text.h"
#include "viewer/ui/ui.h"

namespace plumbline::ui {
namespace {

TEST(QuantityText, UnitsByTheirExactDefinitions) {
    using model::UnitChoice;
    EXPECT_EQ(speedText(1852.0 / 3600 * 143, UnitChoice::Aviation).number, "143");
    EXPECT_EQ(speedText(100 / 3.6, UnitChoice::Metric).joined(), "100\u2009km/h");
    EXPECT_EQ(heightText(0.3048 * 500, UnitChoice::Feet).joined(), "500\u2009ft");
    EXPECT_EQ(heightText(0.3048 * 1004, UnitChoice::Feet).number, "1000") << "steps of 10 ft";
    EXPECT_EQ(heightText(76.4, UnitChoice::Aviation).joined(), "76\u2009m");
    EXPECT_EQ(leastHeightText(175, UnitChoice::Feet).joined(), "580\u2009ft");  // 574.1 ft
    EXPECT_EQ(leastHeightText(0.3048 * 570, UnitChoice::Feet).number, "570");
    EXPECT_EQ(leastHeightText(175, UnitChoice::Metric).number, "175");
    EXPECT_EQ(climbText(-52, UnitChoice::Aviation).joined(), "\u221252\u2009m/s");
    EXPECT_EQ(climbText(0.3048 * 1023 / 60, UnitChoice::Feet).joined(), "1000\u2009ft/min");
}

TEST(QuantityText, LoadAlwaysHasItsSign) {
    EXPECT_EQ(loadText(0.7).number, "+0.7");
    EXPECT_EQ(loadText(-2.96).number, "\u22123.0");
    EXPECT_EQ(loadText(-0.01).number, "+0.0");
}

TEST(QuantityText, TimeIsCutOffNotRoundedUp) {
    EXPECT_EQ(timeText(27.68), "0:27");
    EXPECT_EQ(hundredthsText(27.68), ".68");
    EXPECT_EQ(timeText(59.999), "0:59");
    EXPECT_EQ(hundredthsText(59.999), ".99");
    EXPECT_EQ(timeText(725), "12:05");
    EXPECT_EQ(timeText(-65), "\u22121:05");
    EXPECT_EQ(timeText(0), "0:00");
}

std::string quantitiesOf(const std::string& line) {
    std::string out;
    for (const Run& run : runsOf(line)) {
        if (run.quantity) out += "[" + run.words + "]";
    }
    return out;
}

TEST(FigureRuns, NumbersWithTheirUnits) {
    EXPECT_EQ(quantitiesOf("line up until 25 kt with 1/4 roll left"), "[25 kt][1/4]");
    EXPECT_EQ(quantitiesOf("line level until x -150 m"), "[-150 m]");
    EXPECT_EQ(quantitiesOf("pull to level at 6 g   # 6 g, or what the wing gives"), "[6 g]");
    EXPECT_EQ(quantitiesOf("smoke on"), "");
    EXPECT_EQ(quantitiesOf(""), "");
}

TEST(FigureRuns, WhatIsSaidIsNoQuantity) {
    const auto runs = runsOf("cue \"Up to 200 m now\" # 5 g");
    ASSERT_EQ(runs.size(), 4U);
    EXPECT_EQ(runs[0].words, "cue ");
    EXPECT_TRUE(runs[1].quoted);
    EXPECT_EQ(runs[1].words, "\"Up to 200 m now\"");
    EXPECT_TRUE(runs[3].comment);
}

TEST(FigureRuns, LoseNothing) {
    for (const char* line :
         {"  line 45 deg up 190 m with 1/2 roll right", "a  b   3 m # c", "# only", " 5"}) {
        std::string joined;
        for (const auto& run : runsOf(line)) joined += run.words;
        EXPECT_EQ(joined, line);
    }
}

TEST(Glyphs, FiguresHaveOneWidth) {
    Glyphs glyphs;
    for (int size : {11, 13, 20}) {
        const float width = glyphs.advance(Weight::SemiBold, size, U'0');
        for (char32_t c = U'1'; c <= U'9'; ++c) {
            EXPECT_EQ(glyphs.advance(Weight::SemiBold, size, c), width);
        }
        EXPECT_EQ(glyphs.advance(Weight::SemiBold, size, U'\u2212'), width);
        EXPECT_GT(width, 0.5F * static_cast<float>(size));
        EXPECT_LT(glyphs.advance(Weight::Regular, size, U'i'),
                  glyphs.advance(Weight::Regular, size, U'm'));
    }
}

TEST(Glyphs, AreDrawnOnceAndReported) {
    Glyphs glyphs;
    EXPECT_EQ(glyphs.takeChanged().count, Glyphs::kSize);
    EXPECT_EQ(glyphs.takeChanged().count, 0);
    const Glyph first = glyphs.glyph(Weight::Regular, 13, U'A', 0);
    EXPECT_GT(first.width, 4);
    EXPECT_GT(glyphs.takeChanged().count, 0);
    const Glyph again = glyphs.glyph(Weight::Regular, 13, U'A', 0);
    EXPECT_EQ(again.x, first.x);
    EXPECT_EQ(glyphs.takeChanged().count, 0);
    EXPECT_EQ(glyphs.glyph(Weight::Regular, 13, U' ', 0).width, 0);
}

TEST(Glyphs, AFullAtlasStartsAfresh) {
    Glyphs glyphs;
    for (int size = 60; size < 160; ++size) {
        for (char32_t c = U'A'; c <= U'Z'; ++c) glyphs.glyph(Weight::SemiBold, size, c, 0);
    }
    glyphs.renewIfFull();
    EXPECT_EQ(glyphs.takeChanged().count, Glyphs::kSize);
    EXPECT_GT(glyphs.glyph(Weight::SemiBold, 40, U'A', 0).width, 10);
}

TEST(CodePoints, BrokenTextStillEnds) {
    std::string_view text = "a\u2212\xFF\xE2\x82";
    EXPECT_EQ(takeCodePoint(text), U'a');
    EXPECT_EQ(takeCodePoint(text), U'\u2212');
    EXPECT_EQ(takeCodePoint(text), char32_t{0xFFFD});
    while (!text.empty()) EXPECT_EQ(takeCodePoint(text), char32_t{0xFFFD});
}

}  // namespace
}  // namespace plumbline::ui

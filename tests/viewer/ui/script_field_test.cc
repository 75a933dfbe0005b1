// Words in any script, with places for the caret.

#include "viewer/ui/script_field.h"

#include <cmath>
#include <fstream>

#include <gtest/gtest.h>

namespace plumbline::ui {
namespace {

std::string fileBytes(const char* name) {
    std::ifstream file(name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

page::Fonts manyScripts() {
    page::Fonts fonts;  // Debian's fonts-dejavu-core and fonts-droid-fallback
    EXPECT_EQ(fonts.add(fileBytes("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf")), "");
    EXPECT_EQ(fonts.add(fileBytes("/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf")),
              "");
    return fonts;
}

ScriptLayout laid(const page::Fonts& fonts, std::string_view words, float width = 200) {
    return layoutScript(fonts, words, 10, 20, width, 14, 20);
}

TEST(ScriptField, TheCaretGoesFromLeftToRightAndBackToItsByte) {
    const page::Fonts fonts;
    const std::string words = "Größe, four points";
    const ScriptLayout layout = laid(fonts, words, 400);
    ASSERT_EQ(layout.lines.size(), 1U);
    float before = -1;
    for (std::size_t byte = 0; byte <= words.size(); ++byte) {
        if (byte < words.size() && (static_cast<unsigned char>(words[byte]) & 0xC0U) == 0x80U)
            continue;
        const ImVec2 at = caretAt(layout, byte);
        EXPECT_GT(at.x, before);
        EXPECT_EQ(at.y, 20);
        EXPECT_EQ(byteAt(layout, at.x, at.y + 10), byte);
        before = at.x;
    }
}

TEST(ScriptField, WhatRunsToTheLeftHasItsCaretRunToTheLeft) {
    const page::Fonts fonts = manyScripts();
    const std::string words = "\u0645\u0631\u062d\u0628\u0627 \u0628\u0643\u0645";  // "welcome"
    const ScriptLayout layout = laid(fonts, words);
    ASSERT_EQ(layout.lines.size(), 1U);
    EXPECT_NEAR(caretAt(layout, 0).x, 210, 1) << "begins at the right edge";
    float before = 1e9F;
    for (std::size_t byte = 0; byte < words.size(); byte = model::codePointAfter(words, byte)) {
        const ImVec2 at = caretAt(layout, byte);
        EXPECT_LE(at.x, before);
        before = at.x;
    }
    EXPECT_LT(caretAt(layout, words.size()).x, before);
    EXPECT_EQ(byteAt(layout, 209, 30), 0U);
}

TEST(ScriptField, JapaneseWrapsBetweenSignsAndLinesFollowEachOther) {
    const page::Fonts fonts = manyScripts();
    std::string words;
    for (int i = 0; i < 30; ++i) words += "\u98db";
    const ScriptLayout layout = laid(fonts, words, 100);
    EXPECT_GE(layout.lines.size(), 4U);
    const std::size_t down = byteLinesAway(layout, 3, 1);
    EXPECT_EQ(caretAt(layout, down).y, 40);
    EXPECT_NEAR(caretAt(layout, down).x, caretAt(layout, 3).x, 8);
    EXPECT_EQ(byteLinesAway(layout, down, -1), 3U);
    EXPECT_EQ(byteLinesAway(layout, 3, -1), 0U);
    EXPECT_EQ(fonts.missing(), "");
}

TEST(ScriptField, NothingAndABlankAtTheEndHaveAPlaceForTheCaret) {
    const page::Fonts fonts;
    EXPECT_EQ(laid(fonts, "").lines.size(), 1U);
    EXPECT_EQ(caretAt(laid(fonts, ""), 0).x, 10);
    EXPECT_GT(caretAt(laid(fonts, "now "), 4).x, caretAt(laid(fonts, "now "), 3).x);
    EXPECT_EQ(laid(fonts, "one\n").lines.size(), 2U);
    EXPECT_EQ(caretAt(laid(fonts, "one\n"), 4).y, 40);
}

}  // namespace
}  // namespace plumbline::ui

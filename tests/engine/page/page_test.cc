// Pages made and read back by another's reader.

#include <algorithm>
#include <cmath>

#include "engine/page/document.h"
#include "engine/page/table.h"
#include "engine/page/utf8.h"
#include "tests/engine/page/read_back.h"

namespace plumbline::page {
namespace {

using test::ReadBack;

// Debian's fonts-dejavu-core and fonts-droid-fallback.
constexpr const char* kArabicFont = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";
constexpr const char* kChineseFont = "/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf";

std::string fileBytes(const char* name) {
    std::ifstream file(name, std::ios::binary);
    return {std::istreambuf_iterator<char>(file), {}};
}

Fonts fontsOfManyScripts() {
    Fonts fonts;
    EXPECT_EQ(fonts.add(fileBytes(kArabicFont)), "");
    EXPECT_EQ(fonts.add(fileBytes(kChineseFont)), "");
    return fonts;
}

std::string pageOf(const Fonts& fonts, const Text& text, double width_mm = 180) {
    Document document(Paper::A4, fonts, "Trial");
    document.paragraph({15, 20}, width_mm, text);
    return document.finish().value();
}

TEST(Page, SizesAreThoseOfTheStandards) {
    // ISO 216 and ANSI Y14.1, in points: A4 595.28 x 841.89, A5 419.53 x 595.28, letter 612 x 792.
    const struct {
        Paper paper;
        double width_pt, height_pt;
    } sheets[] = {{Paper::A4, 595.28, 841.89},
                  {Paper::A5, 419.53, 595.28},
                  {Paper::Letter, 612, 792},
                  {Paper::HalfLetter, 396, 612}};
    const Fonts fonts;
    for (const auto& sheet : sheets) {
        Document document(sheet.paper, fonts, "Sheet");
        document.newPage();
        document.words({10, 20}, {{"second", {}}});
        const std::string bytes = document.finish().value();
        const ReadBack read(bytes);
        ASSERT_TRUE(read.good());
        EXPECT_EQ(read.pages(), 2);
        EXPECT_NEAR(read.size(1).width(), sheet.width_pt, 0.05);
        EXPECT_NEAR(read.size(1).height(), sheet.height_pt, 0.05);
        EXPECT_EQ(read.title(), "Sheet");
        EXPECT_FALSE(read.dated());
        EXPECT_TRUE(ReadBack::sound(bytes, "plumbline_sizes.pdf"));
    }
    EXPECT_EQ(paperNamed("half-letter"), Paper::HalfLetter);
    EXPECT_FALSE(paperNamed("A0").has_value());
}

TEST(Page, TheSameSheetIsTheSameBytes) {
    const Fonts fonts = fontsOfManyScripts();
    const Text text = {{"Twice \u4e00\u4e8c ", {9, Weight::Regular, kInk}},
                       {"the same \u0633\u0644\u0627\u0645", {12, Weight::Bold, kFlown}}};
    EXPECT_EQ(pageOf(fonts, text), pageOf(fonts, text));
}

TEST(Page, WordsStandWhereTheyWerePut) {
    const Fonts fonts;
    Document document(Paper::A4, fonts, "Trial");
    document.words({50, 100}, {{"left", {}}});
    document.words({150, 100}, {{"right", {}}}, Align::Right);
    document.words({105, 120}, {{"middle", {20, Weight::Bold, kInk}}}, Align::Centre);
    const ReadBack read(document.finish().value());
    for (const ReadBack::Word& word : read.words(0)) {
        if (word.words == "left") {
            EXPECT_NEAR(word.box_pt.left() * kPoint_mm, 50, 0.3);
        }
        if (word.words == "right") {
            EXPECT_NEAR(word.box_pt.right() * kPoint_mm, 150, 0.3);
        }
        if (word.words == "middle") {
            EXPECT_NEAR(0.5 * (word.box_pt.left() + word.box_pt.right()) * kPoint_mm, 105, 0.3);
            EXPECT_LT(word.box_pt.top() * kPoint_mm, 120);
            EXPECT_GT(word.box_pt.bottom() * kPoint_mm, 120);
        }
    }
    EXPECT_EQ(read.words(0).size(), 3U);
}

TEST(Page, LettersBeyondAsciiCanBeReadBack) {
    const Fonts fonts;
    const std::string words =
        "Größe \u22122.6 \u00b10.3\u00b0, \u00bd roll, Łódź, ελληνικά, кириллица";
    const ReadBack read(pageOf(fonts, {{words, {}}}));
    EXPECT_TRUE(read.says(0, words)) << read.text(0);
    EXPECT_EQ(fonts.missing(), "");
}

TEST(Page, ParagraphsBreakAtBlanksAndStayInTheirWidth) {
    const Fonts fonts;
    std::string words;
    for (int i = 0; i < 60; ++i) words += "seven letters-long ";
    constexpr double kWidth_mm = 47;
    const Text text = {{words, {9, Weight::Regular, kInk}}};
    const std::vector<SetLine> lines = fonts.set(text, kWidth_mm / kPoint_mm);
    EXPECT_GT(lines.size(), 10U);
    const ReadBack read(pageOf(fonts, text, kWidth_mm));
    int seen = 0;
    for (const ReadBack::Word& word : read.words(0)) {
        EXPECT_LE(word.box_pt.right() * kPoint_mm, 15 + kWidth_mm + 0.3);
        EXPECT_TRUE(word.words == "seven" || word.words == "letters-long" ||
                    word.words == "letters-" || word.words == "long")
            << word.words;
        ++seen;
    }
    EXPECT_GE(seen, 120);
    // A word that is longer than its line is cut, not lost.
    const Text one = {{std::string(300, 'w'), {}}};
    std::size_t glyphs = 0;
    for (const SetLine& line : fonts.set(one, 100)) {
        EXPECT_LE(line.width_pt, 100.001);
        for (const GlyphRun& run : line.runs) glyphs += run.glyphs.size();
    }
    EXPECT_EQ(glyphs, 300U);
}

TEST(Page, FiguresAreOfOneWidth) {
    const Fonts fonts;
    const double ones = fonts.set({{"1111", {}}}, 0).front().width_pt;
    EXPECT_NEAR(fonts.set({{"8888", {}}}, 0).front().width_pt, ones, 1e-9);
}

// The bidirectional algorithm's own example of a line with numbers (UAX #9, Hebrew letters for the
// capitals there): letters run to the left, the number to the right.
TEST(Page, WhatRunsToTheLeftDoes) {
    const Fonts fonts = fontsOfManyScripts();
    const std::string hebrew = "\u05d0\u05d1\u05d2 123 \u05d3\u05d4\u05d5";
    const SetLine line = fonts.set({{hebrew, {}}}, 0).front();
    EXPECT_TRUE(line.leftward);
    // From left to right: the second word turned round, the number, the first word turned round.
    std::string seen;
    for (const GlyphRun& run : line.runs) {
        std::vector<Utf8Letter> letters = lettersOf(run.words);
        if (run.leftward) std::reverse(letters.begin(), letters.end());
        for (const Utf8Letter& l : letters)
            if (l.letter != ' ') appendUtf8(seen, l.letter);
    }
    EXPECT_EQ(seen,
              "\u05d5\u05d4\u05d3"
              "123"
              "\u05d2\u05d1\u05d0");
    double before = -1;
    for (const GlyphRun& run : line.runs)
        for (const Glyph& glyph : run.glyphs) {
            EXPECT_GT(glyph.x_pt, before);
            before = glyph.x_pt;
        }
    // The reader puts them back into reading order.
    const ReadBack read(pageOf(fonts, {{hebrew, {}}}));
    EXPECT_TRUE(read.says(0, "\u05d0\u05d1\u05d2")) << read.text(0);
    EXPECT_TRUE(read.says(0, "123")) << read.text(0);
    // Flush right, as that script has it.
    for (const ReadBack::Word& word : read.words(0))
        EXPECT_GT(word.box_pt.left() * kPoint_mm, 150) << word.words;
}

// Four letters that join: the shapes in the middle are not those of letters that stand alone.
TEST(Page, ArabicLettersJoin) {
    const Fonts fonts = fontsOfManyScripts();
    const auto glyphsOf = [&](const std::string& words) {
        std::vector<unsigned> out;
        const SetLine line = fonts.set({{words, {}}}, 0).front();
        for (const GlyphRun& run : line.runs)
            for (const Glyph& glyph : run.glyphs) out.push_back(glyph.index);
        return out;
    };
    const std::string beh = "\u0628";
    const std::vector<unsigned> joined = glyphsOf(beh + beh + beh), alone = glyphsOf(beh);
    ASSERT_EQ(joined.size(), 3U);
    ASSERT_EQ(alone.size(), 1U);
    EXPECT_NE(joined[0], joined[1]);
    EXPECT_NE(joined[1], joined[2]);
    for (const unsigned glyph : joined) EXPECT_NE(glyph, alone[0]);
    const std::string word = "\u0645\u062b\u0627\u0644";  // "example"
    const ReadBack read(pageOf(fonts, {{word, {}}}));
    EXPECT_TRUE(read.says(0, word)) << read.text(0);
}

TEST(Page, ChineseBreaksBetweenItsSignsAndNotBeforeAComma) {
    const Fonts fonts = fontsOfManyScripts();
    const std::string words = "\u98db\u884c\u5f8c\u3001\u76f4\u7dda\u3092\u898b\u308b\u3002";
    const std::vector<SetLine> lines = fonts.set({{words, {10, Weight::Regular, kInk}}}, 32);
    ASSERT_GE(lines.size(), 4U);
    for (const SetLine& line : lines) {
        EXPECT_LE(line.width_pt, 32.001);
        EXPECT_NE(line.runs.front().words.substr(0, 3), "\u3001");
        EXPECT_NE(line.runs.front().words.substr(0, 3), "\u3002");
    }
    const ReadBack read(pageOf(fonts, {{words, {}}}));
    EXPECT_TRUE(read.says(0, words)) << read.text(0);
    EXPECT_EQ(fonts.missing(), "");
}

TEST(Page, LettersThatNoFontHasAreTold) {
    const Fonts fonts;
    (void)pageOf(fonts, {{"\u98db\u98db ok \u0628", {}}});
    EXPECT_EQ(fonts.missing(), "\u0628\u98db");
}

TEST(Page, WhatIsNoFontIsRefused) {
    Fonts fonts;
    EXPECT_NE(fonts.add("this is no font"), "");
    EXPECT_NE(fonts.add(""), "");
    EXPECT_NE(fonts.add(fileBytes(kArabicFont).substr(0, 1000)), "");
    EXPECT_EQ(fonts.count(), 3);
}

TEST(Page, BytesThatAreNoTextPrintAsTheSignForThem) {
    const std::vector<Utf8Letter> letters = lettersOf("a\xff\xc0\xaf\xed\xa0\x80z");
    EXPECT_EQ(letters.front().letter, U'a');
    EXPECT_EQ(letters.back().letter, U'z');
    for (std::size_t i = 1; i + 1 < letters.size(); ++i) EXPECT_EQ(letters[i].letter, 0xfffdU);
    const Fonts fonts;
    const std::string bytes = pageOf(fonts, {{"a\xff z", {}}});
    EXPECT_TRUE(ReadBack(bytes).says(0, "z"));
}

TEST(Page, ShapesAreAsLargeAsTheySay) {
    const Fonts fonts;
    Document document(Paper::A5, fonts, "Trial");
    document.fill(Box{20, 30, 100, 4}, kInk);
    document.line({20, 60}, {120, 60}, {1, kInk});
    const Picture red{1, 1, {200, 0, 0, 255}};
    document.picture({20, 80, 40, 10}, red);
    const ReadBack read(document.finish().value());
    constexpr double kDpi = 600, kPixel_mm = 25.4 / kDpi;
    const ReadBack::Grey grey = read.drawn(0, kDpi);
    const auto extent = [&](double y_mm) {
        const int y = static_cast<int>(y_mm / kPixel_mm);
        int first = -1, last = -1;
        for (int x = 0; x < grey.width; ++x)
            if (grey.at(x, y) < 200) {
                if (first < 0) first = x;
                last = x;
            }
        return std::pair((first)*kPixel_mm, (last + 1) * kPixel_mm);
    };
    for (const double y_mm : {32.0, 60.0}) {
        EXPECT_NEAR(extent(y_mm).first, 20, 0.1);
        EXPECT_NEAR(extent(y_mm).second, 120, 0.1);
    }
    EXPECT_NEAR(extent(85).second, 60, 0.1);
}

TEST(Page, ColoursTellApartInGrey) {
    // CIE 1976 L* of sRGB (IEC 61966-2-1 for the curve).
    const auto lightness = [](const Colour& c) {
        const auto linear = [](double v) {
            return v <= 0.04045 ? v / 12.92 : std::pow((v + 0.055) / 1.055, 2.4);
        };
        const double y = 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
        return y > 0.008856 ? 116 * std::cbrt(y) - 16 : 903.3 * y;
    };
    EXPECT_LT(lightness(kInk), 20);
    EXPECT_GT(lightness(kFlown) - lightness(kInk), 20);
    EXPECT_GT(lightness(kFlownDoubt) - lightness(kFlown), 30);
    EXPECT_GT(lightness(kPaper) - lightness(kFlownDoubt), 15);
    EXPECT_GT(lightness(kDo) - lightness(kFlown), 25);
    EXPECT_LT(lightness(kQuiet), 45);
    EXPECT_GT(lightness(kPaper) - lightness(kDo), 20);
}

TEST(Page, TablesKeepTheirColumns) {
    const Fonts fonts;
    Document document(Paper::A4, fonts, "Trial");
    Table table(
        document, {20, 30},
        {{"figure", 60, Align::Left}, {"off", 20, Align::Right}, {"much", 20, Align::Right}});
    table.head();
    for (const char* value : {"1.2", "10.5"})
        table.row({{{"Loop", table.style()}}, {{value, table.style(Weight::Bold)}}});
    EXPECT_NEAR(table.cell(1).x_mm, 80, 1e-9);
    const ReadBack read(document.finish().value());
    std::vector<double> rights;
    for (const ReadBack::Word& word : read.words(0))
        if (word.words == "1.2" || word.words == "10.5") rights.push_back(word.box_pt.right());
    ASSERT_EQ(rights.size(), 2U);
    EXPECT_NEAR(rights[0], rights[1], 0.2);
    EXPECT_TRUE(read.says(0, "figure"));
}

}  // namespace
}  // namespace plumbline::page

#include "viewer/model/word_picture.h"

#include <fstream>
#include <iterator>

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

std::string bytesOf(const char* file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

page::Fonts fontsOf(const char* file) {
    page::Fonts fonts;
    EXPECT_EQ(fonts.add(bytesOf(file)), "");
    return fonts;
}

/// How much is drawn in a colour between two columns, as opacity summed.
double drawn(const page::Picture& picture, int from, int to, int red) {
    double sum = 0;
    for (int y = 0; y < picture.height; ++y)
        for (int x = from; x < to; ++x) {
            const std::size_t at = 4 * static_cast<std::size_t>(y * picture.width + x);
            if (std::abs(picture.rgba[at] - red) < 40) sum += picture.rgba[at + 3] / 255.0;
        }
    return sum;
}

WordWish wishOf(const std::string& words, std::size_t said) {
    WordWish wish;
    wish.words = words;
    wish.said = said;
    wish.size_px = 40;
    wish.line_px = 52;
    wish.width_px = 600;
    wish.strong = true;
    wish.ink = page::Colour{1, 1, 1};
    wish.ahead = page::Colour{0.5, 0.5, 0.5};
    return wish;
}

TEST(WordPicture, LatinGreekAndCyrillicAreTheWindowsOwn) {
    for (const char* words : {"Now low, along the runway", "Würfelförmig, ça va", "Κάτω, χαμηλά",
                              "Прямо вверх", "6\u2009g \u2212 \u201cquoted\u201d"})
        EXPECT_FALSE(needsSetting(words)) << words;
    for (const char* words : {"مرحبا", "שלום", "まっすぐ上へ", "直上", "a\u0301", "नमस्ते"})
        EXPECT_TRUE(needsSetting(words)) << words;
}

TEST(WordPicture, RightToLeftWordsBeginAtTheRightAndAreSaidFromThere) {
    const page::Fonts fonts = fontsOf("/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf");
    const std::string words = "مرحبا بكم";
    const page::Picture picture = wordPicture(fonts, wishOf(words, words.find(' ') + 1));
    ASSERT_EQ(picture.width, 600);
    EXPECT_NEAR(picture.height, 52, 2);
    EXPECT_EQ(fonts.missing(), "");
    EXPECT_GT(drawn(picture, 300, 600, 255), 100);  // said, at the right
    EXPECT_GT(drawn(picture, 300, 600, 128), 100);  // and what follows, left of it
    EXPECT_LT(drawn(picture, 0, 300, 255) + drawn(picture, 0, 300, 128), 1);
    double said_x = 0, ahead_x = 0, said = 0, ahead = 0;
    for (int x = 0; x < 600; ++x) {
        const double a = drawn(picture, x, x + 1, 255), b = drawn(picture, x, x + 1, 128);
        said += a, said_x += a * x, ahead += b, ahead_x += b * x;
    }
    EXPECT_GT(said_x / said, ahead_x / ahead + 20);
}

TEST(WordPicture, SignsWrapAndTakeTheirLines) {
    const page::Fonts fonts = fontsOf("/usr/share/fonts/truetype/droid/DroidSansFallbackFull.ttf");
    std::string words;
    for (int i = 0; i < 20; ++i) words += "上";  // of 40 px: 15 in a line of 600
    const page::Picture picture = wordPicture(fonts, wishOf(words, 0));
    EXPECT_NEAR(picture.height, 2 * 52, 4);
    EXPECT_GT(drawn(picture, 0, 190, 128), drawn(picture, 410, 600, 128));
    EXPECT_LT(drawn(picture, 0, 600, 255), 1);  // nothing was said
}

}  // namespace
}  // namespace plumbline::model

// Pages painted into pictures, beside the same pages as files drawn by another's reader (Poppler).

#include <cmath>

#include "engine/page/document.h"
#include "tests/engine/page/read_back.h"

namespace plumbline::page {
namespace {

using test::ReadBack;

constexpr double kDotsPerMm = 6;

void drawTrial(Document& document) {
    document.fill(Box{20, 30, 60, 10}, kDo);
    document.line({20, 60}, {120, 60}, {2, kInk});
    document.disc({100, 100}, 12, kFlown);
    document.paragraph(
        {15, 130}, 120,
        {{"Words that are set in several lines of one paragraph, so that letters, "
          "breaks and places are all compared. ",
          {12, Weight::Regular, kInk}},
         {"Some of them are bold and as large as figures are.", {16, Weight::Bold, kLimit}}});
    document.within(Box{20, 70, 30, 20}, [&] { document.fill(Box{0, 0, 500, 500}, kHairline); });
    document.picture({60, 70, 20, 10}, Picture{1, 1, {200, 0, 0, 255}});
    document.newPage();
    document.words({74, 100}, {{"second", {30, Weight::SemiBold, kInk}}}, Align::Centre);
}

double greyOf(const Picture& picture, int x, int y) {
    const std::uint8_t* p =
        picture.rgba.data() + std::size_t{4} * static_cast<std::size_t>(y * picture.width + x);
    return (30 * p[0] + 59 * p[1] + 11 * p[2]) / 100.0;
}

TEST(PagePicture, ShowsWhatTheFileShows) {
    const Fonts fonts;
    Document file(Paper::A5, fonts, "Trial");
    Document shown(sizeOf(Paper::A5), fonts);
    drawTrial(file);
    drawTrial(shown);
    EXPECT_EQ(shown.pages(), 2);
    const ReadBack read(file.finish().value());
    for (int page = 0; page < 2; ++page) {
        const Picture picture = shown.pictureOf(page, {.dots_per_mm = kDotsPerMm});
        const ReadBack::Grey grey = read.drawn(page, kDotsPerMm * 25.4);
        ASSERT_NEAR(picture.width, 148 * kDotsPerMm, 1);
        ASSERT_NEAR(picture.height, 210 * kDotsPerMm, 1);
        // Means of squares of 2 mm: edges are softened differently, places are the same.
        const int side = static_cast<int>(2 * kDotsPerMm);
        int marked = 0;
        double most = 0, sum = 0;
        for (int top = 0; top + side <= std::min(picture.height, grey.height); top += side)
            for (int left = 0; left + side <= std::min(picture.width, grey.width); left += side) {
                double ours = 0, theirs = 0;
                for (int y = top; y < top + side; ++y)
                    for (int x = left; x < left + side; ++x) {
                        ours += greyOf(picture, x, y);
                        theirs += grey.at(x, y);
                    }
                const double dots = side * side;
                const double apart = std::abs(ours - theirs) / dots;
                most = std::max(most, apart);
                if (theirs / dots > 250 && apart < 5) continue;
                ++marked;
                sum += apart;
            }
        EXPECT_GT(marked, page == 0 ? 300 : 20);
        // Poppler moves lines onto whole pixels (stroke adjustment): half a pixel of a line is a
        // twelfth of a square.
        EXPECT_LT(most, 255 / 6.0) << "page " << page;
        EXPECT_LT(sum / marked, 6) << "page " << page;
    }
}

TEST(PagePicture, APartIsCutFromTheWhole) {
    const Fonts fonts;
    Document shown(Size{100, 80}, fonts);
    shown.fill(Box{40, 20, 30, 30}, kInk);
    const Picture part =
        shown.pictureOf(0, {.dots_per_mm = 3, .part = Box{30, 10, 20, 20}, .ground = kPaper});
    ASSERT_EQ(part.width, 60);
    ASSERT_EQ(part.height, 60);
    EXPECT_NEAR(greyOf(part, 28, 40), 255, 1);
    EXPECT_NEAR(greyOf(part, 31, 40), 14, 1);
    EXPECT_NEAR(greyOf(part, 40, 28), 255, 1);
    // What is drawn later is in the next picture: a page to look at is never closed.
    shown.fill(Box{30, 10, 5, 5}, kInk);
    EXPECT_NEAR(greyOf(shown.pictureOf(0, {.dots_per_mm = 3}), 93, 33), 14, 1);
}

TEST(PagePicture, WithoutAGroundItLetsThrough) {
    const Fonts fonts;
    Document shown(Size{40, 20}, fonts);
    shown.fill(Box{10, 0, 10, 20}, kDo);
    const Picture picture = shown.pictureOf(0, {.dots_per_mm = 2, .ground = std::nullopt});
    const auto at = [&](int x, int channel) {
        return picture.rgba[static_cast<std::size_t>(4 * (10 * picture.width + x) + channel)];
    };
    EXPECT_EQ(at(5, 3), 0);
    EXPECT_EQ(at(30, 3), 255);
    EXPECT_NEAR(at(30, 0), 255 * kDo.r, 1);
    EXPECT_NEAR(at(30, 2), 255 * kDo.b, 1);
}

TEST(PagePicture, AskedForTooMuchItIsEmpty) {
    const Fonts fonts;
    Document shown(Size{100, 80}, fonts);
    EXPECT_EQ(shown.pictureOf(1, {}).width, 0);
    EXPECT_EQ(shown.pictureOf(-1, {}).width, 0);
    EXPECT_EQ(shown.pictureOf(0, {.dots_per_mm = 1e6}).width, 0);
    EXPECT_EQ(shown.pictureOf(0, {.dots_per_mm = std::nan("")}).width, 0);
    EXPECT_FALSE(shown.finish().has_value());
    Document file(Paper::A5, fonts, "Trial");
    EXPECT_EQ(file.pictureOf(0, {}).width, 0);
}

}  // namespace
}  // namespace plumbline::page

// The sizes are those of the design's own table.

#include <gtest/gtest.h>

#include "viewer/ui/prompter_parts.h"

namespace plumbline::ui {
namespace {

TEST(PrompterLayout, TheWordsHaveTwoThirdsOfTheWindow) {
    struct Row {
        float width, height, text;
        int size;
    };
    for (const Row& row :
         {Row{1280, 720, 832, 44}, Row{1600, 900, 1040, 56}, Row{1920, 1080, 1248, 64}}) {
        for (const float scale : {1.0F, 2.0F}) {
            const PrompterLayout l = prompterLayoutOf(row.width * scale, row.height * scale, scale);
            EXPECT_EQ(l.text, (Rect{0, 0, row.text * scale, row.height * scale}));
            EXPECT_EQ(l.side.right(), row.width * scale);
            EXPECT_EQ(l.side.x, l.text.right());
            EXPECT_NEAR(l.picture.width / l.picture.height, 16.0F / 9, 0.01F);
            EXPECT_EQ(promptSize(l.text.width / scale, 1), row.size);
        }
    }
}

TEST(PrompterLayout, CapitalsCanBeReadAtTwoMetres) {
    // 1/250 of the distance; capitals of the font are 0.727 of its size (Inter's own metrics), a
    // screen has 96 pixels an inch (CSS Values and Units 3, W3C: the reference pixel).
    for (const float width : {832.0F, 1040.0F, 1248.0F, 1920.0F})
        EXPECT_GE(0.727 * promptSize(width, 1) * 25.4 / 96, 2000.0 / 250) << width;
    EXPECT_EQ(promptSize(1040, 1.5), 84);
    EXPECT_GT(promptSize(1920, 1), promptSize(1248, 1));
    EXPECT_LE(promptSize(8000, 2), 180);  // letters that the atlas has room for
}

TEST(PrompterLayout, OtherPanelsHaveNoRoomBesideIt) {
    const Layout l = layoutOf(prompterLayoutOf(1600, 900, 1));
    EXPECT_EQ(l.sheet.width, 0);
    EXPECT_EQ(l.timeline.height, 0);
    EXPECT_EQ(l.inset_count, 0);
    EXPECT_EQ(l.picture.x, 1040);
}

}  // namespace
}  // namespace plumbline::ui

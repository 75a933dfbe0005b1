// The sizes are those of the design's own table.

#include "viewer/ui/layout.h"

#include <gtest/gtest.h>

#include "viewer/model/lane_choice.h"

namespace plumbline::ui {
namespace {

LayoutWish wishOf(float scale) {
    LayoutWish wish;
    wish.scale = scale;
    return wish;
}

struct Row {
    float width, height, sheet_width, upper_height, picture_width, timeline_height;
    float inset_width, inset_height, strip_height;
    int insets, cells;
};

TEST(Layout, RegionsAreThoseOfTheTable) {
    for (const Row& row : {Row{1280, 720, 272, 544, 1008, 176, 184, 106, 44, 1, 6},
                           Row{1600, 900, 320, 692, 1280, 208, 240, 140, 52, 2, 8},
                           Row{1920, 1080, 360, 832, 1560, 248, 288, 166, 52, 2, 8}}) {
        for (float scale : {1.0F, 2.0F}) {
            const Layout l = layoutOf(row.width * scale, row.height * scale, wishOf(scale));
            EXPECT_EQ(l.sheet, (Rect{0, 0, row.sheet_width * scale, row.upper_height * scale}));
            EXPECT_EQ(l.picture, (Rect{row.sheet_width * scale, 0, row.picture_width * scale,
                                       row.upper_height * scale}));
            EXPECT_EQ(l.timeline, (Rect{0, row.upper_height * scale, row.width * scale,
                                        row.timeline_height * scale}));
            EXPECT_EQ(l.strip.height, row.strip_height * scale);
            EXPECT_EQ(l.inset_count, row.insets);
            EXPECT_EQ(l.strip_cells, row.cells);
            EXPECT_EQ(l.insets[0].width, row.inset_width * scale);
            EXPECT_EQ(l.insets[0].height, row.inset_height * scale);
            EXPECT_EQ(l.insets[0].right(), (row.width - 12) * scale);
            EXPECT_EQ(l.insets[0].y, 12 * scale);
            EXPECT_EQ(lowTimeline(row.height * scale, wishOf(scale)), row.width == 1280);
        }
    }
}

TEST(Layout, TheBriefLeavesRoomForThePicture) {
    for (const auto& [width, height] :
         {std::pair{1280.0F, 720.0F}, {1600.0F, 900.0F}, {1920.0F, 1080.0F}, {960.0F, 540.0F}}) {
        for (const float scale : {1.0F, 2.0F}) {
            LayoutWish wish = wishOf(scale);
            wish.brief = true;
            wish.sheet_folded = true;  // the cues are not
            const Layout l = layoutOf(width * scale, height * scale, wish);
            EXPECT_FALSE(l.spine);
            EXPECT_GE(l.sheet.width, 300 * scale);
            EXPECT_GE(l.brief.width, 320 * scale);
            EXPECT_GE(l.picture.width, width * scale / 3);
            EXPECT_EQ(l.sheet.width + l.picture.width + l.brief.width, width * scale);
            const Rect room = pageRoom(l);
            EXPECT_GE(room.x, l.brief.x);
            EXPECT_LE(room.right(), l.brief.right());
            EXPECT_LT(room.bottom(), l.timeline.y);
            wish.picture_only = true;
            EXPECT_EQ(layoutOf(width * scale, height * scale, wish).brief.width, 0);
        }
    }
}

TEST(Layout, TheTimelineGrowsWithTheLanesThatAreChosen) {
    model::LaneSituation there;
    there.power = there.heard = true;
    model::LaneWishes wishes{};
    wishes[static_cast<std::size_t>(model::Lane::Power)] = model::LaneWish::Shown;
    wishes[static_cast<std::size_t>(model::Lane::Heard)] = model::LaneWish::Shown;
    for (const float height : {720.0F, 900.0F, 1080.0F}) {
        LayoutWish wish = wishOf(1);
        const float usual = layoutOf(1600, height, wish).timeline.height;
        there.low = lowTimeline(height, wish);
        wish.lanes_height = model::lanesHeight(model::shownLanes({}, there), there.low);
        EXPECT_EQ(layoutOf(1600, height, wish).timeline.height, usual);
        const model::LaneSet more = model::shownLanes(wishes, there);
        wish.lanes_height = model::lanesHeight(more, there.low);
        const float grown = layoutOf(1600, height, wish).timeline.height;
        EXPECT_EQ(grown, usual + 2 * (16 + 8));
        // All of them find their place in it.
        const model::LanePlan plan =
            model::planLanes(more, there.low, grown - kLanesTop - kLanesFoot);
        for (std::size_t i = 0; i < more.size(); ++i) EXPECT_EQ(plan.height[i] > 0, more[i]);
    }
}

TEST(Layout, TwoViewsShareThePictureAndTheMapStaysAtTheRight) {
    LayoutWish wish = wishOf(1);
    const Layout one = layoutOf(1600, 900, wish);
    EXPECT_EQ(one.second.width, 0);
    wish.beside = true;
    const Layout two = layoutOf(1600, 900, wish);
    EXPECT_EQ(two.picture.x, one.picture.x);
    EXPECT_EQ(two.picture.right(), two.second.x);
    EXPECT_EQ(two.second.right(), 1600);
    EXPECT_EQ(two.second.height, two.picture.height);
    EXPECT_EQ(two.strip, one.strip);
    EXPECT_EQ(two.inset_count, 1);
    EXPECT_EQ(two.insets[0].right(), 1600 - 12);
    wish.start_panel = true;
    EXPECT_EQ(layoutOf(1600, 900, wish).second.width, 0);
}

TEST(Layout, AReviewHasTheJudgesPictureUpperLeft) {
    EXPECT_EQ(layoutOf(1600, 900, wishOf(1)).left_inset.width, 0);
    LayoutWish wish = wishOf(1);
    wish.mending = true;
    for (const auto& [width, height] :
         {std::pair{1280.0F, 720.0F}, std::pair{1600.0F, 900.0F}, std::pair{1920.0F, 1080.0F}}) {
        const Layout l = layoutOf(width, height, wish);
        ASSERT_GT(l.left_inset.width, 100);
        EXPECT_EQ(l.left_inset.x, l.picture.x + 12);
        EXPECT_GT(l.left_inset.y, 100);                     // chooser and captions stand above
        EXPECT_LT(l.left_inset.bottom(), l.strip.y - 220);  // the legend below
        EXPECT_LT(l.left_inset.right(), l.insets[0].x);
    }
    wish.beside = true;
    EXPECT_EQ(layoutOf(1600, 900, wish).left_inset.width, 0);
}

TEST(Layout, RegionsTileTheWindowAtAnySizeAndScale) {
    for (float width = 640; width < 2600; width += 131) {
        for (float height = 400; height < 1500; height += 97) {
            for (float scale : {0.75F, 1.0F, 1.25F, 1.5F}) {
                for (int bits = 0; bits < 16; ++bits) {
                    LayoutWish wish = wishOf(scale);
                    wish.start_panel = (bits & 1) != 0;
                    wish.sheet_folded = (bits & 2) != 0;
                    wish.timeline_folded = (bits & 4) != 0;
                    wish.picture_only = (bits & 8) != 0;
                    const Layout l = layoutOf(width, height, wish);
                    EXPECT_EQ(l.sheet.right(), l.picture.x);
                    EXPECT_EQ(l.picture.right(), width);
                    EXPECT_EQ(l.picture.bottom(), l.timeline.y);
                    EXPECT_EQ(l.timeline.bottom(), height);
                    EXPECT_GE(l.picture.height, height * 0.49F);
                    for (int i = 0; i < l.inset_count; ++i) {
                        const Rect& inset = l.insets[static_cast<std::size_t>(i)];
                        EXPECT_LE(inset.bottom(), l.strip.y) << width << "x" << height;
                        EXPECT_GT(inset.x, l.picture.x + 400 * scale);
                    }
                }
            }
        }
    }
}

TEST(Layout, NarrowWindowsFoldTheSheetToItsSpine) {
    EXPECT_FALSE(layoutOf(1100, 720, wishOf(1)).spine);
    const Layout narrow = layoutOf(1099, 720, wishOf(1));
    EXPECT_TRUE(narrow.spine);
    EXPECT_EQ(narrow.sheet.width, 44);
    EXPECT_TRUE(layoutOf(2100, 1400, wishOf(2)).spine) << "it is the size in units that counts";
}

TEST(Layout, PictureTakesMostOfTheWindow) {
    for (const auto& size : {std::pair{1280.0F, 720.0F}, {1600.0F, 900.0F}, {1920.0F, 1080.0F}}) {
        const Layout l = layoutOf(size.first, size.second, wishOf(1));
        EXPECT_GE(l.picture.width * l.picture.height, 0.59F * size.first * size.second);
    }
}

}  // namespace
}  // namespace plumbline::ui

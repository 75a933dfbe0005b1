#include "viewer/model/cues.h"

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

TEST(Cues, StayLongEnoughToBeReadAndGiveWayToTheNext) {
    path::Path path;
    path.cues = {
        {10, "Smoke on"}, {20, "one two three four five six seven eight nine ten"}, {23, "Next"}};
    EXPECT_EQ(cueAt(path, 9.9), nullptr);
    ASSERT_NE(cueAt(path, 10), nullptr);
    EXPECT_EQ(cueAt(path, 10)->words, "Smoke on");
    EXPECT_NE(cueAt(path, 12.9), nullptr);
    EXPECT_EQ(cueAt(path, 13.1), nullptr);
    EXPECT_DOUBLE_EQ(cueStay_s(path.cues[1]), 5);
    EXPECT_EQ(cueAt(path, 22.9)->words.substr(0, 3), "one");
    EXPECT_EQ(cueAt(path, 23.1)->words, "Next");
    EXPECT_EQ(cueAt(path::Path(), 5), nullptr);
}

}  // namespace
}  // namespace plumbline::model

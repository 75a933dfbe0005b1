#include "viewer/model/text_merge.h"

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

constexpr const char* kBase = "a\nb\nc\nd\ne\n";

TEST(TextMerge, ChangesOfDifferentLinesAreBothKept) {
    const MergedText merged = mergeTexts(kBase, "a\nB\nc\nd\ne\n", "a\nb\nc\nd\ne\nf\n");
    EXPECT_EQ(merged.text, "a\nB\nc\nd\ne\nf\n");
    EXPECT_FALSE(merged.clash);
}

TEST(TextMerge, LinesTakenOutAndPutIn) {
    const MergedText merged = mergeTexts(kBase, "a\nc\nd\ne\n", "a\nb\nc\nx\ny\nd\ne\n");
    EXPECT_EQ(merged.text, "a\nc\nx\ny\nd\ne\n");
    EXPECT_FALSE(merged.clash);
}

TEST(TextMerge, TheSameLineChangedTwiceIsAClashAndMineStays) {
    const MergedText merged = mergeTexts(kBase, "a\nb\nmine\nd\ne\n", "a\nb\ntheirs\nd\ne\n");
    EXPECT_TRUE(merged.clash);
    EXPECT_EQ(merged.text, "a\nb\nmine\nd\ne\n");
}

TEST(TextMerge, TheSameChangeTwiceIsNone) {
    const MergedText merged = mergeTexts(kBase, "a\nb\nnew\nd\ne\n", "a\nb\nnew\nd\ne\n");
    EXPECT_FALSE(merged.clash);
    EXPECT_EQ(merged.text, "a\nb\nnew\nd\ne\n");
}

TEST(TextMerge, OneSideOnlyIsThatSide) {
    const std::string theirs = "z\na\nb\nq\nd\n";
    EXPECT_EQ(mergeTexts(kBase, kBase, theirs).text, theirs);
    EXPECT_EQ(mergeTexts(kBase, theirs, kBase).text, theirs);
    EXPECT_EQ(mergeTexts("", "", theirs).text, theirs);
}

}  // namespace
}  // namespace plumbline::model

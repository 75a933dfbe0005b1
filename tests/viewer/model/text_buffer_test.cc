#include "viewer/model/text_buffer.h"

#include <random>

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

TEST(TextBuffer, AHundredRandomChangesAreUndoneAndRedone) {
    std::mt19937 random(7);
    TextBuffer buffer("line level 200 m\npull to up at 6 g\n");
    std::vector<std::string> states{buffer.text()};
    while (states.size() < 101) {
        buffer.endTyping();
        const std::size_t at = random() % (buffer.text().size() + 1);
        const std::string put(random() % 4, static_cast<char>('a' + random() % 26));
        buffer.replace(at, random() % 5, put);
        if (buffer.text() != states.back()) states.push_back(buffer.text());
    }
    for (std::size_t i = states.size() - 1; i > 0; --i) {
        ASSERT_TRUE(buffer.undo());
        EXPECT_EQ(buffer.text(), states[i - 1]);
    }
    EXPECT_FALSE(buffer.undo());
    for (std::size_t i = 1; i < states.size(); ++i) {
        ASSERT_TRUE(buffer.redo());
        EXPECT_EQ(buffer.text(), states[i]);
    }
    EXPECT_FALSE(buffer.redo());
}

TEST(TextBuffer, TypingIsUndoneLineByLine) {
    TextBuffer buffer;
    std::size_t at = 0;
    for (const char c : std::string("line 200 m\npull")) {
        buffer.replace(at++, 0, std::string(1, c), true);
    }
    buffer.undo();
    EXPECT_EQ(buffer.text(), "line 200 m");
    buffer.undo();
    EXPECT_EQ(buffer.text(), "");
}

TEST(TextBuffer, ADragOfANumberIsOneChange) {
    TextBuffer buffer("line 200 m");
    buffer.replace(5, 3, "205", true);
    buffer.replace(5, 3, "210", true);
    buffer.replace(5, 3, "90", true);
    EXPECT_EQ(buffer.text(), "line 90 m");
    buffer.endTyping();
    buffer.replace(5, 2, "95", true);
    buffer.undo();
    EXPECT_EQ(buffer.text(), "line 90 m");
    buffer.undo();
    EXPECT_EQ(buffer.text(), "line 200 m");
    EXPECT_FALSE(buffer.canUndo());
}

TEST(TextBuffer, AChangeAfterUndoDropsWhatCouldBeRedone) {
    TextBuffer buffer("a");
    buffer.replace(1, 0, "b");
    buffer.undo();
    buffer.replace(1, 0, "c");
    EXPECT_FALSE(buffer.canRedo());
    EXPECT_EQ(buffer.text(), "ac");
}

TEST(TextBuffer, BecomeChangesOnlyWhatDiffers) {
    TextBuffer buffer("one two three");
    buffer.become("one 2 three");
    EXPECT_EQ(buffer.undo(), 7U);  // behind "two"
    EXPECT_EQ(buffer.text(), "one two three");
}

TEST(TextBuffer, PlacesCountCodePoints) {
    const std::string text = "# \u00fc\u00f6 x\nab";
    EXPECT_EQ(byteOf(text, 1, 4), 4U);  // the second letter, each of two bytes
    EXPECT_EQ(byteOf(text, 1, 6), 7U);
    EXPECT_EQ(byteOf(text, 2, 2), 10U);
    EXPECT_EQ(byteOf(text, 2, 9), text.size());
    EXPECT_EQ(byteOf(text, 9, 1), text.size());
    EXPECT_EQ(codePointBefore(text, 6), 4U);
    EXPECT_EQ(codePointAfter(text, 2), 4U);
}

}  // namespace
}  // namespace plumbline::model

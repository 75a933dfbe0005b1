#include "engine/brief/script.h"

#include <gtest/gtest.h>

namespace plumbline::brief {
namespace {

TEST(Script, WordsAreCountedAsTheyAreSpoken) {
    EXPECT_EQ(wordsIn(""), 0);
    EXPECT_EQ(wordsIn("  one  two\tthree\n"), 3);
    EXPECT_EQ(wordsIn("Half-rolls, 3 of them: don't blink - ever!"), 7);
    EXPECT_EQ(wordsIn("Größe zählt nicht."), 3);
    EXPECT_EQ(wordsIn("Одна петля"), 2);
    // Three words of Arabic and a comma that stands alone.
    EXPECT_EQ(
        wordsIn("\u0623\u0631\u0628\u0639 \u0646\u0642\u0627\u0637 \u060c \u0635\u0645\u062a"), 3);
    // Eight Japanese signs with a full stop: four words' time.
    EXPECT_EQ(wordsIn("\u307e\u3063\u3059\u3050\u4e0a\u3078\u3069\u3046\u3002"), 4);
    EXPECT_EQ(wordsIn("\u2013 \u2026 ,"), 0);
}

TEST(Script, BracketsAreInstructionsAndTheirTimesPauses) {
    const Script script =
        readScript("Straight up. [silence 6 s] And down [applause] [wait 1 min].");
    EXPECT_EQ(script.words, 4);
    EXPECT_EQ(script.pauses_s, 66);
    ASSERT_EQ(script.parts.size(), 6U);
    EXPECT_EQ(script.parts[0].words, "Straight up.");
    EXPECT_TRUE(script.parts[0].spoken);
    EXPECT_EQ(script.parts[1].words, "silence 6 s");
    EXPECT_FALSE(script.parts[1].spoken);
    EXPECT_EQ(script.parts[3].words, "applause");
    // 4 words at 120 a minute are 2 s.
    EXPECT_DOUBLE_EQ(script.duration_s(120), 68);
}

TEST(Script, BracketsThatDoNotCloseOrAreEmptyDoNoHarm) {
    EXPECT_EQ(readScript("[").parts.size(), 0U);
    EXPECT_EQ(readScript("[]a[ ]").words, 1);
    EXPECT_EQ(readScript("say [silence 3 s").pauses_s, 3);
    EXPECT_EQ(readScript("]").words, 0);
    EXPECT_TRUE(readScript("").empty());
}

TEST(Script, ABreathIsKeptBeforeTheNextCue) {
    // 11 s less 1 s at 120 a minute: 20 words; 4 s of silence take 8 of them.
    EXPECT_EQ(wordsThatFit(11, 0, 120), 20);
    EXPECT_EQ(wordsThatFit(11, 4, 120), 12);
    EXPECT_EQ(wordsThatFit(0.5, 0, 120), 0);
}

}  // namespace
}  // namespace plumbline::brief

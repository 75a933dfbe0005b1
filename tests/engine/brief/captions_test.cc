#include "engine/brief/captions.h"

#include <gtest/gtest.h>

namespace plumbline::brief {
namespace {

Cue cueOf(double time_s, const std::string& narration, const std::string& words = "") {
    Cue cue;
    cue.time_s = time_s;
    cue.early_s = time_s - 2;
    cue.late_s = time_s + 3;
    cue.words = words;
    cue.script = readScript(narration);
    return cue;
}

/// Sixty words a minute: a word a second.
Narration slow(std::vector<Cue> cues) {
    Narration narration;
    narration.words_per_min = 60;
    narration.cues = std::move(cues);
    return narration;
}

TEST(Captions, WordsAreShownAsLongAsTheyAreSaid) {
    const auto captions = captionsOf(slow({cueOf(10, "One two three four.")}), 100);
    ASSERT_EQ(captions.size(), 1U);
    EXPECT_EQ(captions[0].text, "One two three four.");
    EXPECT_DOUBLE_EQ(captions[0].start_s, 10);
    EXPECT_DOUBLE_EQ(captions[0].stop_s, 14);
}

TEST(Captions, APauseKeepsItsTime) {
    const auto captions = captionsOf(slow({cueOf(10, "One two. [silence 6 s] Three.")}), 100);
    ASSERT_EQ(captions.size(), 2U);
    EXPECT_DOUBLE_EQ(captions[0].stop_s, 12);
    EXPECT_DOUBLE_EQ(captions[1].start_s, 18);
    EXPECT_EQ(captions[1].text, "Three.");
}

TEST(Captions, TooManyWordsEndWithTheNextCue) {
    const auto captions =
        captionsOf(slow({cueOf(10, "a b c d e f g h i j"), cueOf(15, "", "Now the loop")}), 100);
    ASSERT_EQ(captions.size(), 2U);
    EXPECT_DOUBLE_EQ(captions[0].stop_s, 15);
    EXPECT_DOUBLE_EQ(captions[1].start_s, 15);
    EXPECT_EQ(captions[1].text, "Now the loop");  // a cue without a script
}

TEST(Captions, LongWordsAreSetInTwoLinesAtMost) {
    std::string many;
    for (int i = 0; i < 60; ++i) many += "wonderful ";
    const std::string signs = [] {
        std::string text;
        for (int i = 0; i < 50; ++i) text += "\xE5\xAE\x99";
        return text;
    }();
    const auto captions = captionsOf(slow({cueOf(0, many), cueOf(200, signs)}), 1000);
    int words = 0;
    std::string all_signs;
    for (const Caption& caption : captions) {
        const std::size_t line = caption.text.find('\n');
        EXPECT_EQ(caption.text.find('\n', line + 1), std::string::npos);
        if (caption.start_s < 200) {
            EXPECT_LE(std::min(line, caption.text.size()), 42U);
            for (std::size_t at = caption.text.find("wonderful"); at != std::string::npos;
                 at = caption.text.find("wonderful", at + 1))
                ++words;
        } else {
            for (const char c : caption.text)
                if (c != '\n') all_signs += c;
        }
    }
    EXPECT_EQ(words, 60);
    EXPECT_EQ(all_signs, signs);  // without blanks, broken between signs
    for (std::size_t i = 1; i < captions.size(); ++i)
        EXPECT_GE(captions[i].start_s, captions[i - 1].stop_s - 1e-9);
}

TEST(Captions, BothFormatsAsTheirReadersWantThem) {
    Narration narration = slow({cueOf(3661.5, "Up & <over> --> down")});
    narration.cues[0].too_many = 2;
    Outline outline;
    outline.title = "Show --> one";
    outline.acts.resize(1);
    outline.acts[0].name = "Loop";
    const auto captions = captionsOf(narration, 4000);
    const std::string vtt = webVtt(captions, narration, outline);
    EXPECT_EQ(vtt.substr(0, 8), "WEBVTT\n\n");
    EXPECT_NE(vtt.find("1\n01:01:01.500 --> 01:01:04.500\nUp &amp; &lt;over&gt; --&gt; down\n\n"),
              std::string::npos)
        << vtt;
    EXPECT_NE(
        vtt.find("NOTE Loop: between 60:59 and 61:04 in 90 of 100 flights; too long by 2 words"),
        std::string::npos)
        << vtt;
    EXPECT_EQ(vtt.find("Show -->"), std::string::npos);
    EXPECT_EQ(srt(captions), "1\n01:01:01,500 --> 01:01:04,500\nUp & <over> --> down\n\n");
}

TEST(Captions, JapaneseIsPartedWhereAClauseEnds) {
    // 27 signs, of which a line has 21: parted behind the comma, and no line begins with a small
    // sign or a closing one.
    std::string text;
    for (int i = 0; i < 17; ++i) text += "\u98db";
    text += "\u3001";
    for (int i = 0; i < 9; ++i) text += "\u4e0a";
    auto captions = captionsOf(slow({cueOf(0, text)}), 100);
    ASSERT_EQ(captions.size(), 1U);
    const std::size_t line = captions[0].text.find('\n');
    ASSERT_NE(line, std::string::npos);
    EXPECT_EQ(captions[0].text.substr(line - 3, 3), "\u3001");
    text.clear();
    for (int i = 0; i < 21; ++i) text += "\u98db";
    text += "\u3063";  // a small sign, the first that has no room
    text += "\u98db\u98db";
    captions = captionsOf(slow({cueOf(0, text)}), 100);
    EXPECT_NE(captions[0].text.substr(captions[0].text.find('\n') + 1, 3), "\u3063");
}

}  // namespace
}  // namespace plumbline::brief

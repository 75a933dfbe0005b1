#include "engine/text/word_help.h"

#include <gtest/gtest.h>

#include "engine/text/figure_text.h"
#include "engine/text/words.h"

namespace plumbline::text {
namespace {

TEST(WordHelp, EveryFirstWordHasItsHelpAndAnExampleThatIsRead) {
    for (const std::string_view word : firstWords()) {
        const WordHelp* help = helpOnWord(word);
        ASSERT_NE(help, nullptr) << word;
        EXPECT_FALSE(help->about.empty());
        EXPECT_EQ(help->example.substr(0, word.size() + 1), std::string(word) + ' ');
        const ParsedText parsed = parseFigureText(help->example, "example", 1);
        EXPECT_EQ(describe(parsed.problems), "") << help->example;
        EXPECT_EQ(parsed.elements.size(), 1U);
    }
    EXPECT_EQ(helpOnWord("level"), nullptr);
}

}  // namespace
}  // namespace plumbline::text

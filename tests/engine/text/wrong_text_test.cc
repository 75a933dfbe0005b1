// Wrong figure text: place and words of each message, and texts made to break a reader.
#include <chrono>
#include <fstream>
#include <iterator>
#include <random>
#include <sstream>

#include <gtest/gtest.h>

#include "engine/text/figure_text.h"

namespace plumbline::text {
namespace {

std::string readFile(const std::string& name) {
    std::ifstream file(std::string(PLUMBLINE_TEST_DATA) + "/" + name, std::ios::binary);
    EXPECT_TRUE(file) << name;
    return {std::istreambuf_iterator<char>(file), {}};
}

/// What the comment `#! COLUMN: WORDS` of a line of bad/figure_text.txt promises.
struct Promise {
    std::int32_t line = 0;
    std::int32_t column = 0;
    std::string words;
};

std::vector<Promise> readPromises(const std::string& text) {
    std::vector<Promise> promises;
    std::istringstream lines(text);
    std::string line;
    for (std::int32_t number = 1; std::getline(lines, line); ++number) {
        const std::size_t mark = line.find("#! ");
        if (mark == std::string::npos) continue;
        const std::size_t colon = line.find(": ", mark);
        promises.push_back(
            {number, std::stoi(line.substr(mark + 3, colon - mark)), line.substr(colon + 2)});
    }
    return promises;
}

TEST(WrongText, EveryLineGetsItsMessage) {
    const std::string text = readFile("bad/figure_text.txt");
    const std::vector<Promise> promises = readPromises(text);
    ASSERT_GT(promises.size(), 100u);
    const ParsedText parsed = parseFigureText(text, "figure_text.txt", 1);
    EXPECT_TRUE(parsed.elements.empty());
    ASSERT_EQ(parsed.problems.size(), promises.size()) << describe(parsed.problems);
    for (std::size_t i = 0; i < promises.size(); ++i) {
        const std::string said = describe(parsed.problems[i]);
        EXPECT_EQ(parsed.problems[i].where.line, promises[i].line) << said;
        EXPECT_EQ(parsed.problems[i].where.column, promises[i].column) << said;
        EXPECT_NE(said.find(promises[i].words), std::string::npos) << said;
        EXPECT_FALSE(parsed.problems[i].remedy.empty()) << said;
    }
}

TEST(WrongText, TwoNumbersOutOfRangeGiveTwoProblems) {
    const ParsedText parsed = parseFigureText("pull 400 deg at 99 g", "t", 1);
    ASSERT_EQ(parsed.problems.size(), 2u);
    EXPECT_EQ(parsed.problems[0].where.column, 6);
    EXPECT_EQ(parsed.problems[1].where.column, 17);
}

TEST(WrongText, GoodLinesAroundAreKept) {
    const ParsedText parsed = parseFigureText("smoke on\nsmoke maybe\nsmoke off\n", "t", 1);
    ASSERT_EQ(parsed.elements.size(), 2u);
    EXPECT_EQ(parsed.elements[1].span.line, 3);
    EXPECT_EQ(parsed.problems.size(), 1u);
}

TEST(WrongText, ControlCharactersAndBrokenUtf8AreNamed) {
    using std::string_literals::operator""s;
    const auto whatOf = [](const std::string& text) {
        const ParsedText parsed = parseFigureText(text, "t", 1);
        return parsed.problems.size() == 1 ? describe(parsed.problems[0]) : "";
    };
    EXPECT_NE(whatOf("smoke \0 on"s).find("t:1:7: 'U+0000'"), std::string::npos);
    EXPECT_NE(whatOf("smoke \xFF on").find("t:1:7: 'byte 0xFF'"), std::string::npos);
    EXPECT_NE(whatOf("cue \"a\x01\"").find("t:1:7: 'U+0001'"), std::string::npos);
    EXPECT_NE(whatOf("cue \"\xC3\"").find("save the file as UTF-8"), std::string::npos);
    EXPECT_NE(whatOf("cue \"\xED\xA0\x80\"").find("save the file as UTF-8"), std::string::npos);
    EXPECT_NE(whatOf("smoke on\rsmoke off").find("t:1:9: 'U+000D'"), std::string::npos);
}

TEST(WrongText, MessagesStayShort) {
    const ParsedText parsed = parseFigureText(std::string(1000000, 'a'), "t", 1);
    ASSERT_EQ(parsed.problems.size(), 1u);
    EXPECT_LT(describe(parsed.problems[0]).size(), 300u);
}

/// Texts of about a megabyte, each made of one thing over and over.
std::vector<std::string> hostileTexts() {
    std::vector<std::string> texts;
    const std::vector<std::string> pieces = {std::string(1, '\0'),
                                             "a",
                                             "1",
                                             "1 ",
                                             "-",
                                             "/",
                                             "\"",
                                             "\"\" ",
                                             "\xFF",
                                             "\xE2",
                                             "€",
                                             " ",
                                             "\r",
                                             "#",
                                             "line ",
                                             "\n",
                                             "a\n",
                                             "\"\n",
                                             "pull",
                                             "1/",
                                             "inverted ",
                                             "smoke on\n",
                                             "line 1 m with ",
                                             "1 roll left then "};
    constexpr std::size_t kBytes = 1 << 20;
    for (const std::string& head : {std::string(), std::string("line 100 m with ")}) {
        for (const std::string& piece : pieces) {
            std::string text = head;
            while (text.size() < kBytes) text += piece;
            texts.push_back(text);
        }
    }
    return texts;
}

TEST(WrongText, HostileTextsEndSoon) {
    for (const std::string& text : hostileTexts()) {
        const auto start = std::chrono::steady_clock::now();
        const ParsedText parsed = parseFigureText(text, "t", 1);
        const std::chrono::duration<double> spent_s = std::chrono::steady_clock::now() - start;
        EXPECT_LE(parsed.problems.size(), 1001u);
        // A quadratic reader needs minutes for a megabyte; ours tens of milliseconds, and the
        // sanitizers some tens of times that.
        EXPECT_LT(spent_s.count(), 10) << text.substr(0, 30);
    }
}

TEST(WrongText, RandomChangesNeverBreakTheReader) {
    const std::string good = readFile("figure_text_all.txt");
    const std::string bad = readFile("bad/figure_text.txt");
    std::mt19937 random(20260627);
    const auto below = [&](std::size_t n) { return random() % n; };
    for (int round = 0; round < 3000; ++round) {
        std::string text = round % 2 == 0 ? good : bad;
        for (std::size_t change = 0, changes = 1 + below(12); change < changes; ++change) {
            const std::size_t at = below(text.size());
            switch (below(4)) {
                case 0:
                    text[at] = static_cast<char>(below(256));
                    break;
                case 1:
                    text.erase(at, 1 + below(20));
                    break;
                case 2:
                    text.insert(at, text.substr(below(text.size()), below(20)));
                    break;
                default:
                    text.insert(at, 1, static_cast<char>(below(256)));
            }
            if (text.empty()) text = "x";
        }
        const ParsedText parsed = parseFigureText(text, "t", 1);
        std::int32_t last_line = 0;
        for (const Problem& problem : parsed.problems) {
            EXPECT_GE(problem.where.line, last_line);
            EXPECT_GE(problem.where.column, 1);
            EXPECT_FALSE(problem.what.empty() || problem.remedy.empty());
            last_line = problem.where.line;
        }
        for (const Element& element : parsed.elements) {
            EXPECT_LT(element.span.column, element.span.end_column);
        }
    }
}

}  // namespace
}  // namespace plumbline::text

// Parameters of figure text: {name} stands for a value.
#include <gtest/gtest.h>

#include "engine/text/figure_text.h"

namespace plumbline::text {
namespace {

ParameterValue value(const std::string& name, const std::string& words) {
    return {name, words, {"r.toml", 30, 22}};
}

ElementBody onlyBody(const ParsedText& parsed) {
    EXPECT_EQ(describe(parsed.problems), "");
    EXPECT_EQ(parsed.elements.size(), 1u);
    return parsed.elements.size() == 1 ? parsed.elements[0].body : ElementBody{};
}

TEST(Parameters, StandForNumbersWordsAndRolls) {
    const std::vector<std::pair<std::string, std::vector<ParameterValue>>> texts = {
        {"pull to up at {entry_g}", {value("entry_g", "6 g")}},
        {"pull to {way} at 6 g", {value("way", "up")}},
        {"pull to {way} at {entry_g}", {value("entry_g", "6g"), value("way", "UP")}},
        {"{verb} to up at 6 g", {value("verb", "pull")}},
        {"pull to up {size}", {value("size", "at 6 g")}},
    };
    const ElementBody plain = onlyBody(parseFigureText("pull to up at 6 g", "t", 1));
    for (const auto& [text, values] : texts) {
        EXPECT_TRUE(onlyBody(parseFigureText(text, "t", 1, values)) == plain) << text;
    }
    const ElementBody rolls = onlyBody(
        parseFigureText("line up 200 m with 1/4 roll left then 1 1/2 rolls right", "t", 1));
    for (const char* text : {"line up 200 m with {a} then {b}", "line up 200 m with {a}then{b}"}) {
        EXPECT_TRUE(onlyBody(parseFigureText(
                        text, "t", 1,
                        {value("a", "1/4 roll left"), value("b", "1 1/2 rolls right")})) == rolls)
            << text;
    }
}

TEST(Parameters, AreLeftAloneInQuotesAndComments) {
    EXPECT_EQ(std::get<CueMark>(onlyBody(parseFigureText("cue \"{a}\" # {b}", "t", 1))).words,
              "{a}");
}

TEST(Parameters, ElementsKnowTheirWordsAndParameters) {
    const ParsedText parsed =
        parseFigureText("line {far}  with {roll} # c\nsmoke on\nline {far}", "t", 1,
                        {value("roll", "1/4 roll  left"), value("far", "200 m")});
    ASSERT_EQ(describe(parsed.problems), "");
    EXPECT_EQ(parsed.elements[0].words, "line 200 m with 1/4 roll left");
    EXPECT_EQ(parsed.elements[0].span.column, 1);
    EXPECT_EQ(parsed.elements[0].span.end_column, 24);
    EXPECT_EQ(parsed.elements[0].parameters, (std::vector<std::int32_t>{0, 1}));
    EXPECT_TRUE(parsed.elements[1].parameters.empty());
    EXPECT_EQ(parsed.elements[2].parameters, (std::vector<std::int32_t>{1}));
}

TEST(Parameters, AnElementIsReadAgainWithOtherValues) {
    std::vector<ParameterValue> values = {value("far", "200 m"), value("roll", "1/4 roll left")};
    const ParsedText parsed = parseFigureText("line {far} with {roll}", "t", 7, values);
    ASSERT_EQ(parsed.elements.size(), 1u);
    values[0].value = "300.5 m";
    const auto again = parseAgain(parsed.elements[0], "t", values);
    ASSERT_TRUE(again) << describe(again.error());
    Line expected = std::get<Line>(parsed.elements[0].body);
    expected.extent.distance_m = 300.5;
    EXPECT_EQ(std::get<Line>(again->body), expected);
    EXPECT_EQ(again->words, "line 300.5 m with 1/4 roll left");
    EXPECT_EQ(again->pattern, parsed.elements[0].pattern);
    EXPECT_EQ(again->span.line, 7);
    values[0].value = "-3 m";
    const auto wrong = parseAgain(parsed.elements[0], "t", values);
    ASSERT_FALSE(wrong);
    EXPECT_EQ(wrong.error()[0].where.line, 7);
    EXPECT_EQ(wrong.error()[0].where.column, 6);
}

/// The one problem of a text that has one.
std::string problemOf(const std::string& text, const std::vector<ParameterValue>& values) {
    const ParsedText parsed = parseFigureText(text, "f.toml", 4, values);
    EXPECT_EQ(parsed.problems.size(), 1u) << describe(parsed.problems);
    return describe(parsed.problems);
}

TEST(Parameters, AProblemInAValueStandsAtItsBracesAndNamesIt) {
    const std::string wrong_unit = problemOf("pull to up at {entry_g}", {value("entry_g", "5 kt")});
    EXPECT_EQ(wrong_unit.find("f.toml:4:15: 'kt' measures a speed"), 0u) << wrong_unit;
    EXPECT_NE(wrong_unit.find("(in {entry_g}, the value '5 kt' of r.toml:30:22)"),
              std::string::npos)
        << wrong_unit;
    EXPECT_NE(problemOf("pull to up at {a}", {value("a", "60 g")}).find("in {a}"),
              std::string::npos);
    EXPECT_NE(problemOf("pull to {a} at 5 g", {value("a", "upp")}).find("did you mean 'up'?"),
              std::string::npos);
    EXPECT_NE(problemOf("line {a}", {value("a", "5")}).find("'5' has no unit"), std::string::npos);
}

TEST(Parameters, AValueIsWordsAndNumbers) {
    for (const char* words : {"", "  ", "# 5 m", "5 m # far", "{b}", "\"", "5 m\nsmoke on", "½"}) {
        const std::string said = problemOf("line {a}", {value("a", words)});
        EXPECT_EQ(said.find("f.toml:4:6: "), 0u) << said;
        EXPECT_NE(said.find("in {a}"), std::string::npos) << said;
    }
    EXPECT_NE(problemOf("line {a}", {value("a", std::string(200, '1'))}).find("too long"),
              std::string::npos);
}

TEST(Parameters, AnUnknownNameListsTheKnownOnes) {
    const std::vector<ParameterValue> values = {value("entry_g", "5 g"), value("upline", "90 m")};
    const std::string near = problemOf("pull to up at {entri_g}", values);
    EXPECT_NE(near.find("did you mean {entry_g}?"), std::string::npos) << near;
    EXPECT_NE(near.find("{entry_g}, {upline}"), std::string::npos) << near;
    EXPECT_EQ(problemOf("pull to up at {radius}", values).find("did you mean"), std::string::npos);
}

TEST(Parameters, AnUnusedValueIsAnError) {
    EXPECT_EQ(problemOf("smoke on", {value("far", "200 m")}).find("r.toml:30:22: {far} stands no"),
              0u);
    // In a text with other problems the line that uses it may be the wrong one.
    EXPECT_EQ(problemOf("lime {far}", {value("far", "200 m")}).find("f.toml:4:1"), 0u);
}

TEST(Parameters, LargeTextsStayLinear) {
    std::string text;
    while (text.size() < (1u << 20)) text += "{a}";
    const ParsedText parsed = parseFigureText(text, "t", 1, {value("a", std::string(100, 'x'))});
    EXPECT_EQ(parsed.problems.size(), 1u);
}

}  // namespace
}  // namespace plumbline::text

#include "engine/routine/figure_file.h"

#include <random>

#include <gtest/gtest.h>

namespace plumbline::routine {
namespace {

const std::string kHead =
    "name = \"Hammerhead\"\n"
    "about = \"Straight up, pivot, down.\"\n"
    "skill = \"expert\"\n"
    "entry = { speed = \"160 kt\", height = \"300 ft\", attitude = \"inverted\" }\n"
    "text = \"\"\"\n"
    "pull to up at {entry_g}\n"
    "line up until 25 kt with {roll}\n"
    "pivot {side}\n"
    "pull to level at {entry_g}\n"
    "\"\"\"\n";
const std::string kParameters =
    "[[parameter]]\nname = \"entry_g\"\nvalue = \"6 g\"\nfrom = \"4 g\"\nto = \"7 g\"\n"
    "about = \"load\"\n"
    "[[parameter]]\nname = \"side\"\nvalue = \"left\"\nchoices = [\"left\", \"right\"]\n"
    "about = \"side of the pivot\"\n"
    "[[parameter]]\nname = \"roll\"\nvalue = \"1/4 roll left\"\n"
    "choices = [\"1/4 roll left\", \"1/2 roll right then 1/4 roll left\"]\nabout = \"roll\"\n";
constexpr std::int32_t kHeadLines = 10;

std::string problemsOf(const std::string& text,
                       const std::vector<text::ParameterValue>& values = {}) {
    return describe(readFigureFile(text, "f", values).problems);
}

/// The good file with one thing replaced.
std::string wrong(const std::string& from, const std::string& to) {
    std::string text = kHead + kParameters;
    const std::size_t at = text.find(from);
    EXPECT_NE(at, std::string::npos) << from;
    return problemsOf(text.replace(at, from.size(), to));
}

TEST(FigureFile, ReadsEveryKey) {
    const ReadFigure read = readFigureFile(kHead + kParameters, "f");
    EXPECT_EQ(describe(read.problems), "");
    const FigureFile& figure = read.figure;
    EXPECT_EQ(figure.name, "Hammerhead");
    EXPECT_EQ(figure.about, "Straight up, pivot, down.");
    EXPECT_EQ(figure.skill, Skill::Expert);
    EXPECT_DOUBLE_EQ(figure.entry.speed_mps, 160 * 1852.0 / 3600);
    EXPECT_DOUBLE_EQ(figure.entry.height_m, 91.44);
    EXPECT_TRUE(figure.entry.inverted);
    ASSERT_EQ(figure.parameters.size(), 3u);
    EXPECT_EQ(figure.parameters[0].name, "entry_g");
    EXPECT_EQ(figure.parameters[0].about, "load");
    ASSERT_TRUE(figure.parameters[0].range);
    EXPECT_DOUBLE_EQ(figure.parameters[0].range->from.value, 4);
    EXPECT_DOUBLE_EQ(figure.parameters[0].range->to.value, 7);
    EXPECT_EQ(figure.parameters[0].range->from.dimension, units::Dimension::Load);
    EXPECT_EQ(figure.parameters[1].choices, (std::vector<std::string>{"left", "right"}));
    ASSERT_EQ(figure.elements.size(), 4u);
    EXPECT_DOUBLE_EQ(std::get<text::Arc>(figure.elements[0].body).load_g, 6);
    EXPECT_TRUE(std::get<text::Pivot>(figure.elements[2].body).left);
    EXPECT_EQ(figure.elements[3].span.line, kHeadLines - 1);
    EXPECT_EQ(figure.values[2].value, "1/4 roll left");
}

TEST(FigureFile, TakesOtherValues) {
    const ReadFigure read =
        readFigureFile(kHead + kParameters, "f",
                       {{"side", "right", {"r", 3, 4}}, {"entry_g", "5.5 g", {"r", 5, 6}}});
    EXPECT_EQ(describe(read.problems), "");
    EXPECT_DOUBLE_EQ(std::get<text::Arc>(read.figure.elements[3].body).load_g, 5.5);
    EXPECT_FALSE(std::get<text::Pivot>(read.figure.elements[2].body).left);
    EXPECT_EQ(read.figure.values[0].value, "5.5 g");
    EXPECT_EQ(read.figure.parameters[0].value, "6 g");
}

TEST(FigureFile, RefusesValuesThatDoNotFit) {
    const auto said = [](const std::string& name, const std::string& value) {
        return problemsOf(kHead + kParameters, {{name, value, {"r", 3, 4}}});
    };
    EXPECT_EQ(said("entry_g", "8 g")
                  .find("r:3:4: \"8 g\" is outside the range of {entry_g}: "
                        "write \"4 g\" to \"7 g\""),
              0u);
    EXPECT_NE(said("entry_g", "3.99 g").find("outside"), std::string::npos);
    EXPECT_EQ(said("entry_g", "4 g"), "");
    EXPECT_EQ(said("entry_g", "7 g"), "");
    EXPECT_NE(said("entry_g", "5 m").find("which is a load"), std::string::npos);
    EXPECT_NE(said("entry_g", "5").find("with its unit"), std::string::npos);
    EXPECT_NE(said("side", "up").find("write one of \"left\", \"right\""), std::string::npos);
    EXPECT_NE(said("entri_g", "5 g").find("did you mean entry_g? it has entry_g, side, roll"),
              std::string::npos);
}

TEST(FigureFile, NamesWhatIsMissingOrWrong) {
    EXPECT_NE(problemsOf("x = 1\n").find("name is missing"), std::string::npos);
    EXPECT_NE(problemsOf("x = 1\n").find("[entry] is missing"), std::string::npos);
    EXPECT_NE(wrong("skill = \"expert\"\n", "").find("skill is missing"), std::string::npos);
    EXPECT_NE(wrong("\"expert\"", "\"experd\"")
                  .find("f:3:9: skill: \"experd\" is not known: did "
                        "you mean expert?"),
              std::string::npos);
    EXPECT_NE(wrong("up, pivot", "up,\\npivot").find("f:2:9: about has more than one line"),
              std::string::npos);
    EXPECT_NE(wrong("300 ft", "300 kt").find("a speed, not a length"), std::string::npos);
    EXPECT_NE(wrong("\"inverted\"", "\"upside\"").find("write upright or inverted"),
              std::string::npos);
    EXPECT_NE(wrong("pivot {side}", "pivot {site}")
                  .find("f:8:7: {site} has no value: did you mean "
                        "{side}?"),
              std::string::npos);
    EXPECT_NE(wrong("pivot {side}", "pivot left").find("f:19:9: {side} stands nowhere"),
              std::string::npos);
    EXPECT_NE(wrong("value = \"6 g\"", "value = \"8 g\"").find("f:13:9: \"8 g\" is outside"),
              std::string::npos);
    EXPECT_NE(wrong("value = \"left\"", "value = \"up\"").find("none of the choices"),
              std::string::npos);
    EXPECT_NE(wrong("from = \"4 g\"", "from = \"7 g\"").find("from more to less"),
              std::string::npos);
    EXPECT_NE(wrong("from = \"4 g\"", "from = \"4 kt\"").find("of different kinds"),
              std::string::npos);
    EXPECT_NE(wrong("from = \"4 g\"", "from = \"four\"").find("no quantity of figure text"),
              std::string::npos);
    EXPECT_NE(wrong("from = \"4 g\"\n", "").find("from is missing"), std::string::npos);
    EXPECT_NE(wrong("[\"left\", \"right\"]", "[]").find("no list"), std::string::npos);
    EXPECT_NE(wrong("choices = [\"left\"", "from = \"4 g\"\nchoices = [\"left\"").find("either"),
              std::string::npos);
    EXPECT_NE(wrong("name = \"side\"", "name = \"entry_g\"").find("already a parameter"),
              std::string::npos);
    EXPECT_NE(wrong("name = \"side\"", "name = \"si de\"").find("is no word"), std::string::npos);
}

TEST(FigureFile, TriesTheTextAtBothEndsAndEveryChoice) {
    // 20 g is more than figure text takes, whatever the range says.
    EXPECT_EQ(wrong("to = \"7 g\"", "to = \"20 g\"")
                  .find("f:15:6: with \"20 g\" the text cannot be understood: the load of 20 g"),
              0u);
    EXPECT_EQ(wrong("from = \"4 g\"", "from = \"0 g\"").find("f:14:8: with \"0 g\""), 0u);
    EXPECT_EQ(wrong("[\"left\", \"right\"]", "[\"left\", \"up\"]").find("f:20:20: with \"up\""),
              0u);
}

TEST(FigureFile, RandomChangesNeverBreakTheReader) {
    std::mt19937 random(20260627);
    const auto below = [&](std::size_t n) { return random() % n; };
    for (int round = 0; round < 3000; ++round) {
        std::string text = kHead + kParameters;
        for (std::size_t change = 0, changes = 1 + below(3); change < changes; ++change) {
            const std::size_t at = below(text.size());
            switch (below(3)) {
                case 0:
                    text[at] = static_cast<char>(below(128));
                    break;
                case 1:
                    text.erase(at, 1 + below(10));
                    break;
                default:
                    text.insert(at, text.substr(below(text.size()), below(10)));
            }
        }
        for (const Problem& problem : readFigureFile(text, "f").problems) {
            EXPECT_FALSE(problem.what.empty() || problem.remedy.empty()) << text;
        }
    }
}

}  // namespace
}  // namespace plumbline::routine

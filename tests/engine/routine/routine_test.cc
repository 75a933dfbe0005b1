#include "engine/routine/routine.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <fstream>
#include <iterator>
#include <random>
#include <sstream>

#include <gtest/gtest.h>

namespace plumbline::routine {
namespace {

const std::string kHead =
    "name = \"Evening show\"\n"
    "note = \"invented\"\n"
    "aircraft = \"a.aircraft.toml\"\n"
    "site = \"b.site.toml\"\n"
    "weather = \"c.weather.toml\"\n"
    "slot = \"12 min\"\n"
    "reserve = \"15 l\"\n"
    "[start]\n"
    "x = \"-900 m\"\n"
    "y = \"100 ft\"\n"
    "height = \"60 m\"\n"
    "heading = \"crowd-left\"\n"
    "speed = \"160 kt\"\n"
    "fuel = \"40 l\"\n"
    "power = \"80 %\"\n";
constexpr std::int32_t kHeadLines = 15;

std::string readFile(const std::string& name) {
    std::ifstream file(std::string(PLUMBLINE_TEST_DATA) + "/" + name, std::ios::binary);
    EXPECT_TRUE(file) << name;
    return {std::istreambuf_iterator<char>(file), {}};
}

TEST(Routine, ReadsEveryKey) {
    const ReadRoutine read =
        readRoutine(kHead +
                        "[[figure]]\nname = \"One\"\ntext = \"smoke on\"\nnarration = \"Smoke.\"\n"
                        "[[figure]]\nname = \"Two\"\ntext = '''\nline 100 m\nline 200 m\n'''\n",
                    "r");
    EXPECT_EQ(describe(read.problems), "");
    const Routine& r = read.routine;
    EXPECT_EQ(r.name, "Evening show");
    EXPECT_EQ(r.note, "invented");
    EXPECT_EQ(r.aircraft_file, "a.aircraft.toml");
    EXPECT_EQ(r.site_file, "b.site.toml");
    EXPECT_EQ(r.weather_file, "c.weather.toml");
    EXPECT_DOUBLE_EQ(r.slot_s, 720);
    EXPECT_DOUBLE_EQ(r.reserve_l, 15);
    EXPECT_DOUBLE_EQ(r.start.x_m, -900);
    EXPECT_DOUBLE_EQ(r.start.y_m, 30.48);
    EXPECT_DOUBLE_EQ(r.start.height_m, 60);
    EXPECT_FALSE(r.start.crowd_right);
    EXPECT_DOUBLE_EQ(r.start.speed_mps, 160 * 1852.0 / 3600);
    EXPECT_DOUBLE_EQ(r.start.fuel_l, 40);
    EXPECT_DOUBLE_EQ(r.start.power_frac, 0.8);
    ASSERT_EQ(r.figures.size(), 2u);
    EXPECT_EQ(r.figures[0].name, "One");
    EXPECT_EQ(r.figures[0].narration, "Smoke.");
    EXPECT_EQ(r.figures[0].text_line, kHeadLines + 3);
    EXPECT_EQ(r.figures[1].text, "line 100 m\nline 200 m\n");
    ASSERT_EQ(r.figures[1].elements.size(), 2u);
    EXPECT_EQ(r.figures[1].text_line, kHeadLines + 8);
}

TEST(Routine, DefaultsAreThoseOfTheHeader) {
    const ReadRoutine read = readRoutine(
        "name = 'n'\naircraft = 'a'\nsite = 's'\n[start]\nx = '0 m'\nheight = '60 m'\n"
        "heading = 'crowd-right'\nspeed = '80 m/s'\nfuel = '40 l'\n"
        "[[figure]]\nname = 'f'\ntext = 'smoke on'\n",
        "r");
    EXPECT_EQ(describe(read.problems), "");
    EXPECT_EQ(read.routine.weather_file, "");
    EXPECT_EQ(read.routine.slot_s, 0);
    EXPECT_EQ(read.routine.reserve_l, 0);
    EXPECT_EQ(read.routine.start.y_m, 0);
    EXPECT_EQ(read.routine.start.power_frac, 1);
    EXPECT_TRUE(read.routine.start.crowd_right);
}

TEST(Routine, NamesItsMusicAndWhenItBegins) {
    const std::string with = "music = 'evening.ogg'\nmusic_start = '-4 s'\n" + kHead;
    const ReadRoutine read = readRoutine(with + "[[figure]]\nname = 'f'\ntext = 'smoke on'\n", "r");
    EXPECT_EQ(describe(read.problems), "");
    EXPECT_EQ(read.routine.music_file, "evening.ogg");
    EXPECT_DOUBLE_EQ(read.routine.music_start_s, -4);
    const ReadRoutine wrong = readRoutine(
        "music_start = '2 h'\n" + kHead + "[[figure]]\nname = 'f'\ntext = 'smoke on'\n", "r");
    EXPECT_EQ(describe(wrong.problems).rfind("r:1:", 0), 0U) << describe(wrong.problems);
}

/// Line and column where `mark` stands in a text, the way an editor shows them.
std::pair<std::int32_t, std::int32_t> placeOf(const std::string& text, const std::string& mark) {
    const std::size_t at = text.find(mark);
    EXPECT_NE(at, std::string::npos);
    std::int32_t line = 1;
    std::int32_t column = 1;
    for (std::size_t i = 0; i < at; ++i) {
        if (text[i] == '\n') {
            ++line;
            column = 1;
        } else if ((static_cast<unsigned char>(text[i]) & 0xC0) != 0x80) {
            ++column;
        }
    }
    return {line, column};
}

TEST(Routine, PlacesAreThoseOfTheFileForEveryKindOfString) {
    const std::vector<std::string> strings = {
        "\"\"\"\nsmoke on\n  smoke wrong\n\"\"\"",     // the usual way
        "\"\"\"smoke on\nsmoke wrong\n\"\"\"",         // text begins behind the quotes
        "'''\nsmoke on\nsmoke wrong'''",               // literal, no last line end
        "'''smoke wrong'''",                           // literal, on one line
        "\"smoke wrong\"",                             // basic
        "'smoke wrong'",                               // literal
        "\"smoke on\\nsmoke wrong\"",                  // line end as an escape
        "\"smoke on\\u000Asmoke wrong\"",              // the same by its number
        "\"cue \\\"G\\u00FC\\\"\\n smoke wrong\"",     // escapes before
        "\"\"\"\ncue \"Grüße\"\nsmoke wrong\"\"\"",    // quotes within
        "\"\"\"\nsmoke \\\n     wrong\n\"\"\"",        // a line broken by a backslash
        "\"\"\"\n\n\n# ü\n\tsmoke wrong\n\n\"\"\"",    // blank lines, comment, tab
        "\"\"\"\\\n   smoke on\nsmoke wrong\n\"\"\"",  // backslash at once
    };
    for (const std::string& string : strings) {
        for (const bool crlf : {false, true}) {
            std::string text = kHead + "[[figure]]\nname = 'f'\n  text = " + string + "\n";
            if (crlf) {
                std::string with_returns;
                for (const char c : text) {
                    with_returns += c == '\n' ? std::string("\r\n") : std::string(1, c);
                }
                text = with_returns;
            }
            const ReadRoutine read = readRoutine(text, "r");
            ASSERT_EQ(read.problems.size(), 1u) << text << describe(read.problems);
            const auto [line, column] = placeOf(text, "wrong");
            EXPECT_EQ(read.problems[0].where.line, line) << string;
            EXPECT_EQ(read.problems[0].where.column, column) << string;
        }
    }
}

TEST(Routine, ElementsKnowTheirPlaceInTheFile) {
    const std::string text =
        kHead +
        "[[figure]]\nname = 'f'\ntext = \"\"\"\nsmoke on\n  pull to up at 6 g # c\n\"\"\"\n";
    const ReadRoutine read = readRoutine(text, "r");
    ASSERT_EQ(describe(read.problems), "");
    const text::Span span = read.routine.figures[0].elements[1].span;
    EXPECT_EQ(span.line, kHeadLines + 5);
    EXPECT_EQ(span.column, 3);
    EXPECT_EQ(span.end_column, 20);
    EXPECT_EQ(read.routine.figures[0].text_line, kHeadLines + 4);
}

/// Problems that the comments `#! COLUMN: WORDS` of a file promise.
struct Promise {
    std::int32_t line = 0;
    std::int32_t column = 0;
    std::string words;
};

TEST(WrongRoutine, EveryLineGetsItsMessage) {
    const std::string text = readFile("bad/keys.routine.toml");
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
    ASSERT_GT(promises.size(), 15u);
    const ReadRoutine read = readRoutine(text, "keys.routine.toml");
    // One more, for the site that is missing because its key is misspelt.
    ASSERT_EQ(read.problems.size(), promises.size() + 1) << describe(read.problems);
    EXPECT_NE(describe(read.problems[0]).find("site is missing"), std::string::npos);
    for (std::size_t i = 0; i < promises.size(); ++i) {
        const std::string said = describe(read.problems[i + 1]);
        EXPECT_EQ(read.problems[i + 1].where.line, promises[i].line) << said;
        EXPECT_EQ(read.problems[i + 1].where.column, promises[i].column) << said;
        EXPECT_NE(said.find(promises[i].words), std::string::npos) << said;
    }
    // What was understood is there all the same.
    ASSERT_EQ(read.routine.figures.size(), 5u);
    EXPECT_EQ(read.routine.figures[0].elements.size(), 1u);
    EXPECT_EQ(read.routine.figures[4].elements.size(), 1u);
}

TEST(WrongRoutine, HalfAFileSaysWhereItEnds) {
    const ReadRoutine read = readRoutine(readFile("bad/half.routine.toml"), "half.routine.toml");
    ASSERT_EQ(read.problems.size(), 1u);
    EXPECT_NE(describe(read.problems[0]).find("half.routine.toml:13:17: this is not TOML"),
              std::string::npos)
        << describe(read.problems);
}

TEST(WrongRoutine, AnEmptyFileNamesAllThatIsMissing) {
    const ReadRoutine read = readRoutine("# nothing\n", "r");
    const std::string said = describe(read.problems);
    for (const char* word : {"name is", "aircraft is", "site is", "[start]", "[[figure]]"}) {
        EXPECT_NE(said.find(word), std::string::npos) << word << " in " << said;
    }
}

TEST(WrongRoutine, TablesOfTheWrongKindAreNamed) {
    const auto said = [](const std::string& tail) {
        return describe(
            readRoutine("name = 'n'\naircraft = 'a'\nsite = 's'\n" + tail, "r").problems);
    };
    EXPECT_NE(said("start = 3\n").find("r:4:9: start is a number, not a table"), std::string::npos);
    EXPECT_NE(said("[figure]\nname = 'f'\n").find("r:4:1: figure is no list"), std::string::npos);
    EXPECT_NE(said("figure = [1]\n").find("r:4:10: figure is no list"), std::string::npos);
    EXPECT_NE(said("figure = []\n").find("no figures"), std::string::npos);
}

TEST(WrongRoutine, JunkEndsSoon) {
    std::string line_of_figures = "figure = [";
    while (line_of_figures.size() < 400000) line_of_figures += "{name='a',text='smoke on'},";
    const std::vector<std::string> texts = {
        std::string(1 << 20, '\0'),
        std::string(1 << 20, '['),
        std::string(1 << 20, '"'),
        "a = \"" + std::string(1 << 20, 'x'),
        std::string(1 << 20, 'a') + "=1",
        line_of_figures + "]\n",
        "\xFF\xFE",
    };
    for (const std::string& text : texts) {
        const auto start = std::chrono::steady_clock::now();
        EXPECT_FALSE(readRoutine(text, "r").problems.empty());
        const std::chrono::duration<double> spent_s = std::chrono::steady_clock::now() - start;
        EXPECT_LT(spent_s.count(), 10) << text.substr(0, 30);
    }
}

TEST(WrongRoutine, RandomChangesNeverBreakTheReader) {
    const std::string good =
        kHead +
        "[[figure]]\nname = \"One\"\ntext = \"\"\"\npull to up at 6 g\nline up until 25 kt\n"
        "cue \"Grüße\"\n\"\"\"\nnarration = 'x'\n";
    const std::string bad = readFile("bad/keys.routine.toml");
    std::mt19937 random(20260627);
    const auto below = [&](std::size_t n) { return random() % n; };
    for (int round = 0; round < 4000; ++round) {
        std::string text = round % 2 == 0 ? good : bad;
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
        const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
        const ReadRoutine read = readRoutine(text, "r");
        for (const Problem& problem : read.problems) {
            EXPECT_FALSE(problem.what.empty() || problem.remedy.empty());
            EXPECT_LE(problem.where.line, lines);
        }
        for (const RoutineFigure& figure : read.routine.figures) {
            for (const text::Element& element : figure.elements) {
                EXPECT_LE(element.span.line, lines);
                EXPECT_LT(element.span.column, element.span.end_column);
            }
        }
    }
}

}  // namespace
}  // namespace plumbline::routine

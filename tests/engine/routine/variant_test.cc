#include "engine/routine/variant.h"

#include <fstream>
#include <iterator>
#include <set>

#include "engine/text/mirror.h"
#include "engine/text/print.h"
#include "tests/engine/routine/routine_text.h"

namespace plumbline::routine {
namespace {

const std::string kShows =
    "[[show]]\nname = 'high'\n[[show]]\nname = 'low'\nabout = 'below 500 m'\n"
    "[[show]]\nname = 'flat'\n"
    "[[figure]]\nname = 'Always'\ntext = 'smoke on'\n"
    "[[figure]]\nname = 'Tall'\ntext = 'smoke off'\nshows = ['high']\nsubstitute = 'Medium'\n"
    "[[figure]]\nname = 'Extra'\ntext = 'power full'\nshows = ['high', 'low']\n"
    "[[substitute]]\nname = 'Medium'\ntext = 'power idle'\nshows = ['low']\n"
    "substitute = 'Little'\n"
    "[[substitute]]\nname = 'Little'\ntext = 'power 50 %'\n";

std::vector<std::string> namesOf(const Routine& routine) {
    std::vector<std::string> names;
    for (const RoutineFigure& figure : routine.figures) names.push_back(figure.name);
    return names;
}

TEST(Shows, KeepReplaceAndLeaveOut) {
    const Routine routine = readGood(kShows);
    ASSERT_EQ(routine.shows.size(), 3u);
    EXPECT_EQ(routine.shows[1].about, "below 500 m");
    ASSERT_EQ(routine.substitutes.size(), 2u);
    using Names = std::vector<std::string>;

    const auto high = selectShow(routine, "high");
    ASSERT_TRUE(high);
    EXPECT_EQ(namesOf(high->routine), (Names{"Always", "Tall", "Extra"}));
    EXPECT_TRUE(high->left_out.empty() && high->replaced.empty());
    EXPECT_TRUE(high->routine.substitutes.empty());

    const auto low = selectShow(routine, "low");
    ASSERT_TRUE(low);
    EXPECT_EQ(namesOf(low->routine), (Names{"Always", "Medium", "Extra"}));
    ASSERT_EQ(low->replaced.size(), 1u);
    EXPECT_EQ(low->replaced[0].figure, "Tall");
    EXPECT_EQ(low->replaced[0].by, "Medium");
    EXPECT_EQ(low->routine.figures[1].elements.size(), 1u);

    const auto flat = selectShow(routine, "flat");
    ASSERT_TRUE(flat);
    EXPECT_EQ(namesOf(flat->routine), (Names{"Always", "Little"}));
    EXPECT_EQ(flat->left_out, (Names{"Extra"}));
    EXPECT_EQ(flat->routine.name, "Trial");
}

TEST(Shows, AnUnknownNameListsTheKnownOnes) {
    const auto wrong = selectShow(readGood(kShows), "hihg");
    ASSERT_FALSE(wrong);
    EXPECT_EQ(describe(wrong.error()),
              "the routine has no show \"hihg\": did you mean high? its shows are high, low, flat");
    const auto none = selectShow(readGood("[[figure]]\nname = 'A'\ntext = 'smoke on'\n"), "high");
    ASSERT_FALSE(none);
    EXPECT_NE(describe(none.error()).find("add [[show]]"), std::string::npos);
    const auto empty =
        selectShow(readGood("[[show]]\nname = 'a'\n[[show]]\nname = 'b'\n"
                            "[[figure]]\nname = 'A'\ntext = 'smoke on'\nshows = ['a']\n"),
                   "b");
    ASSERT_FALSE(empty);
    EXPECT_NE(describe(empty.error()).find("has no figures"), std::string::npos);
}

TEST(Shows, AimsFollowTheFiguresInPlace) {
    const auto aim = [](const std::string& of) {
        return "[[figure]]\nname = 'For " + of +
               "'\ntext = 'line {run}'\nvalues = { run = '50 m' }\n[[figure.aim]]\nchange = 'run'\n"
               "from = '5 m'\nto = '90 m'\nwant = 'centre x 0 m'\nof = '" +
               of + "'\n";
    };
    const Routine routine = readGood(kShows + aim("Tall") + aim("Extra"));
    const auto flat = selectShow(routine, "flat");
    ASSERT_TRUE(flat);
    ASSERT_EQ(flat->routine.figures.size(), 4u);
    ASSERT_EQ(flat->routine.figures[2].aims.size(), 1u);
    EXPECT_EQ(flat->routine.figures[2].aims[0].of, "Little");
    EXPECT_TRUE(flat->routine.figures[3].aims.empty());
    EXPECT_EQ(flat->aims_left_out, (std::vector<std::string>{"For Extra"}));
    EXPECT_TRUE(selectShow(routine, "high")->aims_left_out.empty());
}

TEST(Shows, SayWhatIsWrong) {
    const std::string figure = "[[figure]]\nname = 'A'\ntext = 'smoke on'\n";
    const std::string shows = "[[show]]\nname = 'high'\n";
    const std::string stand_in = "[[substitute]]\nname = 'S'\ntext = 'smoke off'\n";
    const auto has = [](const std::string& tables, const std::string& words) {
        const std::string said = problemsOf(tables);
        EXPECT_NE(said.find(words), std::string::npos) << tables << said;
    };
    has(shows + shows + figure, "r:13:8: \"high\" is already a show");
    has(shows + figure + "shows = ['hihg']\n", "r:15:10: there is no show \"hihg\": did you mean");
    has(figure + "shows = ['high']\n", "add [[show]] with that name");
    has(shows + figure + "shows = 'high'\n", "shows is no list");
    has(shows + figure + "shows = []\n", "shows is no list");
    has(shows + figure + "shows = ['high']\nsubstitute = 'T'\n" + stand_in,
        "r:16:14: there is no substitute \"T\"");
    has(figure + "substitute = 'S'\n" + stand_in, "needs no substitute");
    has(figure + stand_in, "\"S\" stands in for no figure");
    has(figure + "[[substitute]]\nname = 'A'\ntext = 'smoke off'\n", "already the figure in line");
    has(shows + figure + "shows = ['high']\nsubstitute = 'S'\n" +
            "[[figure]]\nname = 'B'\ntext = 'smoke on'\nshows = ['high']\nsubstitute = 'S'\n" +
            stand_in,
        "r:21:14: \"S\" already stands in for \"A\"");
    has(shows + figure + stand_in + "shows = ['high']\nsubstitute = 'T'\n" +
            "[[substitute]]\nname = 'T'\ntext = 'smoke off'\nshows = ['high']\nsubstitute = 'S'\n",
        "stands in for itself");
}

/// Bodies, words and patterns: all that an element says.
void expectSame(const std::vector<text::Element>& a, const std::vector<text::Element>& b) {
    ASSERT_EQ(a.size(), b.size());
    for (std::size_t i = 0; i < a.size(); ++i) {
        EXPECT_TRUE(a[i].body == b[i].body) << a[i].words << "\n" << b[i].words;
        EXPECT_EQ(a[i].words, b[i].words);
        EXPECT_EQ(a[i].pattern, b[i].pattern);
    }
}

/// One of every element, and every form of each.
std::string everyElement() {
    std::ifstream file(std::string(PLUMBLINE_TEST_DATA) + "/figure_text_all.txt");
    EXPECT_TRUE(file);
    return {std::istreambuf_iterator<char>(file), {}};
}

TEST(Mirrored, ElementsAreWhatTheMirroredWordsSay) {
    const text::ParsedText parsed = text::parseFigureText(everyElement(), "t", 1);
    ASSERT_EQ(describe(parsed.problems), "");
    std::set<std::size_t> kinds;
    int changed = 0;
    for (const text::Element& element : parsed.elements) {
        kinds.insert(element.body.index());
        const std::string words = text::mirrorWords(element.words);
        const text::ParsedText other = text::parseFigureText(words, "t", 1);
        ASSERT_EQ(describe(other.problems), "") << words;
        const text::Element mirrored = text::mirrorElement(element);
        EXPECT_TRUE(mirrored.body == other.elements[0].body) << element.words << "\n" << words;
        EXPECT_EQ(mirrored.words, words);
        if (!(mirrored.body == element.body)) ++changed;
        // The canonical words say nothing of how conditions were written, and mirror alike.
        EXPECT_EQ(text::mirrorWords(text::printElement(element.body)),
                  text::printElement(mirrored.body));
    }
    EXPECT_EQ(kinds.size(), std::variant_size_v<text::ElementBody>) << "an element is missing";
    EXPECT_GT(changed, 30);
}

TEST(Mirrored, ChangesSidesAndPlacesOnly) {
    const auto mirror = [](const std::string& words) { return text::mirrorWords(words); };
    EXPECT_EQ(mirror("line until x -150 m with 1 roll left"),
              "line until x 150 m with 1 roll right");
    EXPECT_EQ(mirror("line until X +150m"), "line until X -150m");
    EXPECT_EQ(mirror("line until x 0 m"), "line until x 0 m");
    EXPECT_EQ(mirror("line until y 40 m"), "line until y 40 m");
    EXPECT_EQ(mirror("turn LEFT 360 deg with 4 rolls outward"),
              "turn right 360 deg with 4 rolls outward");
    EXPECT_EQ(mirror("expect canopy crowd-left"), "expect canopy crowd-right");
    EXPECT_EQ(mirror("ribbon left"), "ribbon left");
    EXPECT_EQ(mirror("cue \"left and right\""), "cue \"left and right\"");
    EXPECT_EQ(mirror("fall wheels-down"), "fall wheels-down");
}

TEST(Mirrored, TwiceIsTheRoutineItself) {
    Routine routine = readGood(
        kShows + "[[figure]]\nname = 'All'\ntext = '''\n" + everyElement() +
        "line {run} with {roll}\nline until x {place}\n'''\n"
        "values = { run = '50 m', roll = '1/4 roll left', place = '-70 m' }\n"
        "[[figure.aim]]\nchange = 'place'\nfrom = '-90 m'\nto = '50 m'\nwant = 'end x -30 m'\n"
        "[[figure.aim]]\nchange = 'run'\nfrom = '10 m'\nto = '50 m'\nwant = 'end speed 30 m/s'\n");
    routine.figures.back().narration = "from the left";
    const Routine once = mirrored(routine);
    EXPECT_DOUBLE_EQ(once.start.x_m, 900);
    EXPECT_FALSE(once.start.crowd_right);
    EXPECT_DOUBLE_EQ(once.start.speed_mps, routine.start.speed_mps);
    EXPECT_DOUBLE_EQ(once.figures.back().aims[0].value, 30);
    EXPECT_EQ(once.figures.back().aims[0].words, "end x 30 m");
    EXPECT_DOUBLE_EQ(once.figures.back().aims[0].from.value, -90);
    EXPECT_DOUBLE_EQ(once.figures.back().aims[1].value, 30);
    EXPECT_EQ(once.figures.back().aims[1].words, "end speed 30 m/s");
    const auto& place = std::get<text::Line>(once.figures.back().elements.back().body);
    EXPECT_DOUBLE_EQ(place.extent.until.value, 70);
    EXPECT_EQ(place.extent.until.words, "until x 70 m");

    const Routine twice = mirrored(once);
    EXPECT_DOUBLE_EQ(twice.start.x_m, -900);
    EXPECT_TRUE(twice.start.crowd_right);
    ASSERT_EQ(twice.figures.size(), routine.figures.size());
    for (std::size_t i = 0; i < twice.figures.size(); ++i) {
        expectSame(twice.figures[i].elements, routine.figures[i].elements);
        EXPECT_EQ(twice.figures[i].mirrored, false);
        for (std::size_t k = 0; k < twice.figures[i].aims.size(); ++k) {
            EXPECT_EQ(twice.figures[i].aims[k].value, routine.figures[i].aims[k].value);
            EXPECT_EQ(twice.figures[i].aims[k].words, routine.figures[i].aims[k].words);
        }
    }
    EXPECT_EQ(twice.figures.back().narration, "from the left");
}

TEST(Mirrored, ValuesAreSetAsTheyAreWritten) {
    Routine routine = readGood(
        "[[figure]]\nname = 'A'\ntext = 'line until x {place} with 1 roll left'\n"
        "values = { place = '-70 m' }\n");
    Routine other = mirrored(routine);
    EXPECT_EQ(describe(setValue(routine.figures[0], "place", -123.25)), "");
    EXPECT_EQ(describe(setValue(other.figures[0], "place", -123.25)), "");
    const auto& line = std::get<text::Line>(other.figures[0].elements[0].body);
    EXPECT_DOUBLE_EQ(line.extent.until.value, 123.25);
    EXPECT_GT(line.rolls.parts[0].angle_rad, 0);
    expectSame(mirrored(other).figures[0].elements, routine.figures[0].elements);
}

}  // namespace
}  // namespace plumbline::routine

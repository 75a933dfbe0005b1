// Figures told again without a plan: by their own name, or by none; never by another's.
#include "engine/review/known_figures.h"

#include <algorithm>
#include <map>
#include <set>

#include "engine/review/alone.h"
#include "engine/variant/shelf.h"
#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

const std::vector<KnownFigure>& shelf() {
    static const std::vector<KnownFigure> kShelf = shelfFigures();
    return kShelf;
}

Review alone(const path::Path& flight) {
    return reviewAlone(flight, 0, 8, test::demo().site, shelf());
}

TEST(KnownFigures, EachOfTheShelfIsItselfOrNoOther) {
    std::set<std::string> titles;
    for (const KnownFigure& figure : shelf()) titles.insert(figure.name);
    EXPECT_GT(titles.size(), 50U);
    std::size_t named = 0;
    for (const KnownFigure& figure : shelf()) {
        const std::string name = knownName(figure.pieces, shelf());
        EXPECT_TRUE(name.empty() || name == figure.name) << figure.name << " is called " << name;
        named += name == figure.name;
    }
    EXPECT_GT(named, titles.size() / 2);
}

TEST(KnownFigures, AreToldInAFlightWithOtherNumbersAndToTheOtherSide) {
    const path::Path flight = test::fly(
        {{"a",
          "line level 200 m\npull to up at 5.5 g\nline up until 28 kt\npivot right power 25 %\n"
          "line down 140 m\npull to level at 5 g\nline level 300 m"},
         {"b",
          "line level 150 m\npull 225 deg at 4.5 g\nline 45 deg down 130 m with 1/2 roll right\n"
          "pull to level at 5 g\nline level 300 m"}});
    const Review review = alone(flight);
    ASSERT_EQ(review.figures.size(), 2U);
    EXPECT_EQ(review.figures[0].name, "Hammerhead");
    EXPECT_EQ(review.figures[1].name, "Half Cuban eight");
}

// A whole show: wherever a name is given, the routine has a figure like it there.
TEST(KnownFigures, OfTheDemoAreWhereItsRoutineHasThem) {
    const load::Workspace& demo = test::demo();
    const path::Path flight =
        plumbline::fly::solve(demo.aircraft, demo.site, demo.weather, demo.routine).samplePath(50);
    const std::map<std::string, std::set<std::string>> also = {
        {"Half Cuban eight",
         {"Half Cuban", "Half Cuban left", "Half Cuban two", "Half Cuban three",
          "Half Cuban with points"}},
        {"Reverse half Cuban eight", {"Reverse half Cuban", "Reverse half Cuban two"}},
        {"Hammerhead with quarter rolls", {"Hammerhead"}},
        {"Hammerhead", {"Hammerhead", "Vertical points", "Hammerhead left"}},
        {"Tailslide", {"Tailslide", "Long tailslide"}},
        {"Goldfish", {"Goldfish"}},
        {"Diamond loop", {"Diamond"}},
        {"Loop", {"Loop on centre", "Outside loop"}},
        {"Outside loop", {"Outside loop"}},
        {"Humpty", {"Pull-over"}},
        {"Outside half loop", {"Outside half loop"}},
        {"Hesitation roll", {"Four-point roll", "Inverted four points"}},
        {"Slow roll", {"Slow roll"}},
        {"Inverted pass", {"Inverted pass"}},
        {"Knife-edge pass", {"Knife-edge pass"}},
        {"Rolls on a climb", {"Farewell"}}};
    std::map<std::string, int> times;
    std::set<std::string> titles;
    for (const KnownFigure& figure : shelf()) titles.insert(figure.name);
    for (const FigureReview& figure : alone(flight).figures) {
        std::string name = figure.name;
        if (const std::size_t blank = name.rfind(' ');
            name.find_first_not_of("0123456789", blank + 1) == std::string::npos)
            name.resize(blank);
        ++times[name];
        if (!titles.contains(name)) continue;  // by its kind
        ASSERT_TRUE(also.contains(name)) << name << " at " << figure.start_s << " s";
        const bool written =
            std::any_of(flight.figures.begin(), flight.figures.end(), [&](const path::Figure& f) {
                const double both_s =
                    std::min(f.stop_s, figure.stop_s) - std::max(f.start_s, figure.start_s);
                return both_s > 1 && also.at(name).contains(f.name);
            });
        EXPECT_TRUE(written) << name << " at " << figure.start_s << " s";
    }
    EXPECT_GE(times["Half Cuban eight"], 3);
    EXPECT_EQ(times["Reverse half Cuban eight"], 2);
    EXPECT_EQ(times["Tailslide"], 2);
    EXPECT_EQ(times["Goldfish"], 1);
    EXPECT_EQ(times["Diamond loop"], 1);
}

TEST(KnownFigures, WhatTheShelfHasNotIsCalledByItsKind) {
    const path::Path flight = test::fly({{"a",
                                          "line level 200 m\npull to 60 deg up at 4 g\n"
                                          "line 60 deg up by path 200 m\npush to level at 1 g\n"
                                          "line level 300 m"}});
    for (const FigureReview& figure : alone(flight).figures)
        for (const KnownFigure& known : shelf()) EXPECT_NE(figure.name, known.name);
}

TEST(KnownFigures, ADoubtHasNoName) {
    const std::vector<KnownFigure> twins = {{"One", shelf().front().pieces},
                                            {"Other", shelf().front().pieces}};
    EXPECT_EQ(knownName(shelf().front().pieces, twins), "");
    EXPECT_EQ(knownName({}, shelf()), "");
    EXPECT_EQ(knownName(shelf().front().pieces, {}), "");
}

}  // namespace
}  // namespace plumbline::review

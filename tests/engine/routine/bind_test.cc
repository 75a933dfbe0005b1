// Figures from files, their values and aims, shows.
#include <map>

#include "tests/engine/routine/routine_text.h"

namespace plumbline::routine {
namespace {

using text::Arc;

const std::string kLoop =
    "name = 'Loop'\nabout = 'Round.'\nskill = 'simple'\n"
    "entry = { speed = '75 m/s', height = '100 m', attitude = 'upright' }\n"
    "text = '''\nline level {run}\npull 360 deg radius {radius}\n'''\n"
    "[[parameter]]\nname = 'radius'\nvalue = '100 m'\nfrom = '80 m'\nto = '130 m'\nabout = 'r'\n"
    "[[parameter]]\nname = 'run'\nvalue = '50 m'\nfrom = '10 m'\nto = '900 m'\nabout = 'r'\n";

Problems bind(Routine& routine) {
    return bindFigures(
        routine,
        [](const std::string& name, const TextPosition& where) -> Expected<FigureSource, Problem> {
            if (name == "loop") return FigureSource{"shelf/loop", kLoop};
            return Unexpected(Problem{where, "no figure " + name, "name another"});
        });
}

TEST(Bind, TakesTheFileWithTheRoutinesValues) {
    Routine routine = readGood(
        "[[figure]]\nname = 'A'\nfigure = 'loop'\nvalues = { radius = '90 m' }\n"
        "[[figure]]\nname = 'B'\nfigure = 'loop'\n");
    EXPECT_TRUE(routine.figures[0].elements.empty());
    EXPECT_EQ(routine.figures[0].figure_file, "loop");
    EXPECT_EQ(describe(bind(routine)), "");
    ASSERT_EQ(routine.figures[0].elements.size(), 2u);
    EXPECT_DOUBLE_EQ(std::get<Arc>(routine.figures[0].elements[1].body).radius_m, 90);
    EXPECT_DOUBLE_EQ(std::get<Arc>(routine.figures[1].elements[1].body).radius_m, 100);
    EXPECT_EQ(routine.figures[1].elements[1].words, "pull 360 deg radius 100 m");
    // Elements of a file stand where the routine names it.
    EXPECT_EQ(routine.figures[1].elements[0].span.line, kShortHeadLines + 7);
    EXPECT_EQ(routine.figures[1].elements[0].span.column, 10);
}

TEST(Bind, TellsEachProblemWhereItStands) {
    Routine routine = readGood(
        "[[figure]]\nname = 'A'\nfigure = 'loop'\nvalues = { radius = '900 m', rum = '1 m' }\n"
        "[[figure]]\nname = 'B'\nfigure = 'lop'\n");
    const Problems problems = bind(routine);
    ASSERT_EQ(problems.size(), 3u) << describe(problems);
    EXPECT_EQ(describe(problems[0]).find("r:13:21: \"900 m\" is outside the range of {radius}"),
              0u);
    EXPECT_EQ(describe(problems[1]).find("r:13:36: rum is no parameter"), 0u);
    EXPECT_EQ(describe(problems[2]), "r:16:10: no figure lop: name another");
}

TEST(Routine, FigureTakesATextOrAFile) {
    EXPECT_NE(problemsOf("[[figure]]\nname = 'A'\n").find("text is missing"), std::string::npos);
    EXPECT_NE(problemsOf("[[figure]]\nname = 'A'\nfigure = 'loop'\ntext = 'smoke on'\n")
                  .find("r:13:1: the figure has a text and a figure file"),
              std::string::npos);
    EXPECT_NE(problemsOf("[[figure]]\nname = 'A'\nfigure = ''\n").find("figure is empty"),
              std::string::npos);
    EXPECT_NE(problemsOf("[[figure]]\nname = 'A'\nfigure = 3\n").find("not a text"),
              std::string::npos);
}

TEST(Routine, TextsTakeValuesToo) {
    Routine routine = readGood(
        "[[figure]]\nname = 'A'\ntext = 'pull to {way} at {entry}'\n"
        "values = { entry = '6 g', way = 'up' }\n");
    EXPECT_DOUBLE_EQ(std::get<Arc>(routine.figures[0].elements[0].body).load_g, 6);
    const std::string said = problemsOf(
        "[[figure]]\nname = 'A'\ntext = 'pull to up at {entry}'\nvalues = { entry = '6 kt' }\n");
    EXPECT_EQ(said.find("r:12:23: 'kt' measures a speed"), 0u) << said;
    EXPECT_NE(said.find("of r:13:20)"), std::string::npos) << said;
    EXPECT_NE(problemsOf("[[figure]]\nname = 'A'\ntext = 'smoke on'\nvalues = { e = '6 g' }\n")
                  .find("r:13:16: {e} stands nowhere"),
              std::string::npos);
    EXPECT_NE(problemsOf("[[figure]]\nname = 'A'\ntext = 'smoke on'\nvalues = { e = 6 }\n")
                  .find("r:13:16: e is a number, not a text"),
              std::string::npos);
    EXPECT_NE(problemsOf("[[figure]]\nname = 'A'\ntext = 'smoke on'\nvalues = 6\n")
                  .find("values is no table"),
              std::string::npos);
}

TEST(SetValue, ReadsAgainOnlyWhatDependsOnIt) {
    Routine routine = readGood("[[figure]]\nname = 'A'\nfigure = 'loop'\n");
    ASSERT_EQ(describe(bind(routine)), "");
    RoutineFigure& figure = routine.figures[0];
    // Any double, not only short decimals.
    const double third = 100 + 1.0 / 3;
    EXPECT_EQ(describe(setValue(figure, "radius", third)), "");
    EXPECT_EQ(std::get<Arc>(figure.elements[1].body).radius_m, third);
    EXPECT_DOUBLE_EQ(std::get<text::Line>(figure.elements[0].body).extent.distance_m, 50);
    EXPECT_EQ(figure.elements[1].span.line, kShortHeadLines + 3);
    // Nothing is changed by what cannot be.
    EXPECT_FALSE(setValue(figure, "radius", -3).empty());
    EXPECT_EQ(std::get<Arc>(figure.elements[1].body).radius_m, third);
    EXPECT_EQ(describe(setValue(figure, "run", 60)), "");
    EXPECT_EQ(std::get<Arc>(figure.elements[1].body).radius_m, third);
    EXPECT_FALSE(setValue(figure, "nothing", 60).empty());
}

TEST(SetValue, TakesEveryKindOfQuantity) {
    Routine routine = readGood(
        "[[figure]]\nname = 'A'\n"
        "values = { l = '1000 ft', t = '3 s', v = '60 kt', a = '30 deg', w = '90 deg/s', g = '4 g',"
        " p = '50 %' }\n"
        "text = '''\nline {l} with 1 roll left at {w}\nline {t}\nline until {v}\npower {p}\n"
        "pull {a} at {g}\n'''\n");
    RoutineFigure& figure = routine.figures[0];
    EXPECT_DOUBLE_EQ(std::get<text::Line>(figure.elements[0].body).extent.distance_m, 304.8);
    const std::map<std::string, double> values = {{"l", 1e-7},  {"t", 1.0 / 3}, {"v", 1.0 / 7},
                                                  {"a", 1.234}, {"w", 1.1},     {"g", 5.0 / 3},
                                                  {"p", 0.3}};
    for (const auto& [name, value] : values) {
        EXPECT_EQ(describe(setValue(figure, name, value)), "");
    }
    const auto& line = std::get<text::Line>(figure.elements[0].body);
    EXPECT_NEAR(line.extent.distance_m, 1e-7, 1e-14);
    EXPECT_EQ(line.rolls.parts[0].rate_radps, 1.1);
    EXPECT_EQ(std::get<text::Line>(figure.elements[1].body).extent.duration_s, 1.0 / 3);
    EXPECT_EQ(std::get<text::Line>(figure.elements[2].body).extent.until.value, 1.0 / 7);
    EXPECT_DOUBLE_EQ(std::get<text::PowerSetting>(figure.elements[3].body).frac, 0.3);
    EXPECT_EQ(std::get<Arc>(figure.elements[4].body).angle_rad, 1.234);
    EXPECT_EQ(std::get<Arc>(figure.elements[4].body).load_g, 5.0 / 3);
}

/// One figure with an aim made of these lines.
std::string withAim(const std::string& lines) {
    return "[[figure]]\nname = 'A'\ntext = 'line {run}'\nvalues = { run = '50 m' }\n"
           "[[figure.aim]]\n" +
           lines;
}

TEST(Aims, ReadEveryKey) {
    const Routine routine =
        readGood(withAim("change = 'run'\nfrom = '50 m'\nto = '0.9 km'\nwant = 'centre x -20 m'\n"
                         "of = 'B'\n[[figure]]\nname = 'B'\ntext = 'smoke on'\n"));
    ASSERT_EQ(routine.figures[0].aims.size(), 1u);
    const Aim& aim = routine.figures[0].aims[0];
    EXPECT_EQ(aim.change, "run");
    EXPECT_DOUBLE_EQ(aim.from.value, 50);
    EXPECT_DOUBLE_EQ(aim.to.value, 900);
    EXPECT_EQ(aim.from.dimension, units::Dimension::Length);
    EXPECT_EQ(aim.at, Aim::At::Centre);
    EXPECT_EQ(aim.quantity, Aim::Quantity::X);
    EXPECT_DOUBLE_EQ(aim.value, -20);
    EXPECT_EQ(aim.of, "B");
    EXPECT_EQ(aim.where.line, kShortHeadLines + 6);
}

TEST(Aims, WantPlacesHeightsAndSpeeds) {
    using At = Aim::At;
    using Quantity = Aim::Quantity;
    const std::vector<std::tuple<std::string, At, Quantity, double>> wants = {
        {"centre x 0 m", At::Centre, Quantity::X, 0},
        {"top 350 m", At::Top, Quantity::Height, 350},
        {"lowest 200 ft", At::Lowest, Quantity::Height, 60.96},
        {"end height 100 m", At::End, Quantity::Height, 100},
        {"end speed 80 m/s", At::End, Quantity::Speed, 80},
        {"end  x -1 km", At::End, Quantity::X, -1000},
        {"end y 40m", At::End, Quantity::Y, 40},
        {"start x 10 m", At::Start, Quantity::X, 10},
        {"start y 10 m", At::Start, Quantity::Y, 10},
        {"start height 10 m", At::Start, Quantity::Height, 10},
        {"start speed 36 km/h", At::Start, Quantity::Speed, 10}};
    for (const auto& [words, at, quantity, value] : wants) {
        const Routine routine = readGood(
            withAim("change = 'run'\nfrom = '50 m'\nto = '900 m'\nwant = '" + words + "'\n"));
        const Aim& aim = routine.figures[0].aims.at(0);
        EXPECT_EQ(aim.at, at) << words;
        EXPECT_EQ(aim.quantity, quantity) << words;
        EXPECT_DOUBLE_EQ(aim.value, value) << words;
        EXPECT_EQ(aim.words, words);
    }
}

TEST(Aims, SayWhatIsWrong) {
    const auto said = [](const std::string& change, const std::string& from, const std::string& to,
                         const std::string& want, const std::string& more = "") {
        return problemsOf(withAim("change = '" + change + "'\nfrom = '" + from + "'\nto = '" + to +
                                  "'\nwant = '" + want + "'\n" + more));
    };
    const auto wants = [&](const std::string& want) { return said("run", "50 m", "90 m", want); };
    const auto has = [](const std::string& text, const std::string& words) {
        EXPECT_NE(text.find(words), std::string::npos) << text;
    };
    has(wants("center x 0 m"),
        "r:18:8: want: \"center\" is no place of a figure: did you mean "
        "centre?");
    has(wants("middle 3 m"), "write centre x V");
    has(wants("centre y 0 m"), "\"y\" cannot be wanted there");
    has(wants("end hight 20 m"), "did you mean height?");
    has(wants("top 350"), "want: ");
    has(wants("top 350 kt"), "want: ");
    has(wants("top 35 km"), "out of range");
    has(wants("end speed 400 m/s"), "out of range");
    has(wants(""), "want is empty");
    has(said("rum", "50 m", "90 m", "top 9 m"),
        "r:15:10: \"rum\" is no parameter of this figure: "
        "did you mean run?");
    has(said("run", "50 kt", "90 kt", "top 9 m"), "{run} is \"50 m\", not a speed");
    has(said("run", "50 m", "90 kt", "top 9 m"), "of different kinds");
    has(said("run", "90 m", "50 m", "top 9 m"), "from more to less");
    has(said("run", "x", "50 m", "top 9 m"), "from: \"x\" is no quantity");
    has(said("run", "0 m", "50 m", "top 9 m"), "with 0 m the text cannot be understood");
    has(said("run", "5 m", "50 m", "top 9 m", "of = 'a'\n"), "r:19:6: there is no figure \"a\"");
    has(said("run", "5 m", "50 m", "top 9 m",
             "[[figure.aim]]\nchange = 'run'\nfrom = '5 m'\nto = '50 m'\nwant = 'top 9 m'\n"),
        "another aim changes {run} already");
    has(problemsOf("[[figure]]\nname = 'A'\ntext = 'smoke on'\n[[figure.aim]]\nchange = 'run'\n"
                   "from = '5 m'\nto = '50 m'\nwant = 'top 9 m'\n"),
        "write {run} in its text");
}

TEST(Aims, OfAFigureFileStayInItsRange) {
    const auto said = [](const std::string& from, const std::string& to) {
        Routine routine = readGood(
            "[[figure]]\nname = 'A'\nfigure = 'loop'\n[[figure.aim]]\nchange = 'run'\n"
            "from = '" +
            from + "'\nto = '" + to + "'\nwant = 'centre x 0 m'\n");
        return describe(bind(routine));
    };
    EXPECT_EQ(said("10 m", "900 m"), "");
    EXPECT_NE(said("9 m", "900 m").find("outside the range of {run}"), std::string::npos);
    EXPECT_NE(said("10 m", "901 m").find("within 10 m to 900 m"), std::string::npos);
}

}  // namespace
}  // namespace plumbline::routine

#include "viewer/model/outline.h"

#include <gtest/gtest.h>

namespace plumbline::model {
namespace {

path::Path threeFigures() {
    path::Path path;
    path.name = "Test";
    for (int i = 0; i < 3; ++i) {
        path::Figure figure;
        figure.name = std::string("Figure ") + static_cast<char>('A' + i);
        figure.start_s = 10.0 * i;
        figure.stop_s = 10.0 * i + 10;
        path.figures.push_back(figure);
    }
    path.samples.resize(2);
    path.samples[1].time_s = 30;
    return path;
}

TEST(Outline, WorstFindingStandsFirst) {
    std::vector<check::Finding> findings(4);
    findings[0].figure = "Figure B";
    findings[0].grade = check::Grade::Note;
    findings[1].figure = "Figure B";
    findings[1].grade = check::Grade::Cannot;
    findings[2].figure = "Figure B";
    findings[2].grade = check::Grade::Tight;
    findings[3].figure = "";  // of the routine as a whole
    const auto rows = makeOutline(threeFigures(), nullptr, findings);
    ASSERT_EQ(rows.size(), 3U);
    EXPECT_TRUE(rows[0].findings.empty());
    EXPECT_EQ(rows[1].findings, (std::vector<std::int32_t>{1, 2, 0}));
    EXPECT_TRUE(rows[2].findings.empty());
}

TEST(Outline, TextComesFromTheRoutineByName) {
    routine::Routine routine;
    routine.figures.resize(2);
    routine.figures[0].name = "Figure C";
    routine.figures[0].text = "\n  pull to up at 6 g\n    line up 50 m\n\n";
    routine.figures[1].name = "Figure Z";
    const auto rows = makeOutline(threeFigures(), &routine, {});
    EXPECT_TRUE(rows[0].text.empty());
    EXPECT_EQ(rows[2].text, (std::vector<std::string>{"pull to up at 6 g", "  line up 50 m"}));
}

TEST(Outline, RowAtATime) {
    const auto rows = makeOutline(threeFigures(), nullptr, {});
    EXPECT_EQ(rowAt(rows, 0), 0);
    EXPECT_EQ(rowAt(rows, 9.99), 0);
    EXPECT_EQ(rowAt(rows, 10), 1);
    EXPECT_EQ(rowAt(rows, 500), 2);
    EXPECT_EQ(rowAt(rows, -1), 0);
    EXPECT_EQ(rowAt({}, 0), -1);
}

TEST(Outline, APathWithoutFiguresIsOneRow) {
    path::Path path = threeFigures();
    path.figures.clear();
    const auto rows = makeOutline(path, nullptr, {});
    ASSERT_EQ(rows.size(), 1U);
    EXPECT_EQ(rows[0].name, "Test");
    EXPECT_EQ(rows[0].stop_s, 30);
    EXPECT_TRUE(makeOutline(path::Path(), nullptr, {}).empty());
}

TEST(Outline, TextLinesOfAnything) {
    EXPECT_TRUE(textLines("").empty());
    EXPECT_TRUE(textLines("\n\n  \n").empty());
    EXPECT_EQ(textLines("a\r\n b"), (std::vector<std::string>{"a", " b"}));
}

}  // namespace
}  // namespace plumbline::model

// A flight of a part of its plan: told as that, neither as another routine's nor as figures left
// out one by one.
#include <algorithm>

#include "engine/review/match.h"
#include "engine/review/match_part.h"
#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::demo;
using test::reviewOf;

const path::Path& plan() {
    static const path::Path kPlan =
        fly::solve(demo().aircraft, demo().site, demo().weather, demo().routine).samplePath(50);
    return kPlan;
}

/// The demo's figures from one to another, both included, counted from 1, and nothing else.
path::Path flown(std::size_t first, std::size_t last) {
    path::Path path = plan();
    path.origin = path::Origin::Recording;
    const double from_s = path.figures[first - 1].start_s, to_s = path.figures[last - 1].stop_s;
    std::erase_if(path.samples,
                  [&](const path::Sample& s) { return s.time_s < from_s || s.time_s > to_s; });
    for (path::Sample& s : path.samples) {
        s.time_s -= from_s;
        s.element = -1;
    }
    path.elements.clear();
    path.figures.clear();
    return path;
}

std::size_t saidMissing(const Review& review) {
    return static_cast<std::size_t>(std::count_if(
        review.remarks.begin(), review.remarks.end(),
        [](const Remark& r) { return r.words.find("not flown") != std::string::npos; }));
}

TEST(Part, AWholeFlightIsNone) {
    const Review r = reviewOf(plan(), plan());
    EXPECT_EQ(r.part_last, 0);
    EXPECT_EQ(partWords(r, plan().figures.size()), "");
}

TEST(Part, TheMiddleOfAPlanIsToldByItsNumbers) {
    const Review r = reviewOf(flown(12, 20), plan());
    EXPECT_FALSE(r.unlike_plan);
    EXPECT_EQ(r.part_first, 12);
    EXPECT_EQ(r.part_last, 20);
    EXPECT_EQ(partWords(r, plan().figures.size()),
              "flown: figures 12 to 20 of the plan's 36; not flown: 1 to 11 and 21 to 36");
    EXPECT_EQ(saidMissing(r), 0u);
    for (const FigureReview& f : r.figures) EXPECT_FALSE(f.out_of_order) << f.name;
}

TEST(Part, AFlightBrokenOffIsToldByWhereItEnded) {
    const Review r = reviewOf(flown(1, 23), plan());
    EXPECT_FALSE(r.unlike_plan);
    EXPECT_EQ(partWords(r, plan().figures.size()),
              "flown: figures 1 to 23 of the plan's 36; not flown: 24 to 36");
    EXPECT_EQ(saidMissing(r), 0u);
}

TEST(Part, AFewFiguresOfALongPlanAreNoOtherPlan) {
    const Review r = reviewOf(flown(30, 33), plan());
    EXPECT_FALSE(r.unlike_plan);
    EXPECT_EQ(r.part_first, 30);
    EXPECT_EQ(r.part_last, 33);
}

TEST(Part, StaysOneWithOtherPracticeBehindIt) {
    std::vector<Piece> pieces = piecesOf(flown(12, 20));
    const double end_s = pieces.back().stop_s;
    for (int turn = 0; turn < 3; ++turn)
        for (Piece piece : piecesOf(flown(1, 3))) {
            piece.start_s += end_s;
            piece.stop_s += end_s;
            // What the plan has nowhere: everything goes twice as far.
            piece.turned_rad *= 2;
            piece.rolled_rad = 4 * kPi;
            pieces.push_back(piece);
        }
    const Match match = matchFigures(plan(), piecesOf(plan()), pieces);
    EXPECT_FALSE(match.unlike);
    EXPECT_EQ(match.flown.first, 11);
    EXPECT_EQ(match.flown.last, 19);
}

TEST(Part, AnotherRoutineIsNoPart) {
    const path::Path other =
        test::fly({{"Upline",
                    "line level 300 m\npull to up at 5 g\nline up 250 m\npush to level at 1 "
                    "g\nline level 100 "
                    "m"},
                   {"Half Cuban",
                    "line level 200 m\npull 225 deg at 5 g\nline 45 deg down 150 m with 1/2 roll "
                    "left\npull to "
                    "level at 5 g"},
                   {"Loop", "line level 200 m\npull 360 deg at 4 g\nline level 100 m"}});
    const Review r = reviewOf(other, plan());
    EXPECT_TRUE(r.unlike_plan);
    EXPECT_EQ(r.part_last, 0);
}

TEST(Stretch, HasTheGreatestSum) {
    const auto of = [](const std::vector<int>& score) { return flownStretch(score); };
    EXPECT_EQ(of({-1, -1, 1, 1, -1, 1, -1, -1}).first, 2);
    EXPECT_EQ(of({-1, -1, 1, 1, -1, 1, 1, -1}).last, 6);
    EXPECT_EQ(of({-1, -1}).size(), 0);
    EXPECT_EQ(of({}).size(), 0);
}

}  // namespace
}  // namespace plumbline::review

// Tops against the gates of the plan, and a flight of another routine than its plan.
#include "engine/review/tops.h"

#include <algorithm>

#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::fly;
using test::reviewOf;
using test::Written;

const Written kCuban = {"Half Cuban",
                        "line level 150 m\npull 225 deg at 5 g\nline 45 deg down 150 m with 1/2 "
                        "roll left\npull to level at 5 g\nline level 100 m"};

// A gate of one's own at the plan's top, by so much below it; the flight is the plan, set lower.
TEST(Tops, BelowTheGateAreSaidWithTheirSize) {
    const path::Path plan = fly({kCuban});
    const auto top = std::max_element(
        plan.samples.begin(), plan.samples.end(),
        [](const auto& a, const auto& b) { return a.position_S_m.z < b.position_S_m.z; });
    check::Gate gate;
    gate.figure = "Half Cuban";
    gate.time_s = top->time_s;
    gate.complete_m = std::floor(top->position_S_m.z / 10) * 10 - 20;
    for (const double lower_m : {0.0, 10.0, 45.0}) {
        path::Path flight = plan;
        for (path::Sample& s : flight.samples) s.position_S_m.z -= lower_m;
        Review review = reviewOf(flight, plan);
        addTops(review, flight, plan, std::vector<check::Gate>{gate});
        ASSERT_EQ(review.tops.size(), 1U);
        const TopReview& found = review.tops.front();
        EXPECT_NEAR(found.time_s, top->time_s, 0.05);
        EXPECT_NEAR(found.height_m.flown, top->position_S_m.z - lower_m, 0.1);
        EXPECT_NEAR(found.height_m.planned, top->position_S_m.z, 0.1);
        EXPECT_GE(found.gate_m, gate.complete_m);  // shown to the safe side
        const bool said =
            std::any_of(review.remarks.begin(), review.remarks.end(), [](const Remark& r) {
                return r.words.find("below its gate") != std::string::npos && r.weight >= 1;
            });
        EXPECT_EQ(said, lower_m > 40) << lower_m;
    }
}

TEST(Tops, OfAFigureThatIsNotThereHaveNoGate) {
    const path::Path plan = fly({kCuban});
    check::Gate gate;
    gate.figure = "Another";
    gate.time_s = 5;
    Review review = reviewOf(plan, plan);
    addTops(review, plan, plan, std::vector<check::Gate>{gate});
    EXPECT_TRUE(review.tops.empty());
}

const std::vector<Written> kOneRoutine = {
    {"Loop", "line level 150 m\npull 360 deg at 4 g\nline level 100 m"},
    kCuban,
    {"Slow roll", "line level 100 m\nline level 300 m with 1 roll left\nline level 100 m"},
    {"Turn", "line level 200 m\nturn left 180 deg bank 65 deg\nline level 200 m"},
    {"Loop again", "line level 150 m\npull 360 deg at 4 g\nline level 100 m"},
    {"Points", "line level 100 m\nline level 400 m with 4 of 4 points left\nline level 100 m"}};
const std::vector<Written> kAnother = {
    {"Hammerhead",
     "line level 200 m\npull to up at 5 g\nline up until 25 kt with 1/4 roll left\n"
     "pivot left power 25 %\nline down 150 m with 1/4 roll right\npull to level at 5 g"},
    {"Turn", "line level 200 m\nturn left 180 deg bank 65 deg\nline level 200 m"},
    {"Tailslide",
     "line level 200 m\npull to up at 5 g\nline up until 60 kt\npower idle\n"
     "line up until 15 kt\nslide 90 m\nfall wheels-down\nline down 60 m\npower full\n"
     "pull to level at 5 g"},
    {"Hammerhead right",
     "line level 200 m\npull to up at 5 g\nline up until 25 kt with 1/2 roll left\n"
     "pivot right power 25 %\nline down 150 m\npull to level at 5 g"},
    {"Outside",
     "line level 100 m\npush 45 deg at 2 g\nline 45 deg down 60 m\npull to level at 4 g"},
    {"Turn right", "line level 200 m\nturn right 270 deg bank 65 deg\nline level 200 m"}};

TEST(AnotherRoutine, IsSaidPlainlyAndPairsOnlyWhatIsCertain) {
    const path::Path plan = fly(kOneRoutine), flight = fly(kAnother);
    const Review review = reviewOf(flight, plan);
    EXPECT_TRUE(review.unlike_plan);
    EXPECT_TRUE(review.figures.empty()) << review.figures.front().name;
    ASSERT_EQ(review.remarks.size(), 1U);  // once, not for every figure
    EXPECT_NE(review.remarks[0].words.find("does not look like this plan"), std::string::npos);
}

TEST(AnotherRoutine, AFlightWithoutFiguresIsSaidToBeOneAsWell) {
    const Review review =
        reviewOf(fly({{"There", "line level 800 m"},
                      {"Back", "turn left 180 deg bank 40 deg\nline level 800 m"}}),
                 fly(kOneRoutine));
    EXPECT_TRUE(review.unlike_plan);
    ASSERT_EQ(review.remarks.size(), 1U);
    EXPECT_NE(review.remarks[0].words.find("none of its figures is surely in it"),
              std::string::npos);
}

TEST(AnotherRoutine, APartOfTheRoutineIsNone) {
    const path::Path plan = fly(kOneRoutine);
    const Review review = reviewOf(fly({kOneRoutine[0], kOneRoutine[1]}), plan);
    EXPECT_FALSE(review.unlike_plan);
    EXPECT_EQ(review.figures.size(), 2U);
    EXPECT_EQ(review.missing.size(), kOneRoutine.size() - 2);
}

}  // namespace
}  // namespace plumbline::review

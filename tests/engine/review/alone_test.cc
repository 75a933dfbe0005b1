// Flights without a plan: what was written comes out again, named and measured.
#include "engine/review/alone.h"

#include <algorithm>
#include <cmath>

#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::fly;
using test::kDegree;
using test::Written;

Review aloneOf(const path::Path& flight) {
    const data::Aircraft& aircraft = test::demo().aircraft;
    return reviewAlone(flight, aircraft.aero.zero_lift_aoa_rad, aircraft.geometry.span_m,
                       test::demo().site);
}

TEST(Alone, FiguresAreNamedByWhatIsInThem) {
    const Review review = aloneOf(
        fly({{"a", "line level 200 m\npull 360 deg at 4 g\nline level 200 m"},
             {"b",
              "line level 200 m\npull to up at 5 g\nline up until 25 kt\npivot left power 25 %\n"
              "line down 150 m\npull to level at 5 g\nline level 200 m"},
             {"c", "line level 100 m\npull 360 deg at 4 g\nline level 200 m"}}));
    ASSERT_EQ(review.figures.size(), 3U);
    EXPECT_EQ(review.figures[0].name, "Loop");
    EXPECT_EQ(review.figures[1].name, "Hammerhead");
    EXPECT_EQ(review.figures[2].name, "Loop 2");
    EXPECT_FALSE(review.with_plan);
    EXPECT_EQ(review.arcs.size(), 2U);
    EXPECT_EQ(review.pivots.size(), 1U);
    EXPECT_TRUE(review.missing.empty());
}

TEST(Alone, ALeaningUplineIsFoundWithItsSize) {
    const Review review =
        aloneOf(fly({{"a",
                      "line level 200 m\npull to 86 deg up at 5 g\nline 86 deg up by nose 250 m\n"
                      "push to level at 1 g\nline level 200 m"}}));
    ASSERT_EQ(review.lines.size(), 1U);
    EXPECT_TRUE(review.lines[0].measure.vertical());
    EXPECT_NEAR(review.lines[0].measure.off_rad, 4 * kDegree, 0.2 * kDegree);
    ASSERT_FALSE(review.remarks.empty());
    EXPECT_NE(review.remarks[0].words.find("towards the wheels"), std::string::npos);
}

TEST(Alone, ALineThatIsNoneOfTheUsualIsNotJudged) {
    const Review review =
        aloneOf(fly({{"a",
                      "line level 200 m\npull to 65 deg up at 5 g\nline 65 deg up by nose 150 m\n"
                      "push to level at 1 g\nline level 200 m"}}));
    EXPECT_TRUE(review.lines.empty());
    EXPECT_TRUE(review.remarks.empty());
}

TEST(Alone, WithoutAttitudeItSaysSo) {
    path::Path flight = fly({{"a", "line level 500 m"}});
    flight.known.attitude = false;
    const Review review = aloneOf(flight);
    EXPECT_TRUE(review.figures.empty());
    ASSERT_EQ(review.notes.size(), 1U);
}

}  // namespace
}  // namespace plumbline::review

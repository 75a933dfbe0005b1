// Spins, tumbles, and verticals as they are seen.

#include <cmath>

#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::fly;
using test::kDegree;
using test::reviewOf;
using test::Written;

std::vector<Written> spinOf(const std::string& side_and_turns) {
    return {{"Spin", "line level 100 m\npower idle\nspin " + side_and_turns +
                         "\nline down 80 m\npower full\npull to level at 5 g\nline level 60 m"}};
}

TEST(Turns, ASpinIsCountedAndItsStopMeasured) {
    for (const char* side : {"left", "right"}) {
        const path::Path plan = fly(spinOf(std::string(side) + " 2 turns"), {}, 900);
        const Review own = reviewOf(plan, plan);
        ASSERT_EQ(own.turnings.size(), 1U) << side;
        const Review::Turning& spin = own.turnings.front();
        EXPECT_EQ(spin.motion, Motion::Spin);
        EXPECT_NEAR(spin.flown.turns, 2, 0.02);
        EXPECT_NEAR(*spin.too_far_rad, 0, 1e-9);
        // Whole turns end with the canopy ahead: where it was headed.
        EXPECT_NEAR(spin.flown.heading_change_rad, 0, 6 * kDegree) << side;
        EXPECT_GT(spin.flown.height_lost_m, 50);
        EXPECT_LT(spin.flown.height_lost_m, 500);
        EXPECT_TRUE(own.remarks.empty()) << own.remarks.front().words;

        // The nose is not quite down yet where it comes to rest: at 45 deg off some degrees of it.
        const path::Path more = fly(spinOf(std::string(side) + " 2 1/8 turns"), {}, 900);
        const Review late = reviewOf(more, plan);
        ASSERT_EQ(late.turnings.size(), 1U) << side;
        EXPECT_NEAR(*late.turnings.front().too_far_rad, 45 * kDegree, 7 * kDegree) << side;
        const path::Path less = fly(spinOf(std::string(side) + " 1 7/8 turns"), {}, 900);
        const Review early = reviewOf(less, plan);
        ASSERT_EQ(early.turnings.size(), 1U) << side;
        EXPECT_NEAR(*early.turnings.front().too_far_rad, -45 * kDegree, 7 * kDegree) << side;
        EXPECT_NEAR(late.turnings.front().flown.turns, 2.125, 0.03);
        EXPECT_NEAR(early.turnings.front().flown.turns, 1.875, 0.03);
    }
}

TEST(Turns, ATumbleIsCounted) {
    const path::Path plan =
        fly({{"Tumble",
              "line level 100 m\npull to up at 6 g\nline up until 55 kt\n"
              "tumble left 1 1/2 turns\npower idle\nline down until height 400 m\n"
              "power full\npull to level at 6 g\nline level 100 m"}},
            {}, 400);
    const Review own = reviewOf(plan, plan);
    ASSERT_EQ(own.turnings.size(), 1U);
    EXPECT_EQ(own.turnings.front().motion, Motion::Tumble);
    EXPECT_NEAR(own.turnings.front().flown.turns, 1.5, 0.5);
    EXPECT_FALSE(own.turnings.front().too_far_rad);
}

class SeenLine : public testing::Test {
protected:
    /// A line flown up at a place, with a lean.
    void SetUp() override {
        path::Sample s;
        s.position_S_m = Vec3(0, 0, 300);
        flight_.samples = {s};
        line_.climb_rad = 90 * kDegree;
    }
    path::Path flight_;
    LineMeasure line_;
};

TEST_F(SeenLine, FromTheGroundALeanAlongLooksLarger) {
    // Closed form: seen from below at the elevation e, the upright part is shortened by cos e and
    // the part across is not: tan(seen) = tan(lean) / cos(e).
    line_.along_rad = 3 * kDegree;
    for (const double away_m : {200.0, 400.0, 3000.0}) {
        const auto seen = seenFrom(Vec3(0, -away_m, 0), flight_, line_);
        ASSERT_TRUE(seen);
        const double e = std::atan2(300, away_m);
        EXPECT_NEAR(seen->from_vertical_rad, std::atan(std::tan(3 * kDegree) / std::cos(e)), 1e-6);
        EXPECT_EQ(seen->sigma_rad, 0);
    }
}

TEST_F(SeenLine, ALeanTowardsTheEyeIsNotSeen) {
    line_.across_rad = 5 * kDegree;
    EXPECT_NEAR(seenFrom(Vec3(0, -2000, 0), flight_, line_)->from_vertical_rad, 0, 1e-6);
    EXPECT_NEAR(seenFrom(Vec3(20000, 0, 300), flight_, line_)->from_vertical_rad, 5 * kDegree,
                1e-6);
}

TEST_F(SeenLine, IsAsUnsureAsTheLine) {
    line_.along_rad = 3 * kDegree;
    line_.sigma_rad = 0.5 * kDegree;
    const auto seen = seenFrom(Vec3(0, -3000, 300), flight_, line_);
    EXPECT_NEAR(seen->sigma_rad, 0.5 * kDegree, 0.02 * kDegree);
    // From close by the place counts too.
    flight_.samples.front().position_sigma_m = 5;
    EXPECT_GT(seenFrom(Vec3(0, -150, 0), flight_, line_)->sigma_rad, 0.6 * kDegree);
}

// Closed form: a line that climbs by c with the heading h from crowd right to the left, seen level
// along +y, has cos(c) cos(h) across the sight and sin(c) upwards.
TEST_F(SeenLine, A45LooksAsItsHeadingHasIt) {
    line_.climb_rad = 45 * kDegree;
    const Vec3 eye(0, -5000, 300);
    for (const double heading : {0.0, 30.0, -50.0, 180.0}) {
        line_.heading_rad = heading * kDegree;
        for (const double steeper : {0.0, 4.0, -3.0}) {
            line_.along_rad = steeper * kDegree;
            const auto seen = seenFrom(eye, flight_, line_);
            ASSERT_TRUE(seen);
            const auto look = [&](double climb) {
                return std::atan2(std::fabs(std::cos(climb) * std::cos(line_.heading_rad)),
                                  std::sin(climb));
            };
            EXPECT_NEAR(seen->from_vertical_rad, look((45 + steeper) * kDegree), 1e-6);
            EXPECT_NEAR(seen->true_from_vertical_rad, look(45 * kDegree), 1e-6);
            EXPECT_EQ(seen->steeper_rad() > 0, steeper > 0);
        }
    }
}

TEST_F(SeenLine, SeenFromItsEndOrLevelIsNoAngle) {
    line_.climb_rad = 45 * kDegree;
    line_.heading_rad = 90 * kDegree;  // away from the crowd, straight along the sight from below
    EXPECT_FALSE(seenFrom(Vec3(0, -300, 0), flight_, line_));
    EXPECT_TRUE(seenFrom(Vec3(0, -3000, 300), flight_, line_));
    line_.climb_rad = 0;
    EXPECT_FALSE(seenFrom(Vec3(3000, 0, 300), flight_, line_));
}

}  // namespace
}  // namespace plumbline::review

// Rolls by the attitudes around them, and how surely a line is known.

#include <algorithm>
#include <cmath>

#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::fly;
using test::kDegree;
using test::reviewOf;
using test::Written;

const std::vector<Written> kRolls = {
    {"Two rolls", "line level 150 m\nline level 500 m with 2 rolls left\nline level 100 m"},
    {"Points", "line level 500 m with 4 of 4 points right\nline level 100 m"},
    {"Snap",
     "pull to 45 deg up at 4 g\nline 45 deg up until 110 kt\npush to level at 1 g\npower 60 %\n"
     "line level 260 m with 1 snap right\npower full\nline level 60 m"}};

std::vector<Roll> rollsIn(const path::Path& path) {
    std::vector<Roll> rolls;
    for (const Piece& piece : piecesOf(path))
        rolls.insert(rolls.end(), piece.rolls.begin(), piece.rolls.end());
    return rolls;
}

TEST(Rolls, ComeOutWhole) {
    const std::vector<Roll> rolls = rollsIn(fly(kRolls));
    ASSERT_EQ(rolls.size(), 6U);
    EXPECT_NEAR(rolls[0].angle_rad, -720 * kDegree, 0.5 * kDegree);
    for (std::size_t i = 1; i < 5; ++i)
        EXPECT_NEAR(rolls[i].angle_rad, 90 * kDegree, 0.5 * kDegree) << i;
    // About the way, round which the nose goes: what the body turned about itself is less.
    EXPECT_NEAR(rolls[5].angle_rad, 360 * kDegree, 5 * kDegree);
    EXPECT_TRUE(rolls[5].snap);
    EXPECT_EQ(std::count_if(rolls.begin(), rolls.end(), [](const Roll& r) { return r.snap; }), 1);
}

TEST(Rolls, AreNoLongerForARateThatReadsTooMuch) {
    path::Path flight = fly(kRolls);
    const std::vector<Roll> right = rollsIn(flight);
    for (path::Sample& s : flight.samples) s.rate_B_radps.x *= 1.01;
    const std::vector<Roll> rolls = rollsIn(flight);
    ASSERT_EQ(rolls.size(), right.size());
    for (std::size_t i = 0; i < rolls.size(); ++i)  // by rate two rolls would be 7 deg too long
        EXPECT_NEAR(rolls[i].angle_rad, right[i].angle_rad, 0.2 * kDegree) << i;
}

TEST(LineSigma, IsTheRecordingsNotThePilots) {
    const std::vector<Written> up = {
        {"Upline", "line level 200 m\npull to up at 5 g\nline up 250 m\npush to level at 1 g"}};
    const path::Path plan = fly(up);
    path::Path flight = plan;
    for (path::Sample& s : flight.samples) {
        s.attitude_sigma_rad = static_cast<float>(0.1 * kDegree);
        // The pilot hunts by 2 deg, a few times on the line.
        const double lean = 2 * kDegree * std::sin(2 * kPi * 1.3 * s.time_s);
        s.q_SB = s.q_SB * Quat(std::cos(0.5 * lean), 0, std::sin(0.5 * lean), 0);
    }
    const Review review = reviewOf(flight, plan);
    ASSERT_EQ(review.lines.size(), 1U);
    const LineMeasure& m = review.lines.front().measure;
    EXPECT_NEAR(m.steady_rad, 2 * kDegree / std::sqrt(2.0), 0.3 * kDegree);
    EXPECT_GT(m.sigma_rad, 0.1 * kDegree);
    EXPECT_LT(m.sigma_rad, 0.2 * kDegree);
}

}  // namespace
}  // namespace plumbline::review

// Roundness against closed forms: circles, ellipses, and what an eye sees of them.
#include "engine/review/arcs.h"

#include <cmath>

#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::kDegree;

std::vector<std::pair<double, double>> ellipse(double x, double y, double a, double b,
                                               double from_rad = 0, double to_rad = 2 * kPi) {
    std::vector<std::pair<double, double>> points;
    for (int i = 0; i < 200; ++i) {
        const double angle = from_rad + (to_rad - from_rad) * i / 200;
        points.emplace_back(x + a * std::cos(angle), y + b * std::sin(angle));
    }
    return points;
}

TEST(Circle, OfACircleIsItself) {
    const auto whole = circleThrough(ellipse(300, -40, 90, 90));
    ASSERT_TRUE(whole.has_value());
    EXPECT_NEAR(whole->x, 300, 1e-9);
    EXPECT_NEAR(whole->y, -40, 1e-9);
    EXPECT_NEAR(whole->radius, 90, 1e-9);
    EXPECT_NEAR(whole->unround(), 0, 1e-11);
    const auto half = circleThrough(ellipse(300, -40, 90, 90, 0.3, 0.3 + kPi));
    ASSERT_TRUE(half.has_value());
    EXPECT_NEAR(half->radius, 90, 1e-8);
}

TEST(Circle, OfAnEllipseSpansItsAxes) {
    const auto c = circleThrough(ellipse(0, 0, 100, 80));
    ASSERT_TRUE(c.has_value());
    EXPECT_NEAR(c->most, 100, 1e-9);
    EXPECT_NEAR(c->least, 80, 1e-9);
    // Least squares in the squared radius: the mean of the squares of both axes.
    EXPECT_NEAR(c->radius, std::sqrt(0.5 * (100 * 100 + 80 * 80)), 1e-9);
}

TEST(Circle, OfALineThereIsNone) {
    EXPECT_FALSE(circleThrough(ellipse(0, 0, 100, 0)).has_value());
    EXPECT_FALSE(circleThrough(std::vector<std::pair<double, double>>{{0, 0}, {1, 1}}).has_value());
}

/// A loop in the plane of the show line, with the heights stretched.
path::Path loopOf(double radius_m, double stretch) {
    path::Path path;
    for (int i = 0; i <= 500; ++i) {
        const double angle = 2 * kPi * i / 500;
        path::Sample s;
        s.time_s = 0.02 * i;
        s.position_S_m =
            Vec3(radius_m * std::sin(angle), 200, 150 + stretch * radius_m * (1 - std::cos(angle)));
        path.samples.push_back(s);
    }
    return path;
}

TEST(Arcs, ARoundLoopIsRoundAndSeenSoFromFarInFrontOnly) {
    const path::Path path = loopOf(90, 1);
    Piece piece;
    piece.motion = Motion::Pull;
    piece.turned_rad = 2 * kPi;
    piece.stop_s = 10;
    const auto far = measureArc(path, piece, Vec3(0, -20000, 240));
    ASSERT_TRUE(far.has_value());
    EXPECT_NEAR(far->radius_m, 90, 0.1);
    EXPECT_LT(far->unround, 2e-3);
    EXPECT_LT(far->seen_unround.value(), 2e-3);
    // From 45 deg to the side its width is foreshortened by the cosine.
    const double far_m = 20000;
    const auto side = measureArc(path, piece, Vec3(-far_m, 200 - far_m, 240));
    ASSERT_TRUE(side.has_value());
    const double narrow = std::cos(45 * kDegree);
    EXPECT_NEAR(side->seen_unround.value(), (1 - narrow) / std::sqrt(0.5 * (1 + narrow * narrow)),
                0.02);
    // Along its plane it is no loop to the eye.
    const auto edge = measureArc(path, piece, Vec3(-far_m, 200, 240));
    ASSERT_TRUE(edge.has_value());
    EXPECT_FALSE(edge->seen_unround.has_value());
    const auto tall = measureArc(loopOf(90, 1.2), piece, Vec3(0, -20000, 240));
    EXPECT_NEAR(tall->most_m / tall->least_m, 1.2, 0.01);
}

TEST(Arcs, LittleOnesAreNotMeasured) {
    Piece piece;
    piece.motion = Motion::Pull;
    piece.turned_rad = 90 * kDegree;
    piece.stop_s = 5;
    EXPECT_FALSE(measureArc(loopOf(90, 1), piece, Vec3(0, -300, 2)).has_value());
}

// The solver's own figures: a loop by radius is round, one at a constant reading of the meter is
// not.
TEST(Arcs, OfFlownLoopsFollowHowTheyWereAsked) {
    const auto unround = [](const std::string& how) {
        const path::Path path =
            test::fly({{"Loop", "line level 300 m\npull 360 deg " + how + "\nline level 200 m"}});
        for (const Piece& piece : piecesOf(path))
            if (const auto arc = measureArc(path, piece, Vec3(0, -200, 2))) return arc->unround;
        return 1.0;
    };
    EXPECT_LT(unround("radius 110 m"), 0.05);
    EXPECT_GT(unround("at 4 g"), 0.2);
}

}  // namespace
}  // namespace plumbline::review

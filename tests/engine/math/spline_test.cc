#include "engine/math/spline.h"

#include <cmath>

#include <gtest/gtest.h>

namespace plumbline {
namespace {

TEST(UniformSpline, MeetsItsPointsAndConvergesWithOrderFour) {
    double last = 0;
    for (const int n : {20, 40, 80}) {
        std::vector<double> values;
        const double dx = 3.0 / n;
        for (int i = 0; i <= n; ++i) values.push_back(std::sin(i * dx));
        const UniformSpline spline(0, dx, values);
        EXPECT_NEAR(spline(dx * (n / 2)), std::sin(dx * (n / 2)), 1e-15);
        double worst = 0;
        for (double x = 1.0; x < 2.0; x += 0.0137)
            worst = std::max(worst, std::fabs(spline(x) - std::sin(x)));
        if (last > 0) {
            EXPECT_NEAR(std::log2(last / worst), 4, 0.4);
        }
        last = worst;
    }
}

TEST(UniformSpline, FirstAndSecondDerivativesAreContinuousAtKnots) {
    std::vector<double> values{0, 1, -2, 3, 0.5, 4};
    const UniformSpline spline(1, 0.5, values);
    for (double knot = 1.5; knot < 3.3; knot += 0.5) {
        constexpr double e = 1e-6;
        EXPECT_NEAR(spline.derivative(knot - 1e-9), spline.derivative(knot + 1e-9), 1e-6);
        const double left = (spline.derivative(knot - e) - spline.derivative(knot - 2 * e)) / e;
        const double right = (spline.derivative(knot + 2 * e) - spline.derivative(knot + e)) / e;
        EXPECT_NEAR(left, right, 1e-3 * (1 + std::fabs(left)));
    }
}

TEST(Fade, StartsAsAskedAndEndsAtRest) {
    const Fade fade{0.25, 0.08, -0.5};
    EXPECT_DOUBLE_EQ(fade.value(0), 0.08);
    EXPECT_DOUBLE_EQ(fade.rate(0), -0.5);
    constexpr double e = 1e-7;
    EXPECT_NEAR(fade.value(0.25 - e), 0, 1e-12);
    EXPECT_NEAR(fade.rate(0.25 - e), 0, 1e-9);
    EXPECT_NEAR((fade.value(0.1 + e) - fade.value(0.1 - e)) / (2 * e), fade.rate(0.1), 1e-7);
}

// Half of rate times time is exactly what a rate takes to be ramped out by a smooth step: no
// overshoot, no twitch.
TEST(Fade, RampsARateOutWithoutPassingZero) {
    const double rate = 1.0, duration = 0.25;
    const Fade fade{duration, -0.5 * rate * duration, rate};
    double last = fade.value(0);
    for (double t = 0.001; t <= duration; t += 0.001) {
        EXPECT_GE(fade.value(t), last);
        EXPECT_LE(fade.value(t), 1e-15);
        last = fade.value(t);
    }
}

TEST(SmoothStep, IntegralMatchesItsSlope) {
    EXPECT_DOUBLE_EQ(smoothStepIntegral(1), 0.5);
    constexpr double e = 1e-6;
    EXPECT_NEAR((smoothStepIntegral(0.3 + e) - smoothStepIntegral(0.3 - e)) / (2 * e),
                smoothStep(0.3), 1e-9);
}

}  // namespace
}  // namespace plumbline

#include "engine/earth/wind.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::earth {
namespace {

const std::vector<WindPoint> kPoints = {
    {10, {4, 1, 0}}, {60, {6, 0, 0}}, {110, {8, -1, 0}}, {400, {7, -9, 0}}, {420, {7, 3, 0}}};

TEST(WindProfile, IsCalmWithoutPoints) {
    EXPECT_TRUE(WindProfile().calm());
    EXPECT_TRUE(WindProfile({{0, Vec3(0)}, {100, Vec3(0)}}).calm());
    EXPECT_EQ(WindProfile().at(50), Vec3(0));
    EXPECT_EQ(WindProfile().gradient(50), Vec3(0));
}

TEST(WindProfile, IsConstantWithOnePoint) {
    const WindProfile wind({{10, {3, -2, 0}}});
    EXPECT_FALSE(wind.calm());
    for (double height : {-5.0, 10.0, 900.0}) {
        EXPECT_EQ(wind.at(height), Vec3(3, -2, 0));
        EXPECT_EQ(wind.gradient(height), Vec3(0));
    }
}

TEST(WindProfile, GoesThroughItsPointsAndIsFlatBeyond) {
    const WindProfile wind(kPoints);
    for (const WindPoint& point : kPoints)
        EXPECT_NEAR(glm::distance(wind.at(point.height_m), point.velocity_S_mps), 0, 1e-13);
    EXPECT_EQ(wind.at(-3), kPoints.front().velocity_S_mps);
    EXPECT_EQ(wind.at(5000), kPoints.back().velocity_S_mps);
    EXPECT_EQ(wind.gradient(5000), Vec3(0));
}

TEST(WindProfile, NeverOvershootsNeighbouringPoints) {
    const WindProfile wind(kPoints);
    for (std::size_t i = 0; i + 1 < kPoints.size(); ++i)
        for (double u = 0; u <= 1; u += 1.0 / 64)
            for (int axis = 0; axis < 2; ++axis) {
                const double a = kPoints[i].velocity_S_mps[axis];
                const double b = kPoints[i + 1].velocity_S_mps[axis];
                const double height =
                    kPoints[i].height_m + u * (kPoints[i + 1].height_m - kPoints[i].height_m);
                EXPECT_GE(wind.at(height)[axis], std::min(a, b) - 1e-12);
                EXPECT_LE(wind.at(height)[axis], std::max(a, b) + 1e-12);
            }
}

TEST(WindProfile, IsStraightBetweenPointsOnAStraightLine) {
    const WindProfile wind({{0, {0, 0, 0}}, {100, {1, 0, 0}}, {200, {2, 0, 0}}, {300, {3, 0, 0}}});
    EXPECT_NEAR(wind.at(137).x, 1.37, 1e-14);
    EXPECT_NEAR(wind.gradient(137).x, 0.01, 1e-16);
}

TEST(WindProfile, GradientIsTheDerivative) {
    const WindProfile wind(kPoints);
    for (double height = 3; height < 430; height += 7.3) {
        const double e = 1e-4;
        const Vec3 difference = (wind.at(height + e) - wind.at(height - e)) / (2 * e);
        EXPECT_NEAR(glm::distance(wind.gradient(height), difference), 0, 1e-7) << height;
    }
}

TEST(WindProfile, SecondDerivativeHasNoJumpAtThePoints) {
    const WindProfile wind(kPoints);
    for (const WindPoint& point : kPoints) {
        // One-sided second derivatives go to zero as the step does.
        const double e = 1e-3;
        const Vec3 at = wind.gradient(point.height_m);
        EXPECT_NEAR(glm::distance(wind.gradient(point.height_m + e), at) / e, 0, 1e-3);
        EXPECT_NEAR(glm::distance(wind.gradient(point.height_m - e), at) / e, 0, 1e-3);
    }
}

}  // namespace
}  // namespace plumbline::earth

#include "engine/math/frames.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"

namespace plumbline {
namespace {

void expectNear(const Vec3& a, const Vec3& b, double tolerance = 1e-14) {
    EXPECT_NEAR(a.x, b.x, tolerance);
    EXPECT_NEAR(a.y, b.y, tolerance);
    EXPECT_NEAR(a.z, b.z, tolerance);
}

void expectSameAttitude(const Quat& a, const Quat& b, double tolerance = 1e-14) {
    EXPECT_NEAR(std::fabs(a.w * b.w + a.x * b.x + a.y * b.y + a.z * b.z), 1, tolerance);
}

TEST(Frames, LevelToCrowdRightIsTheFirstAnchor) {
    const Quat q_SB(0, 1, 0, 0);
    expectNear(rotate(q_SB, Vec3(1, 0, 0)), Vec3(1, 0, 0));
    expectNear(rotate(q_SB, Vec3(0, 1, 0)), Vec3(0, -1, 0));  // right wing to the crowd
    expectNear(rotate(q_SB, Vec3(0, 0, 1)), Vec3(0, 0, -1));  // wheels down
    for (double bearing :
         {0.0, 70 * units::kDegree_rad, 200 * units::kDegree_rad, 359 * units::kDegree_rad}) {
        const AttitudeAngles angles = attitudeAngles(q_SB, bearing, 0);
        EXPECT_NEAR(angles.pitch_rad, 0, 1e-15);
        EXPECT_NEAR(angles.roll_rad, 0, 1e-15);
        EXPECT_NEAR(angles.heading_rad, bearing, 1e-15);
        expectSameAttitude(attitudeFromAngles({0, 0, bearing}, bearing), q_SB);
    }
}

TEST(Frames, StraightUpCanopyToTheCrowdIsTheSecondAnchor) {
    const Quat q_SB(0.5, -0.5, -0.5, -0.5);
    expectNear(rotate(q_SB, Vec3(1, 0, 0)), Vec3(0, 0, 1));
    expectNear(rotate(q_SB, Vec3(0, 1, 0)), Vec3(1, 0, 0));    // right wing to crowd right
    expectNear(rotate(q_SB, Vec3(0, 0, -1)), Vec3(0, -1, 0));  // canopy to the crowd
}

TEST(Frames, HeadingGrowsClockwiseWhileAnglesAboutUpGrowTheOtherWay) {
    const double bearing = 70 * units::kDegree_rad;
    EXPECT_NEAR(headingOf(Vec3(1, 0, 0), bearing), bearing, 1e-15);
    EXPECT_NEAR(headingOf(Vec3(0, 1, 0), bearing), 340 * units::kDegree_rad,
                1e-14);  // away from the crowd
    EXPECT_NEAR(headingOf(Vec3(0, -1, 0), bearing), 160 * units::kDegree_rad,
                1e-14);  // to the crowd
    const Quat q_SB = rotationZ(30 * units::kDegree_rad) * Quat(0, 1, 0, 0);
    EXPECT_NEAR(attitudeAngles(q_SB, bearing, 0).heading_rad, 40 * units::kDegree_rad, 1e-14);
    const double almost = headingOf(Vec3(1, 1e-20, 0), 0);
    EXPECT_GE(almost, 0);
    EXPECT_LT(almost, 2 * kPi);
}

TEST(Frames, NoseUpAndRightWingDownArePositive) {
    const Quat up = attitudeFromAngles({20 * units::kDegree_rad, 0, 0}, 0);
    EXPECT_NEAR(rotate(up, Vec3(1, 0, 0)).z, std::sin(20 * units::kDegree_rad), 1e-15);
    const Quat banked = attitudeFromAngles({0, 30 * units::kDegree_rad, 0}, 0);
    EXPECT_NEAR(rotate(banked, Vec3(0, 1, 0)).z, -std::sin(30 * units::kDegree_rad), 1e-15);
}

TEST(Frames, AnglesComeBackFromEveryAttitude) {
    const double bearing = 250 * units::kDegree_rad;
    for (int pitch = -89; pitch <= 89; pitch += 17)
        for (int roll = -170; roll <= 180; roll += 35)
            for (int heading = 0; heading < 360; heading += 31) {
                const AttitudeAngles set{pitch * units::kDegree_rad, roll * units::kDegree_rad,
                                         heading * units::kDegree_rad};
                const AttitudeAngles got =
                    attitudeAngles(attitudeFromAngles(set, bearing), bearing, 0);
                EXPECT_NEAR(got.pitch_rad, set.pitch_rad, 1e-13);
                EXPECT_NEAR(std::remainder(got.roll_rad - set.roll_rad, 2 * kPi), 0, 1e-12);
                EXPECT_NEAR(std::remainder(got.heading_rad - set.heading_rad, 2 * kPi), 0, 1e-12);
            }
}

TEST(Frames, NearVerticalHoldsTheHeadingAndRollTakesTheRest) {
    const double bearing = 70 * units::kDegree_rad;
    for (double pitch : {90 * units::kDegree_rad, 89.995 * units::kDegree_rad,
                         -89.995 * units::kDegree_rad, -90 * units::kDegree_rad}) {
        const Quat q_SB = attitudeFromAngles({pitch, 0.3, 1.0}, bearing);
        const AttitudeAngles angles = attitudeAngles(q_SB, bearing, 1.4);
        EXPECT_EQ(angles.heading_rad, 1.4);
        expectSameAttitude(attitudeFromAngles(angles, bearing), q_SB, 1e-7);
    }
    EXPECT_NEAR(
        attitudeAngles(attitudeFromAngles({89.98 * units::kDegree_rad, 0.3, 1.0}, 0), 0, 1.4)
            .heading_rad,
        1.0, 1e-10);
}

TEST(Frames, RotationVectorsComeBack) {
    for (double length : {0.0, 1e-13, 1e-9, 0.99e-4, 1.01e-4, 0.1, 1.0, 3.0, 3.14159}) {
        const Vec3 v = length * Vec3(2.0 / 7, -3.0 / 7, 6.0 / 7);
        expectNear(vectorFromRotation(rotationFromVector(v)), v, 1e-15 + 2e-15 * length);
        expectNear(vectorFromRotation(-rotationFromVector(v)), v, 1e-15 + 2e-15 * length);
    }
    // Longer than half a turn comes back as the shorter way round.
    expectNear(vectorFromRotation(rotationFromVector(Vec3(0, 0, 4))), Vec3(0, 0, 4 - 2 * kPi));
}

TEST(Frames, AxesAreColumns) {
    const Quat q = rotationZ(0.3) * rotationY(-1.1) * rotationX(2.5);
    expectSameAttitude(
        quatFromAxes(rotate(q, Vec3(1, 0, 0)), rotate(q, Vec3(0, 1, 0)), rotate(q, Vec3(0, 0, 1))),
        q);
    expectNear(unrotate(q, rotate(q, Vec3(1, 2, 3))), Vec3(1, 2, 3));
    expectNear(rotate(axisAngle(Vec3(0, 0, 1), kPi / 2), Vec3(1, 0, 0)), Vec3(0, 1, 0));
}

TEST(Frames, NormalLoadIsMinusBodyZ) {
    // At rest on level wheels the ground pushes up, which is -z in body axes.
    const LoadFactors rest = loadFactors(Vec3(0, 0, -9.80665));
    EXPECT_EQ(rest.normal_g, 1);
    EXPECT_EQ(rest.lateral_g, 0);
    const LoadFactors pushed = loadFactors(Vec3(9.80665, -2 * 9.80665, 9.80665));
    EXPECT_EQ(pushed.normal_g, -1);
    EXPECT_EQ(pushed.lateral_g, -2);
    EXPECT_EQ(pushed.axial_g, 1);
}

}  // namespace
}  // namespace plumbline

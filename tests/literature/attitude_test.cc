// Yaw, pitch, roll in the order of ISO 1151-1 / AIAA R-004-1992: matrices and quaternions of the
// 3-2-1 sequence, evaluated with 40-digit arithmetic.
#include <gtest/gtest.h>

#include "engine/math/frames.h"
#include "engine/units/units.h"

namespace plumbline {
namespace {

struct Row {
    double heading_deg, pitch_deg, roll_deg;
    double body_from_ned[3][3];  // rows: body axes in north, east, down
    double w, x, y, z;           // body to north-east-down
};
constexpr Row kRows[] = {
    {30,
     20,
     10,
     {{0.813797681349, 0.469846310393, -0.342020143326},
      {-0.440969610530, 0.882564119259, 0.163175911167},
      {0.378522306370, 0.018028311236, 0.925416578398}},
     0.951548524644,
     0.038134576475,
     0.189307857412,
     0.239298337745},
    {90,
     45,
     -30,
     {{0, 0.707106781187, -0.707106781187},
      {-0.866025403784, -0.353553390593, -0.353553390593},
      {-0.5, 0.612372435696, 0.612372435696}},
     0.560985526797,
     -0.430459334577,
     0.092295955641,
     0.701057384650},
    {-135,
     -60,
     170,
     {{-0.353553390593, -0.353553390593, 0.866025403784},
      {-0.590026882808, 0.802701597832, 0.086824088833},
      {-0.725856926373, -0.480281318435, -0.492403876506}},
     0.489066542183,
     0.289891741897,
     -0.813735040559,
     0.120880019291},
    {0, 90, 0, {{0, 0, -1}, {0, 1, 0}, {1, 0, 0}}, 0.707106781187, 0, 0.707106781187, 0}};

TEST(Attitude, MatchesTheMatricesOfTheThreeTwoOneSequence) {
    for (const Row& row : kRows) {
        // Show line due north: north is x_S, east -y_S, down -z_S.
        const Quat q_SB = attitudeFromAngles(
            {row.pitch_deg * units::kDegree_rad, row.roll_deg * units::kDegree_rad,
             row.heading_deg * units::kDegree_rad},
            0);
        for (int axis = 0; axis < 3; ++axis) {
            Vec3 axis_B(0);
            axis_B[axis] = 1;
            const Vec3 axis_S = rotate(q_SB, axis_B);
            EXPECT_NEAR(axis_S.x, row.body_from_ned[axis][0], 1e-12);
            EXPECT_NEAR(-axis_S.y, row.body_from_ned[axis][1], 1e-12);
            EXPECT_NEAR(-axis_S.z, row.body_from_ned[axis][2], 1e-12);
        }
    }
}

TEST(Attitude, MatchesTheQuaternionsOfTheThreeTwoOneSequence) {
    for (const Row& row : kRows) {
        const Quat q_NB(row.w, row.x, row.y, row.z);
        const Quat q_SN = quatFromAxes(Vec3(1, 0, 0), Vec3(0, -1, 0), Vec3(0, 0, -1));
        const Quat q_SB = attitudeFromAngles(
            {row.pitch_deg * units::kDegree_rad, row.roll_deg * units::kDegree_rad,
             row.heading_deg * units::kDegree_rad},
            0);
        EXPECT_NEAR(std::fabs(glm::dot(q_SN * q_NB, q_SB)), 1, 1e-12);
        if (row.pitch_deg == 90) continue;  // heading and roll are one there
        const AttitudeAngles angles = attitudeAngles(q_SN * q_NB, 0, 0);
        EXPECT_NEAR(angles.pitch_rad / units::kDegree_rad, row.pitch_deg, 1e-9);
        EXPECT_NEAR(angles.roll_rad / units::kDegree_rad, row.roll_deg, 1e-9);
        EXPECT_NEAR(std::remainder(angles.heading_rad / units::kDegree_rad - row.heading_deg, 360),
                    0, 1e-9);
    }
}

}  // namespace
}  // namespace plumbline

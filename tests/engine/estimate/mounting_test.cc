#include "engine/estimate/mounting.h"

#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::estimate {
namespace {

/// A gliding circle with a loop's worth of load, the nose 4 deg above the path, from a box that
/// sits as q_BI says.
Solution flownWith(const Quat& q_BI) {
    Solution solution;
    solution.has_position = true;
    for (int i = 0; i < 3000; ++i) {
        const double t = 0.01 * i;
        const Quat level = rotationZ(0.3 * t) * quatFromAxes({1, 0, 0}, {0, -1, 0}, {0, 0, -1});
        const Quat q_SB = level * rotationX(0.5 * std::sin(t)) * rotationY(0.07);
        State state;
        state.q_SI = q_SB * q_BI;
        state.velocity_S_mps = rotate(level, Vec3(40, 0, 0));
        state.force_I_mps2 = unrotate(q_BI, Vec3(0.5, 0.2, -9.8 * (1.5 + std::sin(0.7 * t))));
        solution.time_s.push_back(t);
        solution.states.push_back(state);
    }
    return solution;
}

double angleBetween(const Quat& a, const Quat& b) {
    return 2 * std::acos(std::min(1.0, std::abs(glm::dot(a, b))));
}

TEST(Mounting, EachOfThe24SquareOnesIsFoundExactly) {
    int found = 0;
    for (int x = 0; x < 6; ++x)
        for (int y = 0; y < 6; ++y) {
            if (x / 2 == y / 2) continue;
            Vec3 x_axis(0), y_axis(0);
            x_axis[x / 2] = x % 2 == 0 ? 1 : -1;
            y_axis[y / 2] = y % 2 == 0 ? 1 : -1;
            const Quat q_BI = quatFromAxes(x_axis, y_axis, glm::cross(x_axis, y_axis));
            const Mounting mounting = findMounting(flownWith(q_BI));
            EXPECT_TRUE(mounting.known && mounting.square);
            EXPECT_LT(angleBetween(mounting.q_BI, q_BI), 1e-9);
            ++found;
        }
    EXPECT_EQ(found, 24);
}

TEST(Mounting, AnUnknownAngleIsFoundFromTheFlight) {
    const Quat q_BI = axisAngle(glm::normalize(Vec3(1, 2, -1)), 0.7);
    const Mounting mounting = findMounting(flownWith(q_BI));
    EXPECT_TRUE(mounting.known);
    EXPECT_FALSE(mounting.square);
    // the nose is told from the path: incidence stays in it
    EXPECT_LT(angleBetween(mounting.q_BI, q_BI), 0.1);
}

TEST(Mounting, OnTheTableOnlyDownIsTold) {
    Solution solution = flownWith(Quat(1, 0, 0, 0));
    for (State& state : solution.states) {
        state.velocity_S_mps = Vec3(0);
        state.force_I_mps2 = Vec3(0.1, 9.8, -0.2);  // lies on its side: y is up
    }
    const Mounting mounting = findMounting(solution);
    EXPECT_FALSE(mounting.known);
    EXPECT_NEAR(rotate(mounting.q_BI, Vec3(0, 1, 0)).z, -1, 1e-12);
}

}  // namespace
}  // namespace plumbline::estimate

#include "engine/path/path.h"

#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::path {
namespace {

/// Angle of the rotation between two attitudes.
double angleBetween(const Quat& a, const Quat& b) {
    return glm::length(vectorFromRotation(glm::conjugate(a) * b));
}

Sample flown(double time_s, const Vec3& position_S_m, const Vec3& velocity_S_mps) {
    Sample sample;
    sample.time_s = time_s;
    sample.position_S_m = position_S_m;
    sample.velocity_S_mps = velocity_S_mps;
    return sample;
}

TEST(SampleAt, ReproducesACubicPath) {
    // x = t^3, y = 2 - t^2, z = 5 t: a cubic is its own Hermite interpolant.
    const auto at = [](double t) {
        return flown(t, {t * t * t, 2 - t * t, 5 * t}, {3 * t * t, -2 * t, 5});
    };
    Path path;
    path.samples = {at(0), at(0.7), at(2)};
    for (double t = 0; t <= 2; t += 0.13) {
        const Sample want = at(t);
        const Sample got = sampleAt(path, t);
        EXPECT_LT(glm::length(got.position_S_m - want.position_S_m), 1e-13);
        EXPECT_LT(glm::length(got.velocity_S_mps - want.velocity_S_mps), 1e-13);
        EXPECT_DOUBLE_EQ(got.time_s, t);
    }
}

TEST(SampleAt, ClampsToTheEnds) {
    Path path;
    EXPECT_EQ(sampleAt(path, 3).time_s, 0);
    path.samples = {flown(0, {1, 0, 0}, {1, 0, 0}), flown(1, {2, 0, 0}, {1, 0, 0})};
    EXPECT_EQ(sampleAt(path, -5).position_S_m.x, 1);
    EXPECT_EQ(sampleAt(path, 9).position_S_m.x, 2);
    EXPECT_EQ(sampleAt(path, std::nan("")).position_S_m.x, 1);
    EXPECT_EQ(sampleAt(path, 1).time_s, 1);
}

TEST(SampleAt, SteadyRollIsExactAtAnyRateEvenWithTurnsBetweenSamples) {
    // 420 deg/s sampled every 2 s: more than two turns a step.
    const double rate = 420 * kPi / 180;
    const Quat start = glm::normalize(Quat(0.3, -0.4, 0.5, 0.2));
    Path path;
    for (const double t : {0.0, 2.0, 4.0}) {
        Sample sample = flown(t, {}, {});
        sample.q_SB = start * rotationX(rate * t);
        sample.rate_B_radps = {rate, 0, 0};
        path.samples.push_back(sample);
    }
    for (double t = 0; t < 4; t += 0.037)
        EXPECT_LT(angleBetween(sampleAt(path, t).q_SB, start * rotationX(rate * t)), 1e-12);
}

TEST(SampleAt, RollWithChangingRateOverALoopConvergesWithFourthOrder) {
    // q = Rz(a) Ry(b) Rx(c), its body rate by the product rule: a tumbling attitude in closed form.
    const auto at = [](double t) {
        const double a = 0.8 * t, b = 0.5 * std::sin(t), c = 2 * t + 0.7 * std::cos(1.3 * t);
        const double da = 0.8, db = 0.5 * std::cos(t), dc = 2 - 0.7 * 1.3 * std::sin(1.3 * t);
        Sample sample = flown(t, {}, {});
        const Quat qx = rotationX(c), qy = rotationY(b);
        sample.q_SB = rotationZ(a) * qy * qx;
        sample.rate_B_radps =
            Vec3(dc, 0, 0) + unrotate(qx, Vec3(0, db, 0)) + unrotate(qy * qx, Vec3(0, 0, da));
        return sample;
    };
    const auto worst = [&](double step) {
        Path path;
        for (int i = 0; i * step <= 6.0001; ++i) path.samples.push_back(at(i * step));
        double error = 0;
        for (double t = 0; t < 6; t += 0.0113)
            error = std::max(error, angleBetween(sampleAt(path, t).q_SB, at(t).q_SB));
        return error;
    };
    const double coarse = worst(0.2);
    const double fine = worst(0.1);
    EXPECT_LT(coarse, 2e-3);
    EXPECT_NEAR(std::log2(coarse / fine), 4, 0.4);
    EXPECT_LT(worst(0.01), 2e-8);
}

TEST(SampleAt, AngleOfAttackCrosses180TheShortWay) {
    Path path;
    path.samples = {flown(0, {}, {}), flown(1, {}, {})};
    path.samples[0].aoa_rad = 179 * kPi / 180;
    path.samples[1].aoa_rad = -177 * kPi / 180;
    EXPECT_NEAR(sampleAt(path, 0.25).aoa_rad, kPi, 1e-12);
    EXPECT_NEAR(sampleAt(path, 0.75).aoa_rad, -178 * kPi / 180, 1e-12);
}

TEST(SampleIndexAt, IsTheLastAtOrBefore) {
    Path path;
    for (const double t : {0.0, 0.01, 0.0137, 0.02}) path.samples.push_back(flown(t, {}, {}));
    EXPECT_EQ(sampleIndexAt(path, -1), 0u);
    EXPECT_EQ(sampleIndexAt(path, 0.0099), 0u);
    EXPECT_EQ(sampleIndexAt(path, 0.0137), 2u);
    EXPECT_EQ(sampleIndexAt(path, 0.015), 2u);
    EXPECT_EQ(sampleIndexAt(path, 7), 3u);
}

TEST(FigureAt, KnowsGapsAndJoints) {
    Path path;
    path.figures = {{"loop", 1, 5}, {"hammerhead", 5, 9}};
    EXPECT_EQ(figureAt(path, 0.5), -1);
    EXPECT_EQ(figureAt(path, 1), 0);
    EXPECT_EQ(figureAt(path, 5), 1);
    EXPECT_EQ(figureAt(path, 9), 1);
    EXPECT_EQ(figureAt(path, 9.1), -1);
}

TEST(AttitudeShown, OnlyWhereItIsKnownAndSure) {
    Path path;
    Sample sure, unsure;
    sure.attitude_sigma_rad = 0.02F;
    unsure.attitude_sigma_rad = 0.3F;
    EXPECT_TRUE(attitudeShown(path, sure));
    EXPECT_TRUE(attitudeShown(path, Sample{}));  // a plan tells no sigma
    EXPECT_FALSE(attitudeShown(path, unsure));
    path.known.bank = false;
    EXPECT_FALSE(attitudeShown(path, sure));
}

TEST(SmokeAt, IsOnFromStartUntilStop) {
    Path path;
    path.smoke = {{1, 2}, {4, 5}};
    EXPECT_FALSE(smokeAt(path, 0.9));
    EXPECT_TRUE(smokeAt(path, 1));
    EXPECT_FALSE(smokeAt(path, 2));
    EXPECT_TRUE(smokeAt(path, 4.5));
}

}  // namespace
}  // namespace plumbline::path

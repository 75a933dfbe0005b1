// Steps of the sensors against closed forms and finite differences.

#include "engine/estimate/preintegration.h"

#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::estimate {
namespace {

/// A turn about one axis at a constant rate under a force that turns with it.
Inertial steady(const Vec3& rate_radps, const Vec3& force_mps2, int samples, double step_s) {
    Inertial inertial;
    for (int i = 0; i < samples; ++i) {
        inertial.time_s.push_back(i * step_s);
        inertial.rate_I_radps.push_back(rate_radps);
        inertial.force_I_mps2.push_back(force_mps2);
    }
    return inertial;
}

Inertial lively() {
    Inertial inertial;
    for (int i = 0; i < 41; ++i) {
        const double t = 0.005 * i;
        inertial.time_s.push_back(t);
        inertial.rate_I_radps.push_back({3 * std::sin(9 * t), 1 - 4 * t, 2 * std::cos(5 * t)});
        inertial.force_I_mps2.push_back({4 * std::cos(7 * t), 3 * t, 30 + 20 * std::sin(11 * t)});
    }
    return inertial;
}

Step stepOf(const Inertial& inertial, const Gains& gains, const Vec& bias) {
    const Settings settings;
    const IntervalNoise noise = intervalNoise(inertial, settings);
    Preintegrator sum(inertial, noise, gains, settings);
    sum.start(0, bias);
    while (sum.sample() + 1 < inertial.size()) sum.advance(true);
    sum.finishNoise();
    return sum.step();
}

TEST(Preintegration, CircleAtConstantRateComesOutAsItsClosedForm) {
    // A point on a circle: f turned by angle w t integrates to f (sin wt, 1 - cos wt) / w.
    const double w = 2, f = 10, t = 0.5;
    const Step step = stepOf(steady({0, 0, w}, {f, 0, 0}, 101, 0.005), {}, Vec::Zero());
    const double a = w * t;
    EXPECT_NEAR(step.duration_s, t, 1e-12);
    EXPECT_NEAR(step.rotation(1, 0), std::sin(a), 1e-12);
    EXPECT_NEAR(step.velocity.x(), f * std::sin(a) / w, 1e-4);
    EXPECT_NEAR(step.velocity.y(), f * (1 - std::cos(a)) / w, 1e-4);
    EXPECT_NEAR(step.position.x(), f * (1 - std::cos(a)) / (w * w), 1e-4);
    EXPECT_NEAR(step.position.y(), f * (a - std::sin(a)) / (w * w), 1e-4);
}

TEST(Preintegration, DerivativesMatchDifferences) {
    const Inertial inertial = lively();
    const Step step = stepOf(inertial, {}, Vec::Zero());
    const double h = 1e-5;
    for (int c = 0; c < kCalibrated; ++c) {
        Step to_side[2];
        for (int side = 0; side < 2; ++side) {
            const double d = side == 0 ? -h : h;
            Gains gains;
            Vec bias = Vec::Zero();
            if (c < kRateGain)
                bias[c] = d;
            else if (c < kForceBias)
                gains.rate((c - kRateGain) % 3, (c - kRateGain) / 3) = d;
            else if (c < kForceGain)
                gains.force_bias[c - kForceBias] = d;
            else if (c < kLag)
                gains.force[c - kForceGain] = d;
            else
                gains.lag_s = d;
            to_side[side] = stepOf(inertial, gains, bias);
        }
        const Vec turn = logMap(to_side[1].rotation * to_side[0].rotation.transpose()) / (2 * h);
        const Vec velocity = (to_side[1].velocity - to_side[0].velocity) / (2 * h);
        const Vec position = (to_side[1].position - to_side[0].position) / (2 * h);
        // the second term of a turn within a sample's interval is left out of the derivatives
        for (int a = 0; a < 3; ++a) {
            EXPECT_NEAR(step.jacobian(a, c), turn[a], 3e-3) << c;
            EXPECT_NEAR(step.jacobian(3 + a, c), velocity[a], 0.02) << c;
            EXPECT_NEAR(step.jacobian(6 + a, c), position[a], 0.003) << c;
        }
    }
}

TEST(Preintegration, NoiseOfAStillSensorIsThatOfAnIntegratedWhiteOne) {
    // Textbook: white noise of density q integrates to q t, q t^2 / 2, q t^3 / 3.
    const double t = 0.5;
    const Step step = stepOf(steady({0, 0, 0}, {0, 0, 0}, 1001, t / 1000), {}, Vec::Zero());
    const Settings s;
    const double q = s.force_noise * s.force_noise;
    EXPECT_NEAR(step.noise(0, 0), s.rate_noise * s.rate_noise * t, 2e-10);
    EXPECT_NEAR(step.noise(3, 3), q * t, 1e-6);
    EXPECT_NEAR(step.noise(6, 3), q * t * t / 2, 1e-6);
    EXPECT_NEAR(step.noise(6, 6), q * t * t * t / 3, 1e-6);
}

TEST(Preintegration, ClippedSamplesAndHolesAreTrustedLess) {
    Inertial inertial = lively();
    const IntervalNoise plain = intervalNoise(inertial, {});
    for (std::size_t i = 20; i < 26; ++i) inertial.rate_I_radps[i].x = 34.9;  // the sensor's end
    for (std::size_t i = 30; i < inertial.size(); ++i) inertial.time_s[i] += 0.2;
    const IntervalNoise noise = intervalNoise(inertial, {});
    EXPECT_EQ(plain.rate[22], 0);
    EXPECT_GT(noise.rate[22], 1);
    EXPECT_GT(noise.rate[29], 1);
    EXPECT_EQ(noise.rate[10], 0);
}

}  // namespace
}  // namespace plumbline::estimate

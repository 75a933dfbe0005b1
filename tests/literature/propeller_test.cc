// Thrust against measured full-size propellers: NACA Reports 640 (1938) and 658 (1939), propeller
// 5868-9, three blades, run at constant speed (2.0 m, 2700 rpm, 300 hp, sea level); values worked
// from the curves digitised in public notebooks.

#include <gtest/gtest.h>

#include "engine/fly/power.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly {
namespace {

TEST(Propeller, ThrustFollowsMeasuredConstantSpeedCurves) {
    data::Aircraft a = test::plausibleAircraft();
    a.power.max_power_w = 300 * 745.6998715822702;
    const PowerModel power(a);
    // 15 % at rest, 10 % in flight: what two numbers can say of one propeller.
    const double rows[][3] = {{0, 4776, 0.15},  {20, 4380, 0.10}, {40, 3591, 0.10},
                              {60, 2886, 0.10}, {80, 2278, 0.10}, {90, 2085, 0.10}};
    for (const auto& row : rows)
        EXPECT_NEAR(power.thrust_n(1, 1.225, row[0]), row[1], row[2] * row[1]) << row[0];
}

// The same reports' curves at three blade angles, J, CP, CT = CP eta / J (0.2 m steps of J where
// the notebooks have them): what the propeller gives at another power and constant speed follows by
// finding the blade angle that absorbs the power, linear between the angles.
struct Curve {
    double advance, cp[3], ct[3];  // at 15, 20, 25 deg
};
constexpr Curve kCurves[] = {{0.0, {.0588, .0889, .1498}, {.117, .145, .169}},
                             {0.6, {.0338, .0728, .1165}, {.0433, .0890, .1303}},
                             {0.8, {.0067, .0480, .0994}, {.0027, .0497, .0964}}};

TEST(Propeller, ThrustFollowsMeasuredBladeAngleCurvesAtOtherPowers) {
    constexpr double kTurns_hz = 45, kDiameter_m = 2;  // 2700 rpm
    constexpr double kForce =
        1.225 * kTurns_hz * kTurns_hz * kDiameter_m * kDiameter_m * kDiameter_m * kDiameter_m;
    for (const double power_w : {215e3, 235e3, 250e3}) {
        data::Aircraft a = test::plausibleAircraft();
        a.power.max_power_w = power_w;
        const PowerModel model(a);
        const double cp = power_w / (kForce * kTurns_hz * kDiameter_m);
        for (const Curve& curve : kCurves) {
            const int low = cp < curve.cp[1] ? 0 : 1;
            ASSERT_GE(cp, curve.cp[low]);
            ASSERT_LE(cp, curve.cp[low + 1]);
            const double share = (cp - curve.cp[low]) / (curve.cp[low + 1] - curve.cp[low]);
            const double thrust =
                kForce * (curve.ct[low] + share * (curve.ct[low + 1] - curve.ct[low]));
            const double speed = curve.advance * kTurns_hz * kDiameter_m;
            EXPECT_NEAR(model.thrust_n(1, 1.225, speed), thrust,
                        (speed == 0 ? 0.15 : 0.10) * thrust)
                << power_w << " W at " << speed << " m/s";
        }
    }
}

// Share of the ideal disc's thrust that those propellers reached: 0.60 to 0.70 at rest, 0.82 to
// 0.88 above 40 m/s, rising between. (The table's 40 m/s, 0.821, is the edge of the band.)
TEST(Propeller, ShareOfTheIdealDiscIsThatOfMeasuredPropellers) {
    data::Aircraft ideal = test::plausibleAircraft();
    ideal.power.static_merit_frac = ideal.power.cruise_efficiency_frac = 1;
    const PowerModel disc(ideal), real(test::plausibleAircraft());
    const auto ratio = [&](double speed) {
        return real.thrust_n(1, 1.225, speed) / disc.thrust_n(1, 1.225, speed);
    };
    EXPECT_GT(ratio(0), 0.60);
    EXPECT_LT(ratio(0), 0.70);
    for (const double speed : {50.0, 60.0, 75.0, 90.0}) {
        EXPECT_GT(ratio(speed), 0.82) << speed;
        EXPECT_LT(ratio(speed), 0.88) << speed;
    }
    EXPECT_GT(ratio(20), ratio(0));
    EXPECT_GT(ratio(40), ratio(20));
}

// The ideal actuator disc (one efficiency of 1): 250 kW, 2 m, sea level. Closed form P = T (V/2 +
// sqrt(V^2/4 + T/(2 rho A))).
TEST(Propeller, IdealDiscAtRestAndInFlight) {
    data::Aircraft a = test::plausibleAircraft();
    a.power.static_merit_frac = a.power.cruise_efficiency_frac = 1;
    const PowerModel power(a);
    const double rows[][2] = {{0, 7835.474919},
                              {20, 6226.729417},
                              {40, 4806.929933},
                              {70, 3303.723265},
                              {90, 2668.102430}};
    for (const auto& row : rows)
        EXPECT_NEAR(power.thrust_n(1, 1.225, row[0]), row[1], 1e-4 * row[1]);
    EXPECT_NEAR(power.thrust_n(0.75, 1.225, 0) / 6468.042036,
                std::pow((0.03 + 0.97 * 0.75) / 0.75, 2.0 / 3), 2e-2);
}

// The disc's own work is held where air comes from behind (what the model says), with no jump of
// value, slope or curvature at rest: a second difference across it changes by no more than beside
// it.
TEST(Propeller, HoldsItsStaticThrustBackwardsAndTurnsToItSmoothly) {
    const PowerModel power(test::plausibleAircraft());
    const auto thrust = [&](double v) { return power.thrust_n(1, 1.225, v); };
    EXPECT_NEAR(thrust(-30), thrust(0), 0.01 * thrust(0));
    EXPECT_DOUBLE_EQ(thrust(-30), thrust(-1));
    constexpr double kStep = 0.01;
    const auto bend = [&](double v) {
        return (thrust(v + kStep) - 2 * thrust(v) + thrust(v - kStep)) / (kStep * kStep);
    };
    for (const double v : {-1.0, 0.0}) {
        EXPECT_NEAR(thrust(v + 1e-6), thrust(v - 1e-6), 1e-2);
        const double slope = (thrust(v + kStep) - thrust(v)) / kStep;
        EXPECT_NEAR(slope, (thrust(v) - thrust(v - kStep)) / kStep,
                    3 * kStep * std::fabs(bend(-0.5)));
        EXPECT_NEAR(bend(v + kStep), bend(v - kStep), 0.1 * std::fabs(bend(-0.5)));
    }
}

// Gagg & Ferrar (1934): 1.132 sigma - 0.132.
TEST(Propeller, PowerFallsWithDensity) {
    const PowerModel power(test::plausibleAircraft());
    EXPECT_NEAR(power.shaftPower_w(1, 1.225), 250e3, 1e-6);
    EXPECT_NEAR(power.shaftPower_w(1, 0.5 * 1.225), 250e3 * 0.434, 1e-6);
}

// Full rich power for twelve minutes: 15-28 l airborne at 250 kW (common practice, no source).
TEST(Propeller, FuelOfTwelveMinutesIsInTheUsualBand) {
    const PowerModel power(test::plausibleAircraft());
    const double litres = power.fuelFlow_kgps(1, 1.2) * 720 / 0.72;
    EXPECT_GT(litres, 15);
    EXPECT_LT(litres, 28);
}

}  // namespace
}  // namespace plumbline::fly

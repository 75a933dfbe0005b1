#include "engine/math/ode.h"

#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::ode {
namespace {

// Kepler's ellipse of eccentricity 0.3 from perihelion: closed form through Kepler's equation.
constexpr double kEccentricity = 0.3;

State<4> keplerExact(double t) {
    double e_anomaly = t;
    for (int i = 0; i < 50; ++i)
        e_anomaly -= (e_anomaly - kEccentricity * std::sin(e_anomaly) - t) /
                     (1 - kEccentricity * std::cos(e_anomaly));
    const double root = std::sqrt(1 - kEccentricity * kEccentricity);
    const double rate = 1 / (1 - kEccentricity * std::cos(e_anomaly));
    return {std::cos(e_anomaly) - kEccentricity, root * std::sin(e_anomaly),
            -std::sin(e_anomaly) * rate, root * std::cos(e_anomaly) * rate};
}

void keplerRate(double, const State<4>& y, State<4>& dy) {
    const double r3 = std::pow(y[0] * y[0] + y[1] * y[1], 1.5);
    dy = {y[2], y[3], -y[0] / r3, -y[1] / r3};
}

double never(double, const State<4>&) { return 1; }

Tolerance<4> tolerance(double relative) { return {relative, {1, 1, 1, 1}}; }

TEST(Ode, ErrorOfKeplerOrbitFallsWithTolerance) {
    double last = 1;
    for (const double relative : {1e-6, 1e-8, 1e-10}) {
        std::vector<DenseStep<4>> steps;
        const auto out = integrate<4>(keplerRate, never, 0, keplerExact(0), 6.0, 0.01,
                                      tolerance(relative), steps);
        const State<4> exact = keplerExact(6.0);
        const double error = std::hypot(out.state[0] - exact[0], out.state[1] - exact[1]);
        EXPECT_EQ(out.stop, Stop::Time);
        EXPECT_LT(error, 300 * relative);
        EXPECT_LT(error, last / 10);
        last = error;
    }
}

// Fixed steps: a huge tolerance makes every step accepted; the step then grows, so the order is
// read from single steps.
TEST(Ode, OneStepErrorIsOfOrderSix) {
    double last = 0;
    for (const double h : {0.2, 0.1, 0.05}) {
        std::vector<DenseStep<4>> steps;
        const auto out =
            integrate<4>(keplerRate, never, 0, keplerExact(0), h, h, tolerance(1e9), steps);
        ASSERT_EQ(steps.size(), 1U);
        const State<4> exact = keplerExact(h);
        const double error = std::hypot(out.state[0] - exact[0], out.state[1] - exact[1]);
        if (last > 0) {
            EXPECT_NEAR(std::log2(last / error), 6, 0.6);
        }
        last = error;
    }
}

TEST(Ode, DenseOutputIsOfOrderFourInsideTheStep) {
    double last = 0;
    for (const double h : {0.2, 0.1, 0.05}) {
        std::vector<DenseStep<4>> steps;
        (void)integrate<4>(keplerRate, never, 0, keplerExact(0), h, h, tolerance(1e9), steps);
        const State<4> mid = steps.front().at(0.37 * h), exact = keplerExact(0.37 * h);
        const double error = std::hypot(mid[0] - exact[0], mid[1] - exact[1]);
        if (last > 0) {
            EXPECT_NEAR(std::log2(last / error), 5, 0.7);  // local error, one order above
        }
        last = error;
    }
}

// Free fall from 100 m: the ground is met at sqrt(2 h / g).
TEST(Ode, EventIsLandedOnToANanosecond) {
    std::vector<DenseStep<2>> steps;
    const auto fall = [](double, const State<2>& y, State<2>& dy) { dy = {y[1], -9.80665}; };
    const auto ground = [](double, const State<2>& y) { return y[0]; };
    const auto out =
        integrate<2>(fall, ground, 0, State<2>{100, 0}, 60, 0.1, {1e-8, {100, 30}}, steps);
    EXPECT_EQ(out.stop, Stop::Event);
    EXPECT_NEAR(out.time, std::sqrt(200 / 9.80665), 1e-9);
    EXPECT_NEAR(out.state[0], 0, 1e-7);
    EXPECT_DOUBLE_EQ(steps.back().start + steps.back().size, out.time);
}

// Kepler's aphelion at half a period: the last step is foretold, so that the event costs no step
// more than ending at a known time would (one more where the forecast fell short).
TEST(Ode, EventIsForetoldAndCostsNoSecondStep) {
    const auto aphelion = [](double t, const State<4>& y) { return t < 1 ? 1.0 : y[1]; };
    int calls[2] = {0, 0};
    double miss[2];
    for (const int by_event : {0, 1}) {
        const auto counted = [&](double t, const State<4>& y, State<4>& dy) {
            ++calls[by_event];
            keplerRate(t, y, dy);
        };
        std::vector<DenseStep<4>> steps;
        const double pi = std::acos(-1.0);
        const auto out = by_event ? integrate<4>(counted, aphelion, 0, keplerExact(0), 6.0, 0.01,
                                                 tolerance(1e-8), steps)
                                  : integrate<4>(counted, never, 0, keplerExact(0), pi, 0.01,
                                                 tolerance(1e-8), steps);
        const State<4> exact = keplerExact(pi);
        miss[by_event] = std::hypot(out.state[0] - exact[0], out.state[1] - exact[1]);
        EXPECT_NEAR(out.time, pi, 1e-6);
    }
    EXPECT_LE(calls[1], calls[0] + 6);
    EXPECT_LT(miss[1], 2 * miss[0] + 1e-9);
}

TEST(Ode, CutStepIsTheSameCurve) {
    std::vector<DenseStep<4>> steps;
    (void)integrate<4>(keplerRate, never, 0, keplerExact(0), 0.3, 0.3, tolerance(1e9), steps);
    DenseStep<4> cut = steps.front();
    cut.cutTo(0.21);
    for (const double t : {0.0, 0.05, 0.13, 0.21}) {
        const State<4> whole = steps.front().at(t), part = cut.at(t);
        for (int i = 0; i < 4; ++i) EXPECT_NEAR(part[i], whole[i], 1e-15 * 4);
    }
    EXPECT_NEAR(cut.end()[2], steps.front().at(0.21)[2], 1e-15 * 4);
}

TEST(Ode, EventAlreadyPassedEndsAtOnce) {
    std::vector<DenseStep<2>> steps;
    const auto out = integrate<2>(
        [](double, const State<2>&, State<2>& dy) {
            dy = {1, 0};
        },
        [](double, const State<2>&) { return 0.0; }, 3, State<2>{0, 0}, 4, 0.1, {1e-8, {1, 1}},
        steps);
    EXPECT_EQ(out.stop, Stop::Event);
    EXPECT_DOUBLE_EQ(out.time, 3);
    EXPECT_TRUE(steps.empty());
}

TEST(Ode, NotANumberFailsInsteadOfLooping) {
    std::vector<DenseStep<1>> steps;
    const auto out = integrate<1>(
        [](double t, const State<1>&, State<1>& dy) { dy = {t > 0.5 ? std::nan("") : 1.0}; },
        [](double, const State<1>&) { return 1.0; }, 0, State<1>{0}, 1, 0.1, {1e-8, {1}}, steps);
    EXPECT_EQ(out.stop, Stop::Failed);
}

}  // namespace
}  // namespace plumbline::ode

#include "engine/margins/statistics.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/margins/draw.h"
#include "engine/math/frames.h"

namespace plumbline::margins {
namespace {

TEST(NormalQuantile, IsThatOfTheTables) {
    // Percentage points of the normal distribution, NIST/SEMATECH e-Handbook of Statistical
    // Methods, 1.3.6.7.1, and to more digits from memory.
    EXPECT_NEAR(normalQuantile(0.975), 1.959964, 5e-7);
    EXPECT_NEAR(normalQuantile(0.05), -1.644854, 5e-7);
    EXPECT_NEAR(normalQuantile(0.999), 3.090232, 5e-7);
    EXPECT_EQ(normalQuantile(0.5), 0);
    EXPECT_TRUE(std::isfinite(normalQuantile(0)));
    EXPECT_TRUE(std::isfinite(normalQuantile(1)));
}

TEST(Wilson, IsTheClosedForm) {
    // R. G. Newcombe, Two-sided confidence intervals for the single proportion, Statistics in
    // Medicine 17 (1998) 857-872, table I: 81 of 263, 15 of 148, 0 of 20, 1 of 29 (its
    // values from memory).
    const auto check = [](std::uint64_t hits, std::uint64_t trials, double low, double high) {
        const Interval i = wilson(hits, trials);
        EXPECT_NEAR(i.low, low, 5e-5) << hits;
        EXPECT_NEAR(i.high, high, 5e-5) << hits;
    };
    check(81, 263, 0.2553, 0.3662);
    check(15, 148, 0.0624, 0.1605);
    check(0, 20, 0.0000, 0.1611);
    check(1, 29, 0.0061, 0.1718);
}

TEST(Wilson, KnowsNothingOfNothing) {
    const Interval i = wilson(0, 0);
    EXPECT_EQ(i.low, 0);
    EXPECT_EQ(i.high, 1);
}

TEST(Histogram, QuantilesAreThoseOfWhatWentIn) {
    Histogram h(100, 50, 0.25);
    for (int i = 0; i < 1000; ++i) h.add(80 + 0.04 * i);  // evenly over 80..120
    EXPECT_NEAR(h.quantile(0.05), 82, 0.25);
    EXPECT_NEAR(h.quantile(0.5), 100, 0.25);
    EXPECT_NEAR(h.quantile(0.95), 118, 0.25);
}

TEST(Histogram, WhatIsBeyondCountsInTheEndCells) {
    Histogram h(0, 10, 1);
    for (int i = 0; i < 10; ++i) h.add(1e9);
    for (int i = 0; i < 10; ++i) h.add(-1e9);
    EXPECT_EQ(h.count(), 20);
    EXPECT_GE(h.quantile(0.95), 9);
    EXPECT_LE(h.quantile(0.05), -9);
}

/// Indices of a function of the first three daily errors.
template <class Function>
std::array<double, 3> indicesOf(const Function& function, std::uint64_t flights) {
    std::array<Bins, 3> bins{};
    double sum = 0, squares = 0;
    for (std::uint64_t n = 0; n < flights; ++n) {
        const Draw draw = drawFlight(1, n, 0);
        const double y = function(draw.daily);
        sum += y;
        squares += y * y;
        for (std::size_t i = 0; i < 3; ++i) bins[i].add(binOf(draw.daily[i]), y);
    }
    std::array<double, 3> indices{};
    for (std::size_t i = 0; i < 3; ++i) indices[i] = firstOrder(bins[i], sum, squares);
    return indices;
}

TEST(FirstOrder, OfTheIshigamiFunction) {
    // T. Ishigami, T. Homma, An importance quantification technique in uncertainty analysis for
    // computer models, ISUMA 1990, pp. 398-403: y = sin x1 + a sin^2 x2 + b x3^4 sin x1, uniform
    // over -pi..pi. Closed form: D1 = (1 + b pi^4/5)^2 / 2, D2 = a^2 / 8, D3 = 0,
    // D = D1 + D2 + 8 b^2 pi^8 / 225.
    const double a = 7, b = 0.1, p4 = std::pow(kPi, 4);
    const double d1 = 0.5 * std::pow(1 + b * p4 / 5, 2), d2 = a * a / 8;
    const double d = d1 + d2 + 8 * b * b * p4 * p4 / 225;
    const auto indices = indicesOf(
        [&](const std::array<double, kDaily>& u) {
            const auto x = [&](std::size_t i) { return kPi * (2 * u[i] - 1); };
            return std::sin(x(0)) + a * std::pow(std::sin(x(1)), 2) +
                   b * std::pow(x(2), 4) * std::sin(x(0));
        },
        20000);
    // Sixteen bins smooth a sine of the whole width by (sin(pi/16) / (pi/16))^2 = 0.987, one of
    // half the width by 0.95.
    EXPECT_NEAR(indices[0], d1 / d, 0.01);
    EXPECT_NEAR(indices[1], 0.95 * d2 / d, 0.01);
    EXPECT_NEAR(indices[2], 0, 0.005);
}

TEST(FirstOrder, OfALinearModelWithNormalErrorsIsItsShareOfTheVariance) {
    const auto indices = indicesOf(
        [](const std::array<double, kDaily>& u) {
            return 3 * normalQuantile(u[0]) + 4 * normalQuantile(u[1]);
        },
        10000);
    // A normal error varies within its bins, most in the tails': 2.5 % of its variance is there.
    EXPECT_NEAR(indices[0], 0.36 * (1 - 0.025), 0.01);
    EXPECT_NEAR(indices[1], 0.64 * (1 - 0.025), 0.01);
    EXPECT_NEAR(indices[2], 0, 0.005);
}

TEST(FirstOrder, IsNothingWhereNothingVaries) {
    const auto indices = indicesOf([](const std::array<double, kDaily>&) { return 5.0; }, 1000);
    for (const double index : indices) EXPECT_EQ(index, 0);
}

TEST(FirstOrder, ChanceAloneStaysBelowTheNoise) {
    // The errors of figures are independent of what the flights' numbers alternate.
    Bins bins;
    constexpr std::uint64_t kFlights = 5000;
    for (std::uint64_t n = 0; n < kFlights; ++n)
        bins.add(binOf(drawFlight(3, n, 1).figures[0][0]), n % 2 ? 1 : -1);
    EXPECT_LE(firstOrder(bins, 0, kFlights), firstOrderNoise(kFlights));
}

TEST(Draw, ErrorsOfTheDayAreMoreEvenThanRandom) {
    // A chance of 0.3 from 1000 random flights is off by 0.0145 (one standard deviation).
    int below = 0;
    for (std::uint64_t n = 0; n < 1000; ++n) below += drawFlight(9, n, 0).daily[2] < 0.3 ? 1 : 0;
    EXPECT_NEAR(below / 1000.0, 0.3, 0.004);
}

TEST(Draw, IsNormalWithIndependentFigures) {
    constexpr int kFlights = 20000;
    double mean = 0, square = 0, product = 0;
    for (std::uint64_t n = 0; n < kFlights; ++n) {
        const Draw draw = drawFlight(5, n, 2);
        const double a = draw.of(0, Figurewise::Load), b = draw.of(1, Figurewise::Load);
        mean += a / kFlights;
        square += a * a / kFlights;
        product += a * b / kFlights;
    }
    // Four standard deviations of each estimate.
    EXPECT_NEAR(mean, 0, 4 / std::sqrt(kFlights));
    EXPECT_NEAR(square, 1, 4 * std::sqrt(2.0 / kFlights));
    EXPECT_NEAR(product, 0, 4 / std::sqrt(kFlights));
}

TEST(Draw, AnotherSeedIsAnotherFlight) {
    EXPECT_EQ(drawFlight(1, 7, 3).figures, drawFlight(1, 7, 3).figures);
    EXPECT_NE(drawFlight(1, 7, 3).daily, drawFlight(2, 7, 3).daily);
    EXPECT_NE(drawFlight(1, 7, 3).figures, drawFlight(2, 7, 3).figures);
    EXPECT_NE(drawFlight(1, 7, 3).figures, drawFlight(1, 8, 3).figures);
}

}  // namespace
}  // namespace plumbline::margins

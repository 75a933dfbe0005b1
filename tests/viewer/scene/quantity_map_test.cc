#include "viewer/scene/quantity_map.h"

#include <cmath>

#include <gtest/gtest.h>

#include "tests/viewer/scene/made_paths.h"

namespace plumbline::scene {
namespace {

/// Lightness in OKLab of a display (sRGB) colour.
/// Source: B. Ottosson, "A perceptual color space for image processing", 2020; IEC 61966-2-1 for
/// the transfer curve.
double lightness(const glm::vec3& colour) {
    const auto linear = [](double c) {
        return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
    };
    const double r = linear(colour.r), g = linear(colour.g), b = linear(colour.b);
    const double l = std::cbrt(0.4122214708 * r + 0.5363325363 * g + 0.0514459929 * b);
    const double m = std::cbrt(0.2119034982 * r + 0.6806995451 * g + 0.1073969566 * b);
    const double s = std::cbrt(0.0883024619 * r + 0.2817188376 * g + 0.6299787005 * b);
    return 0.2104542553 * l + 0.7936177850 * m - 0.0040720468 * s;
}

TEST(QuantityMap, LightnessRisesWithSpeedAndHeight) {
    EXPECT_NEAR(lightness({1, 1, 1}), 1, 1e-6);
    for (const Quantity quantity : {Quantity::Speed, Quantity::Height}) {
        const QuantityRange range{0, 100};
        double before = -1;
        for (double value = 0; value <= 100; value += 0.5) {
            const double now = lightness(mapColour(quantity, range, value));
            EXPECT_GT(now, before);
            before = now;
        }
        const auto stops = mapStops(quantity);
        for (std::size_t i = 1; i < stops.size(); ++i) {
            EXPECT_GT(lightness(stops[i]) - lightness(stops[i - 1]), 0.05);
        }
    }
}

TEST(QuantityMap, LoadIsLightestAtZeroAndFallsToBothSides) {
    const QuantityRange range{-6, 10};
    double before = 2;
    for (double g = 0; g <= 10; g += 0.1) {
        const double now = lightness(mapColour(Quantity::Load, range, g));
        EXPECT_LT(now, before) << g;
        before = now;
    }
    before = 2;
    for (double g = 0; g >= -6; g -= 0.1) {
        const double now = lightness(mapColour(Quantity::Load, range, g));
        EXPECT_LT(now, before) << g;
        before = now;
    }
    // Push is blue, pull orange.
    const glm::vec3 push = mapColour(Quantity::Load, range, -3);
    const glm::vec3 pull = mapColour(Quantity::Load, range, 5);
    EXPECT_GT(push.b, push.r);
    EXPECT_GT(pull.r, pull.b);
    // 0 g is the seventh stop, as published with the map: #d0e1ed.
    const glm::vec3 zero = mapColour(Quantity::Load, range, 0);
    EXPECT_NEAR(zero.r, 0xd0 / 255.0, 1e-6);
    EXPECT_NEAR(zero.g, 0xe1 / 255.0, 1e-6);
    EXPECT_NEAR(zero.b, 0xed / 255.0, 1e-6);
}

TEST(QuantityMap, StopsAreMetAndEndsHold) {
    for (const Quantity quantity : {Quantity::Load, Quantity::Speed, Quantity::Height}) {
        const auto stops = mapStops(quantity);
        const QuantityRange range{-5, 35};
        for (std::size_t i = 0; i < stops.size(); ++i) {
            const double value =
                -5 + 40.0 * static_cast<double>(i) / static_cast<double>(stops.size() - 1);
            EXPECT_LT(glm::length(mapColour(quantity, range, value) - stops[i]), 1e-5);
        }
        EXPECT_EQ(mapColour(quantity, range, -100), stops.front());
        EXPECT_EQ(mapColour(quantity, range, 1e9), stops.back());
        EXPECT_EQ(mapColour(quantity, range, std::nan("")), stops.front());
        EXPECT_EQ(mapColour(quantity, {3, 3}, 2), stops.front());
    }
}

TEST(QuantityMap, RangesComeFromThePath) {
    path::Path path = levelPass(120, 60);
    path.samples[500].airspeed_mps = 80;
    EXPECT_DOUBLE_EQ(rangeOf(Quantity::Speed, path).high, 84);
    EXPECT_DOUBLE_EQ(rangeOf(Quantity::Speed, path).low, 0);
    EXPECT_DOUBLE_EQ(rangeOf(Quantity::Height, path).high, 120);
    EXPECT_DOUBLE_EQ(rangeOf(Quantity::Load, path).low, -6);
    EXPECT_DOUBLE_EQ(rangeOf(Quantity::Load, path).high, 10);
    // The pilot pressed into the seat: the accelerometer reads upwards, body -z.
    path::Sample sample;
    sample.specific_force_B_mps2 = {0, 0, -5 * kGravity_mps2};
    EXPECT_NEAR(valueOf(Quantity::Load, sample), 5, 1e-12);
    EXPECT_LT(rangeOf(Quantity::Height, {}).low, rangeOf(Quantity::Height, {}).high);
}

}  // namespace
}  // namespace plumbline::scene

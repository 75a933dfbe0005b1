#include "viewer/scene/quantity_map.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

namespace plumbline::scene {

namespace {

constexpr glm::vec3 colourOf(std::uint32_t rgb) {
    return {static_cast<float>((rgb >> 16) & 255U) / 255.0F,
            static_cast<float>((rgb >> 8) & 255U) / 255.0F,
            static_cast<float>(rgb & 255U) / 255.0F};
}

// Ramps of even steps in a perceptual space; lightness rises (speed, height) or falls to both sides
// of 0 g, the seventh of load's stops, one a g.
constexpr std::array<glm::vec3, 9> kSpeed = {
    colourOf(0x431550), colourOf(0x64225b), colourOf(0x873061),
    colourOf(0xa94160), colourOf(0xca545a), colourOf(0xe17149),
    colourOf(0xef9239), colourOf(0xf7bd66), colourOf(0xffe6a4)};
constexpr std::array<glm::vec3, 9> kHeight = {
    colourOf(0x1c2564), colourOf(0x1b3f79), colourOf(0x17598c),
    colourOf(0x18739c), colourOf(0x268dab), colourOf(0x4aa9b5),
    colourOf(0x72c3bf), colourOf(0x9cdccb), colourOf(0xc6f5da)};
constexpr std::array<glm::vec3, 17> kLoad = {
    colourOf(0x08348a), colourOf(0x124d9d), colourOf(0x2266b1), colourOf(0x347ec4),
    colourOf(0x68a0d2), colourOf(0x9bc1e0), colourOf(0xd0e1ed), colourOf(0xe8d4ad),
    colourOf(0xe8c383), colourOf(0xe8ae5a), colourOf(0xdf9742), colourOf(0xd6802a),
    colourOf(0xcc6911), colourOf(0xbd5200), colourOf(0xa33e01), colourOf(0x8a2a00),
    colourOf(0x711700)};

constexpr std::array<glm::vec3, 9> kApart = {
    colourOf(0xf1ebd5), colourOf(0xedd9ac), colourOf(0xedc383),
    colourOf(0xeea95b), colourOf(0xe68839), colourOf(0xdc651e),
    colourOf(0xc4431a), colourOf(0x9b2a1f), colourOf(0x72111b)};

/// A grey of the same luminance (weights of IEC 61966-2-1 primaries; display space, near enough).
glm::vec3 greyOf(const glm::vec3& colour) {
    const float grey = 0.2126F * colour.r + 0.7152F * colour.g + 0.0722F * colour.b;
    return {grey, grey, grey};
}

constexpr double kLoadLow_g = -6, kLoadHigh_g = 10;
constexpr double kSpeedRoom = 1.05;  // chosen: the fastest moment is not the very end of the map

}  // namespace

QuantityRange rangeOf(Quantity quantity, const path::Path& path) {
    double highest = 0;
    for (const path::Sample& sample : path.samples) {
        highest = std::max(highest, valueOf(quantity, sample));
    }
    return rangeUpTo(quantity, highest);
}

QuantityRange rangeUpTo(Quantity quantity, double highest) {
    if (quantity == Quantity::Load) return {kLoadLow_g, kLoadHigh_g};
    if (quantity == Quantity::Speed) highest *= kSpeedRoom;
    return {0, highest > 0 ? highest : 1};
}

double valueOf(Quantity quantity, const path::Sample& sample) {
    switch (quantity) {
        case Quantity::Load:
            return loadFactors(sample.specific_force_B_mps2).normal_g;
        case Quantity::Speed:
            // A recording may not know its airspeed.
            return sample.airspeed_mps > 0 ? sample.airspeed_mps
                                           : glm::length(sample.velocity_S_mps);
        case Quantity::Height:
            return sample.position_S_m.z;
        case Quantity::Apart:
            break;
    }
    return 0;
}

glm::vec3 mapColour(Quantity quantity, const QuantityRange& range, double value, bool grey) {
    const std::span<const glm::vec3> stops = mapStops(quantity);
    const auto last = static_cast<double>(stops.size() - 1);
    const double span = range.high - range.low;
    // Written so that NaN takes the low end.
    const double at = (value - range.low) / (span > 0 ? span : 1) * last;
    const double place = at > 0 ? std::min(at, last) : 0;
    const auto index = std::min(static_cast<std::size_t>(place), stops.size() - 2);
    const auto part = static_cast<float>(place - static_cast<double>(index));
    const glm::vec3 colour = stops[index] + part * (stops[index + 1] - stops[index]);
    return grey ? greyOf(colour) : colour;
}

std::span<const glm::vec3> mapStops(Quantity quantity) {
    switch (quantity) {
        case Quantity::Speed:
            return kSpeed;
        case Quantity::Height:
            return kHeight;
        case Quantity::Apart:
            return kApart;
        case Quantity::Load:
            break;
    }
    return kLoad;
}

}  // namespace plumbline::scene

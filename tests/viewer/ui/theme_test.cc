// Contrast as WCAG 2.2 defines it (W3C Recommendation, "relative luminance", "contrast ratio"),
// with its levels 1.4.3 (text 4.5) and 1.4.11 (graphics 3); and the four meanings told apart by
// eyes without red or green cones (Machado, Oliveira and Fernandes, IEEE TVCG 15(6), 2009, severity
// 1; the matrices from memory: their rows sum to 1, so that white stays white).

#include "viewer/ui/theme.h"

#include <algorithm>
#include <array>
#include <cmath>

#include <gtest/gtest.h>

namespace plumbline::ui {
namespace {

using Rgb = std::array<double, 3>;

Rgb linear(Colour colour) {
    Rgb out{};
    for (int i = 0; i < 3; ++i) {
        const double part = ((colour >> (8 * i)) & 0xFFU) / 255.0;
        out[static_cast<std::size_t>(i)] =
            part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
    }
    return out;
}

double luminance(Colour colour) {
    const Rgb c = linear(colour);
    return 0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2];
}

double contrast(Colour a, Colour b) {
    const double first = luminance(a), second = luminance(b);
    return (std::max(first, second) + 0.05) / (std::min(first, second) + 0.05);
}

TEST(Contrast, ExtremesOfTheDefinition) {
    EXPECT_NEAR(contrast(colourOf(0x000000), colourOf(0xffffff)), 21, 1e-9);
    EXPECT_NEAR(contrast(colourOf(0x123456), colourOf(0x123456)), 1, 1e-12);
}

class Themes : public testing::TestWithParam<bool> {};
INSTANTIATE_TEST_SUITE_P(Both, Themes, testing::Bool());

TEST_P(Themes, TextIsReadableOnWhatItStandsOn) {
    const Theme& t = themeOf(GetParam());
    for (const Colour ground : {t.surface, t.raised}) {
        for (const Colour text : {t.ink, t.ink2, t.ink3, t.now, t.alarm}) {
            EXPECT_GE(contrast(text, ground), 4.5) << std::hex << text << " on " << ground;
        }
    }
    EXPECT_GE(contrast(t.on_fill, t.fill), 4.5);
}

TEST_P(Themes, MarksStandOutFromTheirGround) {
    const Theme& t = themeOf(GetParam());
    for (const Colour ground : {t.surface, t.raised}) {
        for (const Colour mark : {t.edge, t.flight, t.wheel_side, t.now}) {
            EXPECT_GE(contrast(mark, ground), 3) << std::hex << mark << " on " << ground;
        }
    }
}

/// CIE 1976 L*a*b* of linear sRGB under D65 (ISO/CIE 11664-4, IEC 61966-2-1).
Rgb labOf(const Rgb& c) {
    const auto f = [](double t) {
        return t > 216.0 / 24389 ? std::cbrt(t) : (24389.0 / 27 * t + 16) / 116;
    };
    const double x = f((0.4124 * c[0] + 0.3576 * c[1] + 0.1805 * c[2]) / 0.9505);
    const double y = f(0.2126 * c[0] + 0.7152 * c[1] + 0.0722 * c[2]);
    const double z = f((0.0193 * c[0] + 0.1192 * c[1] + 0.9505 * c[2]) / 1.0890);
    return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

using Matrix = std::array<Rgb, 3>;
constexpr Matrix kNoRedCones{{{0.152286, 1.052583, -0.204868},
                              {0.114503, 0.786281, 0.099216},
                              {-0.003882, -0.048116, 1.051998}}};
constexpr Matrix kNoGreenCones{{{0.367322, 0.860646, -0.227968},
                                {0.280085, 0.672501, 0.047413},
                                {-0.011820, 0.042940, 0.968881}}};

Rgb seen(const Matrix& by, Colour colour) {
    const Rgb c = linear(colour);
    Rgb out{};
    for (std::size_t i = 0; i < 3; ++i) {
        out[i] = std::clamp(by[i][0] * c[0] + by[i][1] * c[1] + by[i][2] * c[2], 0.0, 1.0);
    }
    return labOf(out);
}

TEST_P(Themes, TheFourMeaningsDifferForColourBlindEyes) {
    const Theme& t = themeOf(GetParam());
    const std::array meanings{t.ink, t.flight, t.now, t.alarm};
    for (const Matrix& eyes : {kNoRedCones, kNoGreenCones}) {
        for (std::size_t i = 0; i < meanings.size(); ++i) {
            for (std::size_t j = i + 1; j < meanings.size(); ++j) {
                const Rgb a = seen(eyes, meanings[i]), b = seen(eyes, meanings[j]);
                // chosen: twenty is far beyond a just noticeable difference (about 2.3).
                EXPECT_GE(std::hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]), 20)
                    << i << " and " << j;
            }
        }
    }
}

}  // namespace
}  // namespace plumbline::ui

#include "engine/base/number_text.h"

#include <clocale>
#include <cmath>
#include <limits>

#include <gtest/gtest.h>

namespace plumbline {
namespace {

TEST(ParseDouble, ReadsWholeNumbersOnly) {
    EXPECT_EQ(parseDouble("1.5"), 1.5);
    EXPECT_EQ(parseDouble("+1.5"), 1.5);
    EXPECT_EQ(parseDouble("-.25e2"), -25.0);
    for (const char* bad : {"", "+", "-", "+-1", "++1", " 1", "1 ", "1,5", "1.5m", "nan", "inf",
                            "-inf", "1e999", "0x10", "one"})
        EXPECT_FALSE(parseDouble(bad).has_value()) << bad;
}

TEST(FormatDouble, ReadsBackToTheSameBits) {
    for (double value : {0.1, 1.0 / 3, 6.02214076e23, -2.2250738585072014e-308, 120.0, 0.0})
        EXPECT_EQ(parseDouble(formatDouble(value)), value);
    EXPECT_EQ(formatDouble(0.1), "0.1");
    EXPECT_EQ(formatDouble(std::nan("")), "nan");
    EXPECT_EQ(formatDouble(-std::numeric_limits<double>::infinity()), "-inf");
}

TEST(FormatFixed, HasNoNegativeZero) {
    EXPECT_EQ(formatFixed(-0.004, 2), "0.00");
    EXPECT_EQ(formatFixed(-0.006, 2), "-0.01");
    EXPECT_EQ(formatFixed(12.5, 0), "12");  // halves go to the even neighbour, as in C
    EXPECT_EQ(formatFixed(1234.5678, 1), "1234.6");
}

TEST(NumberText, DoesNotDependOnTheLocale) {
    const char* const changed = std::setlocale(LC_ALL, "de_DE.UTF-8");
    EXPECT_EQ(parseDouble("1.5"), 1.5);
    EXPECT_EQ(formatFixed(1.5, 2), "1.50");
    EXPECT_EQ(formatDouble(1.5), "1.5");
    if (changed != nullptr) std::setlocale(LC_ALL, "C");
}

}  // namespace
}  // namespace plumbline

// The rule: value and doubt to the same digit, the doubt to one figure, two where it begins with 1
// (as is usual, see JCGM 100:2008, 7.2.6), and never made smaller than it is.
#include "engine/base/measured_text.h"

#include <gtest/gtest.h>

namespace plumbline {
namespace {

TEST(MeasuredText, HasValueAndDoubtToTheSameDigit) {
    EXPECT_EQ(measuredText(87.23, 0.4, {1}), "87.2 \u00B10.4");
    EXPECT_EQ(measuredText(14.3, 2, {1}), "14 \u00B12");
    EXPECT_EQ(measuredText(142, 20, {1}), "140 \u00B120");
    EXPECT_EQ(measuredText(1.234, 0.12, {3}), "1.23 \u00B10.12");
    EXPECT_EQ(measuredText(-2.61, 0.3, {1, true, Signs::Plain}), "-2.6 +- 0.3");
    EXPECT_EQ(measuredText(2.61, 0, {1, true}), "+2.6");
}

TEST(MeasuredText, RoundsADoubtUpNeverDown) {
    EXPECT_EQ(measuredText(17, 2.3, {0}), "17 \u00B13");
    EXPECT_EQ(measuredText(17, 1.42, {0}), "17 \u00B12");
    EXPECT_EQ(measuredText(17.04, 1.42, {1}), "17.0 \u00B11.5");
    // A hair is no step.
    EXPECT_EQ(measuredText(17, 2.04, {0}), "17 \u00B12");
    EXPECT_EQ(measuredText(0.5, 0.91, {1}), "0.5 \u00B11.0");
    // Two figures only where they begin with 1.
    EXPECT_EQ(measuredText(5.43, 1.93, {1}), "5 \u00B12");
    EXPECT_EQ(measuredText(5.43, 1.88, {1}), "5.4 \u00B11.9");
}

TEST(MeasuredText, ShowsNoDoubtBelowItsLastDigit) {
    EXPECT_EQ(measuredText(87.2, 0.004, {1}), "87.2 \u00B10.1");
    EXPECT_EQ(measuredText(1234, 3, {-1}), "1230 \u00B110");
}

TEST(MeasuredText, HasNoSignOnNothing) {
    EXPECT_EQ(measuredText(-0.2, 1.5, {0, true}), "0 \u00B12");
    EXPECT_EQ(measuredText(-4, 23, {0, true}), "0 \u00B130");
    EXPECT_EQ(valueText(-26, 23, {0, true}), "\u221230");
}

}  // namespace
}  // namespace plumbline

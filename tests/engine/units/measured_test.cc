#include "engine/units/measured.h"

#include <gtest/gtest.h>

namespace plumbline::units {
namespace {

TEST(Measured, TurnsValueAndDoubtIntoTheUnitTogether) {
    EXPECT_EQ(measuredHeight(100, 3, DisplayUnits::Metric, Signs::Plain).joined(), "100 +- 3 m");
    // 100 m are 328.08 ft, 3 m are 9.8 ft.
    EXPECT_EQ(measuredHeight(100, 3, DisplayUnits::Feet, Signs::Plain).joined(), "328 +- 10 ft");
    EXPECT_EQ(measuredHeight(400, 3, DisplayUnits::Feet, Signs::Plain).joined(), "1310 +- 10 ft");
    // 80 m/s are 155.5 kt and 288 km/h; 1.2 m/s are 2.3 kt and 4.3 km/h.
    EXPECT_EQ(measuredSpeed(80, 1.2, DisplayUnits::Aviation, Signs::Plain).joined(), "156 +- 3 kt");
    EXPECT_EQ(measuredSpeed(80, 1.2, DisplayUnits::Metric, Signs::Plain).joined(), "288 +- 5 km/h");
    EXPECT_EQ(measuredLoad(6.04, 0.23, Signs::Typeset).joined(), "+6.0 \u00B10.3 g");
}

}  // namespace
}  // namespace plumbline::units

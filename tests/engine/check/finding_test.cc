#include "engine/check/finding.h"

#include <gtest/gtest.h>

namespace plumbline::check {
namespace {

// International foot and nautical mile: exactly 0.3048 m, 1852 m (ISO 80000-3).
TEST(Finding, HeightsAndSpeedsAreToldInTheUnitsAskedFor) {
    using units::DisplayUnits;
    Finding finding;
    for (const char* kind : {"floor", "lowest height", "gate", "cloud", "density altitude"}) {
        finding.kind = kind;
        EXPECT_EQ(inUnits(finding, "100 m", DisplayUnits::Feet), "328 ft") << kind;
        EXPECT_EQ(inUnits(finding, "100 m", DisplayUnits::Aviation), "100 m") << kind;
    }
    finding.kind = "speed";
    EXPECT_EQ(inUnits(finding, "100 kt", DisplayUnits::Metric), "185 km/h");
    EXPECT_EQ(inUnits(finding, "100 kt", DisplayUnits::Feet), "100 kt");
}

TEST(Finding, DistancesAndWordsStayAsTheyAre) {
    Finding finding;
    finding.kind = "crowd distance";
    EXPECT_EQ(inUnits(finding, "100 m", units::DisplayUnits::Feet), "100 m");
    finding.kind = "floor";
    EXPECT_EQ(inUnits(finding, "110 m long", units::DisplayUnits::Feet), "110 m long");
    EXPECT_EQ(inUnits(finding, "", units::DisplayUnits::Feet), "");
}

}  // namespace
}  // namespace plumbline::check

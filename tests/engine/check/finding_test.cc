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
    EXPECT_EQ(inUnits(finding, "", units::DisplayUnits::Feet), "");
}

TEST(Finding, HeightsAndSpeedsWithinWordsAreToldInTheUnitsToo) {
    using units::DisplayUnits;
    Finding finding;
    finding.kind = "slide";
    const std::string slide = "110 m long, 74 kt tail first at its end";
    // 110 / 0.3048 = 360.9, 74 * 1.852 = 137.0.
    EXPECT_EQ(inUnits(finding, slide, DisplayUnits::Feet),
              "361 ft long, 74 kt tail first at its end");
    EXPECT_EQ(inUnits(finding, slide, DisplayUnits::Metric),
              "110 m long, 137 km/h tail first at its end");
    EXPECT_EQ(inUnits(finding, slide, DisplayUnits::Aviation), slide);
    finding.kind = "fall";
    EXPECT_EQ(inUnits(finding, "3.3 s, 138 m, 96 kt", DisplayUnits::Feet), "3.3 s, 453 ft, 96 kt");
    finding.kind = "spin";
    // Sinking is told in m/s; to slow down is a way along the ground.
    EXPECT_EQ(inUnits(finding, "200 m, sinking at 40 m/s", DisplayUnits::Feet),
              "656 ft, sinking at 40 m/s");
    EXPECT_EQ(inUnits(finding, "120 kt to 60 kt over 300 m", DisplayUnits::Metric),
              "222 km/h to 111 km/h over 300 m");
    finding.kind = "not flyable";
    EXPECT_EQ(inUnits(finding, "at 30 kt, height 100 m", DisplayUnits::Feet),
              "at 30 kt, height 328 ft");
    finding.kind = "pivot";
    EXPECT_EQ(
        inUnits(finding, "1.0 half spans, the downline 13 m from the upline", DisplayUnits::Feet),
        "1.0 half spans, the downline 13 m from the upline");
}

}  // namespace
}  // namespace plumbline::check

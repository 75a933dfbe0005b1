#include <gtest/gtest.h>

#include "engine/data/pilot_toml.h"

namespace plumbline::data {
namespace {

TEST(SpreadToml, TakesWhatIsWrittenAndKeepsTheRest) {
    const auto pilot = readPilot(R"(name = "Someone"
[spread]
entry_speed = "6 kt"
height = "30 ft"
temperature = "1.5 K"
power = "4 %"
left = "50 %"
)",
                                 "p.pilot.toml");
    ASSERT_TRUE(pilot) << describe(pilot.error());
    EXPECT_NEAR(pilot->spread.entry_speed_mps, 6 * 1852.0 / 3600, 1e-9);
    EXPECT_NEAR(pilot->spread.height_m, 30 * 0.3048, 1e-9);
    EXPECT_NEAR(pilot->spread.temperature_k, 1.5, 1e-12);
    EXPECT_NEAR(pilot->spread.power_frac, 0.04, 1e-12);
    EXPECT_NEAR(pilot->spread.left_frac, 0.5, 1e-12);
    EXPECT_EQ(pilot->spread.load_g, Spread{}.load_g);
}

TEST(SpreadToml, SaysEverythingThatIsWrongAtItsPlace) {
    const auto pilot = readPilot(R"(name = "Someone"
[spread]
load = "-1 g"
timing = "2"
hight = "3 m"
left = "120 %"
)",
                                 "p.pilot.toml");
    ASSERT_FALSE(pilot);
    const Problems& problems = pilot.error();
    ASSERT_EQ(problems.size(), 4) << describe(problems);
    for (const int line : {3, 4, 5, 6}) {
        int here = 0;
        for (const Problem& p : problems) here += p.where.line == line ? 1 : 0;
        EXPECT_EQ(here, 1) << line << "\n" << describe(problems);
    }
}

}  // namespace
}  // namespace plumbline::data

#include <gtest/gtest.h>

#include "engine/base/constants.h"
#include "engine/data/pilot_toml.h"
#include "engine/data/rules_toml.h"

namespace plumbline::data {
namespace {

constexpr double kKnot = 1852.0 / 3600;

std::string pilotProblems(const std::string& text) {
    const auto pilot = readPilot(text, "p");
    return pilot ? "none" : describe(pilot.error());
}

std::string ruleProblems(const std::string& text) {
    const auto rules = readRules(text, "r");
    return rules ? "none" : describe(rules.error());
}

const std::string kHead = "name = \"n\"\nedition = \"e\"\nremark = \"m\"\n";

TEST(PilotToml, ReadsEveryLimitAndLeavesTheRestUnset) {
    const auto pilot = readPilot(
        "name = \"a\"\nlowest = \"100 ft\"\nload_max = \"7 g\"\nload_min = \"-4 g\"\n"
        "crosswind = \"15 kt\"\n",
        "p");
    ASSERT_TRUE(pilot.has_value()) << describe(pilot.error());
    EXPECT_NEAR(pilot->lowest_m, 30.48, 1e-9);
    EXPECT_EQ(pilot->load_max_g, 7);
    EXPECT_EQ(pilot->load_min_g, -4);
    EXPECT_NEAR(pilot->crosswind_mps, 15 * kKnot, 1e-9);
    EXPECT_EQ(pilot->sustained_s, 0);
}

TEST(PilotToml, SaysWhereWhatAndHow) {
    EXPECT_EQ(pilotProblems("name = \"a\"\nload_max = \"7\"\n").substr(0, 6), "p:2:14");
    EXPECT_EQ(pilotProblems("name = \"a\"\nsustained_load = \"5 g\"\n"),
              "p:2:1: sustained_load without sustained_time: write sustained_time too\n");
    EXPECT_NE(pilotProblems("name = \"a\"\nlod_max = \"7 g\"\n").find("did you mean load_max"),
              std::string::npos);
    EXPECT_NE(pilotProblems("\xff"), "none");
    EXPECT_NE(pilotProblems(""), "none");
}

TEST(RulesToml, ReadsEachKind) {
    const auto rules = readRules(
        kHead +
            "[aerobatic]\npitch = \"60 deg\"\nbank = \"75 deg\"\n"
            "[[distance]]\nflight = \"aerobatic\"\nspeed_from = \"100 kt\"\nspeed_to = \"200 kt\"\n"
            "least = \"150 m\"\nsource = \"s\"\nverified = \"yes\"\n"
            "[[category]]\nname = \"III\"\nleast = \"500 ft\"\nspeed_to = \"156 kt\"\nsource = "
            "\"s\"\n"
            "[[height]]\nflight = \"fly-past\"\nleast = \"30 m\"\nsource = \"s\"\n"
            "[[zone]]\nwidth = \"1000 m\"\ndepth = \"1000 m\"\nbottom = \"100 m\"\ntop = \"1000 "
            "m\"\n"
            "source = \"s\"\n",
        "r");
    ASSERT_TRUE(rules.has_value()) << describe(rules.error());
    EXPECT_NEAR(rules->aerobatic_pitch_rad, kPi / 3, 1e-12);
    ASSERT_EQ(rules->distances.size(), 1U);
    EXPECT_EQ(rules->distances[0].flight, Flight::Aerobatic);
    EXPECT_NEAR(rules->distances[0].to_mps, 200 * kKnot, 1e-9);
    EXPECT_TRUE(rules->distances[0].basis.verified);
    ASSERT_EQ(rules->categories.size(), 1U);
    EXPECT_NEAR(rules->categories[0].distance_m, 152.4, 1e-9);
    EXPECT_FALSE(rules->categories[0].basis.verified);
    ASSERT_EQ(rules->heights.size(), 1U);
    EXPECT_EQ(rules->heights[0].flight, Flight::FlyPast);
    ASSERT_EQ(rules->zones.size(), 1U);
    EXPECT_EQ(rules->zones[0].top_m, 1000);
}

TEST(RulesToml, SaysWhereWhatAndHow) {
    EXPECT_NE(ruleProblems(kHead).find("there is no rule in it"), std::string::npos);
    EXPECT_NE(ruleProblems(kHead + "[[height]]\nleast = \"30 m\"\n").find("source"),
              std::string::npos);
    EXPECT_NE(ruleProblems(kHead + "[[distance]]\nleast = \"30 m\"\nsource = \"s\"\n"
                                   "speed_from = \"200 kt\"\nspeed_to = \"100 kt\"\n")
                  .find("r:8:1: speed_to is not above speed_from"),
              std::string::npos);
    EXPECT_NE(ruleProblems("[[height]]\nleast = \"30 m\"\nsource = \"s\"\n"), "none");
    EXPECT_NE(
        ruleProblems(kHead + "[[height]]\nflight = \"low\"\nleast = \"3 m\"\nsource = \"s\"\n"),
        "none");
}

}  // namespace
}  // namespace plumbline::data

// Checks against obstacles, the crowd, rule sets, pilot, engine and day: each by a path that passes
// its limit by a hair, or keeps it. Limits are set here; values are geometry or closed forms.

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "tests/engine/check/level_flight.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::check {
namespace {

using fly::test::kKnot;
using fly::test::plausibleAircraft;

// Twenty seconds level at 200 m, 60 m/s to crowd right, one g, 200 m beyond the crowd line; fifty
// samples a second.
struct Case {
    data::Aircraft aircraft = plausibleAircraft();
    data::Site site;
    data::Weather weather;
    routine::Routine routine;
    path::Path path;
    data::Pilot pilot;
    std::vector<data::RuleSet> rules;

    Case() {
        site.crowd_line_y_m = -150;
        site.crowd_x_min_m = -300;
        site.crowd_x_max_m = 300;
        path.figures = {{"only", 0, 20}};
        path.elements = {{0, "line level", 4, 0, 20}};
        path.samples = test::levelFlight(20, -600);
        for (path::Sample& s : path.samples) {
            s.power_frac = 0.8;
            s.head_temperature_k = 450;
        }
    }
    path::Sample& at(double time_s) {
        return path.samples[static_cast<std::size_t>(std::lround(time_s / 0.02))];
    }
    template <class Change>
    void between(double from_s, double to_s, Change&& change) {
        for (path::Sample& s : path.samples)
            if (s.time_s >= from_s - 1e-9 && s.time_s <= to_s + 1e-9) change(s);
    }
    void loadBetween(double from_s, double to_s, double load_g) {
        between(from_s, to_s,
                [&](path::Sample& s) { s.specific_force_B_mps2.z = -load_g * kGravity_mps2; });
    }
    /// The finding of that kind; an empty one when there is none.
    Finding find(const std::string& kind) const {
        const std::vector<Finding> all =
            checkRoutine(aircraft, site, weather, routine, path, {}, pilot, rules);
        const auto it =
            std::find_if(all.begin(), all.end(), [&](const Finding& f) { return f.kind == kind; });
        return it == all.end() ? Finding() : *it;
    }
};

data::RuleSet ruleSet() {
    data::RuleSet rules;
    rules.name = "Rules";
    rules.edition = "first";
    rules.aerobatic_pitch_rad = 60 * kPi / 180;
    rules.aerobatic_bank_rad = 75 * kPi / 180;
    return rules;
}

TEST(CheckSpace, ObstacleByDistanceFromItsPrism) {
    Case c;
    c.site.obstacle_clearance_m = 30;
    c.site.obstacles.push_back(
        {"mast", {Vec3(-2, 70, 0), Vec3(2, 70, 0), Vec3(2, 74, 0), Vec3(-2, 74, 0)}, 210});
    // It passes 20 m beside it, lower than its top.
    Finding f = c.find("obstacle");
    EXPECT_EQ(f.grade, Grade::Unsafe);
    EXPECT_EQ(f.value, "20 m");
    EXPECT_NEAR(f.margin, -10, 1e-9);
    EXPECT_NEAR(f.time_s, 10, 0.06);
    // 20 m beside and 24 m above: sqrt(20^2 + 24^2) = 31.2 m.
    c.site.obstacles[0].top_m = 176;
    f = c.find("obstacle");
    EXPECT_EQ(f.grade, Grade::Tight);
    EXPECT_NEAR(f.margin, std::sqrt(976.0) - 30, 1e-9);
    c.site.obstacles[0].top_m = 165;
    EXPECT_EQ(c.find("obstacle").kind, "");
}

TEST(CheckSpace, AFloorAreaCountsOnlyOverIt) {
    Case c;
    c.site.floor_areas.push_back(
        {"road", {Vec3(100, 0, 0), Vec3(200, 0, 0), Vec3(200, 100, 0), Vec3(100, 100, 0)}, 220});
    const Finding f = c.find("floor");
    EXPECT_EQ(f.grade, Grade::Unsafe);
    EXPECT_NEAR(f.margin, -20, 1e-9);
    EXPECT_GE(f.position_S_m.x, 100);
    EXPECT_LE(f.position_S_m.x, 200);
    c.site.floor_areas[0].outline_S_m[2].y = c.site.floor_areas[0].outline_S_m[3].y = 49;
    EXPECT_EQ(c.find("floor").kind, "");
}

// Turned toward the crowd by 30 deg, 60 m/s lead 60 m/s sin 30 deg x 2 s = 60 m nearer.
TEST(CheckSpace, TowardTheCrowdWithinTheTimeToReact) {
    Case c;
    c.site.reaction_s = 2;
    c.at(10).velocity_S_mps = Vec3(60 * std::cos(kPi / 6), -60 * std::sin(kPi / 6), 0);
    EXPECT_EQ(c.find("toward the crowd").kind, "");
    c.at(10).position_S_m.y = -150 + 75;
    Finding f = c.find("toward the crowd");
    EXPECT_EQ(f.grade, Grade::Tight);
    EXPECT_NEAR(f.margin, 15, 1e-9);
    c.at(10).position_S_m.y = -150 + 59;
    f = c.find("toward the crowd");
    EXPECT_EQ(f.grade, Grade::Unsafe);
    EXPECT_NEAR(f.margin, -1, 1e-9);
    // Beyond the corner markers there is nobody.
    c.at(10).position_S_m.x = 600;
    EXPECT_EQ(c.find("toward the crowd").kind, "");
}

TEST(CheckRules, DistanceGoesWithFlightAndSpeed) {
    Case c;
    data::RuleSet rules = ruleSet();
    rules.distances = {
        {data::Flight::FlyPast, 0, 0, 100, {"a source", true}},
        {data::Flight::Aerobatic, 100 * kKnot, 200 * kKnot, 230, {"another", false}}};
    c.rules = {rules};
    EXPECT_EQ(c.find("crowd distance").kind, "");  // a fly-past, 200 m away
    // Knife edge at 10 s: aerobatic, 200 m against 230 m. 60 m/s is 116 kt, less in calibrated.
    c.at(10).q_SB = Quat(0, 1, 0, 0) * rotationX(kPi / 2);
    const Finding f = c.find("crowd distance");
    EXPECT_EQ(f.grade, Grade::Unsafe);
    EXPECT_NEAR(f.margin, -30, 1e-9);
    EXPECT_NEAR(f.time_s, 10, 1e-9);
    EXPECT_FALSE(f.verified);
    EXPECT_NE(f.source.find("not verified"), std::string::npos);
    EXPECT_NE(f.source.find("another"), std::string::npos);
    c.at(10).airspeed_mps = 45;  // 87 kt: no row
    EXPECT_EQ(c.find("crowd distance").kind, "");
}

TEST(CheckRules, CategoryMustBeStatedThenItsLineCounts) {
    Case c;
    data::RuleSet rules = ruleSet();
    rules.categories = {{"II", 304.8, 245 * kKnot, {"s", false}},
                        {"III", 152.4, 156 * kKnot, {"s", false}}};
    c.rules = {rules};
    EXPECT_EQ(c.find("category").what, "the aircraft's category is not stated");
    c.aircraft.category = "III";
    EXPECT_EQ(c.find("category").kind, "");
    c.aircraft.category = "II";
    EXPECT_NEAR(c.find("category").margin, 200 - 304.8, 1e-9);
}

TEST(CheckRules, HeightAndZone) {
    Case c;
    data::RuleSet rules = ruleSet();
    rules.heights = {{data::Flight::Aerobatic, 201, {"s", true}}};
    c.rules = {rules};
    EXPECT_EQ(c.find("lowest height").kind, "");
    c.at(10).q_SB = Quat(0, 1, 0, 0) * rotationX(kPi);
    EXPECT_EQ(c.find("lowest height").grade, Grade::Unsafe);
    c.rules[0].heights.clear();
    c.rules[0].zones = {{1000, 1000, 100, 1000, {"s", true}}};
    // It begins and ends 600 m out.
    EXPECT_NEAR(c.find("zone").margin, -100, 1e-9);
}

TEST(CheckAirframe, LoadLimitGoesWithTheMass) {
    Case c;
    c.aircraft.load_limits = {{600, 10, -8}, {700, 8, -6}};
    c.at(10).specific_force_B_mps2.z = -9.8 * kGravity_mps2;  // at 620 kg the limit is 9.6 g
    const Finding f = c.find("load");
    EXPECT_EQ(f.grade, Grade::Unsafe);
    EXPECT_NEAR(f.margin, -0.2, 1e-9);
    c.at(10).mass_kg = 590;
    EXPECT_EQ(c.find("load").grade, Grade::Tight);
}

TEST(CheckAirframe, LoadWhileRolling) {
    Case c;
    c.aircraft.limits.roll_load_max_g = 5;
    c.at(10).specific_force_B_mps2.z = -5.5 * kGravity_mps2;
    EXPECT_EQ(c.find("rolling load").kind, "");
    c.at(10).rate_B_radps.x = 3;
    EXPECT_NEAR(c.find("rolling load").margin, -0.5, 1e-9);
}

TEST(CheckEngine, FullPowerHeadAndOverspeed) {
    Case c;
    c.aircraft.limits.full_power_s = 7;
    c.aircraft.power.head_limit_k = 500;
    c.aircraft.limits.overspeed_mps = 80;
    EXPECT_EQ(c.find("full power").kind, "");
    // Two stretches with five seconds between them are one.
    c.between(1, 5, [](path::Sample& s) { s.power_frac = 1; });
    c.between(10, 14, [](path::Sample& s) { s.power_frac = 1; });
    EXPECT_EQ(c.find("full power").grade, Grade::Unsafe);
    EXPECT_NEAR(c.find("full power").margin, 7 - 8, 0.05);
    EXPECT_EQ(c.find("head temperature").kind, "");
    c.at(12).head_temperature_k = 501;
    EXPECT_NEAR(c.find("head temperature").margin, -1, 1e-9);
    EXPECT_EQ(c.find("overspeed").kind, "");
    c.at(12).airspeed_mps = 83;  // 82.2 calibrated at 200 m
    EXPECT_EQ(c.find("overspeed").grade, Grade::Unsafe);
}

TEST(CheckPilot, LoadOnsetAndSustained) {
    Case c;
    c.pilot.load_max_g = 7;
    c.pilot.load_min_g = -4;
    c.pilot.onset_gps = 8;
    c.pilot.sustained_g = 5;
    c.pilot.sustained_s = 3;
    EXPECT_EQ(c.find("pilot load").kind, "");
    c.loadBetween(10, 13.5, 6);
    EXPECT_EQ(c.find("pilot load").kind, "");
    // From 1 to 6 g at once: 5 g in half a second.
    EXPECT_NEAR(c.find("onset").margin, 8 - 10, 0.01);
    EXPECT_EQ(c.find("sustained load").grade, Grade::Unsafe);
    EXPECT_NEAR(c.find("sustained load").margin, 3 - 3.5, 0.05);
    c.loadBetween(10, 10, 7.1);
    EXPECT_NEAR(c.find("pilot load").margin, -0.1, 1e-9);
    c.loadBetween(10, 10, -4.1);
    EXPECT_NEAR(c.find("pilot load").margin, -0.1, 1e-9);
}

TEST(CheckPilot, PushThenPull) {
    Case c;
    c.pilot.after_negative_g = 5;
    c.loadBetween(5, 7, -2);
    c.loadBetween(11, 12, 5.5);
    EXPECT_NEAR(c.find("push then pull").margin, -0.5, 1e-9);
    Case later;
    later.pilot.after_negative_g = 5;
    later.loadBetween(5, 7, -2);
    later.loadBetween(16, 17, 5.5);
    EXPECT_EQ(later.find("push then pull").kind, "");
    Case brief;
    brief.pilot.after_negative_g = 5;
    brief.loadBetween(5, 5.5, -2);
    brief.loadBetween(11, 12, 5.5);
    EXPECT_EQ(brief.find("push then pull").kind, "");
}

TEST(CheckPilot, TimeWithoutRest) {
    Case c;
    c.pilot.without_rest_s = 15;
    // Loaded every five seconds: never a rest.
    for (double t = 0; t <= 20; t += 5) c.loadBetween(t, t + 0.1, 4);
    EXPECT_EQ(c.find("rest").grade, Grade::Unsafe);
    EXPECT_NEAR(c.find("rest").margin, 15 - 20, 0.05);
    Case quiet;
    quiet.pilot.without_rest_s = 15;
    EXPECT_EQ(quiet.find("rest").kind, "");
}

TEST(CheckDay, WindAcrossTheRunway) {
    Case c;
    c.pilot.crosswind_mps = 15 * kKnot;
    c.pilot.wind_mps = 40 * kKnot;
    c.site.runway = data::Runway{};
    c.site.runway->bearing_rad = kPi / 2;
    // From 030 at 20 kt across an east-west runway: 20 sin 60 deg = 17.3 kt.
    c.weather.wind = {{10, 30 * kPi / 180, 20 * kKnot}, {300, 0, 60 * kKnot}};
    const Finding f = c.find("wind");
    EXPECT_EQ(f.grade, Grade::Unsafe);
    EXPECT_EQ(f.value, "17 kt");
    c.pilot.wind_mps = 19 * kKnot;
    c.pilot.crosswind_mps = 0;
    EXPECT_EQ(c.find("wind").value, "20 kt");
}

TEST(CheckDay, Ceiling) {
    Case c;
    c.weather.cloud_base_m = 199;
    c.weather.cloud_cover_frac = 0.7;
    EXPECT_EQ(c.find("cloud").grade, Grade::Unsafe);
    c.weather.cloud_cover_frac = 0.3;
    EXPECT_EQ(c.find("cloud").grade, Grade::Tight);
    c.weather.cloud_base_m = 251;
    EXPECT_EQ(c.find("cloud").kind, "");
}

// 5,000 ft on a standard day is a density altitude of 5,000 ft, by its definition.
TEST(CheckDay, DensityAltitude) {
    Case c;
    EXPECT_EQ(c.find("density altitude").kind, "");
    c.site.show_centre.elevation_m = 1524;
    c.weather.temperature_k = 288.15 - 0.0065 * 1524;
    EXPECT_EQ(c.find("density altitude").value, "1524 m");
}

// At local noon on the equator at the equinox the sun is overhead: nobody looks into it; near
// sunset it stands in the west.
TEST(CheckDay, SunAheadOfThePilot) {
    Case c;
    c.site.show_centre = {0, 0, 0};
    c.site.show_line_bearing_rad = 1.5 * kPi;  // flying west
    c.site.show_time_utc = "2026-03-20T12:00:00Z";
    EXPECT_EQ(c.find("sun").kind, "");
    c.site.show_time_utc = "2026-03-20T17:30:00Z";
    const Finding f = c.find("sun");
    EXPECT_EQ(f.grade, Grade::Note);
    EXPECT_EQ(f.value, "20.0 s");
    c.site.show_line_bearing_rad = 0;
    EXPECT_EQ(c.find("sun").kind, "");
}

}  // namespace
}  // namespace plumbline::check

// Verticals of aircraft whose zero-lift incidence is known: it is found, with an honest doubt.

#include "engine/review/zero_lift.h"

#include <cmath>

#include "engine/earth/wind.h"
#include "tests/engine/review/flown.h"

namespace plumbline::review {
namespace {

using test::demo;
using test::kDegree;

/// Two hammerheads and a pull-over, flown by an aircraft with that incidence in that wind.
path::Path flown(const data::Aircraft& aircraft, const data::Weather& weather, bool turned) {
    const std::string hammer =
        "line level 200 m\npull to up at 5 g\nline up until 40 kt\npivot left power 25 %\n"
        "line down 200 m\npull to level at 5 g\n";
    const std::string quarter =
        "line level 200 m\npull to up at 5 g\nline up 160 m with 1/4 roll left at start\n"
        "line up until 40 kt\npivot left power 25 %\nline down 60 m with 1/4 roll right at start\n"
        "line down 150 m\npull to level at 5 g\n";
    std::string toml =
        "name = 'Test'\naircraft = 'a'\nsite = 's'\n[start]\nx = '-600 m'\ny = '300 m'\n"
        "height = '400 m'\nheading = 'crowd-right'\nspeed = '150 kt'\nfuel = '60 l'\n";
    int number = 0;
    for (const std::string& text : {hammer, turned ? quarter : hammer})
        toml +=
            "[[figure]]\nname = 'F" + std::to_string(++number) + "'\ntext = '''\n" + text + "'''\n";
    const auto read = routine::readRoutine(toml, "test.routine.toml");
    EXPECT_TRUE(read.problems.empty());
    path::Path path =
        plumbline::fly::solve(aircraft, demo().site, weather, read.routine).samplePath(50);
    path.origin = path::Origin::Recording;
    for (path::Sample& s : path.samples) s.attitude_sigma_rad = static_cast<float>(0.3 * kDegree);
    return path;
}

data::Weather windy(double speed_mps) {
    data::Weather weather;
    weather.wind = {{10, 250 * kDegree, speed_mps}};
    return weather;
}

const earth::SiteAir& air() {
    static const earth::SiteAir kAir(demo().site.show_centre.elevation_m, 288.15, 101325);
    return kAir;
}

TEST(ZeroLift, IsFoundInCalmAir) {
    for (const double degrees : {-2.5, 0.0, 1.6}) {
        data::Aircraft aircraft = demo().aircraft;
        aircraft.aero.zero_lift_aoa_rad = degrees * kDegree;
        const auto found = zeroLiftOf(flown(aircraft, {}, false), aircraft, air(), Vec3(0));
        ASSERT_TRUE(found);
        EXPECT_GE(found->verticals, 4);
        EXPECT_NEAR(found->aoa_rad, degrees * kDegree, 2 * found->sigma_rad) << degrees;
        EXPECT_NEAR(found->aoa_rad, degrees * kDegree, 0.4 * kDegree) << degrees;
    }
}

// The lift slope of another incidence in the file must not matter: only the flight tells.
TEST(ZeroLift, DoesNotComeFromTheFile) {
    data::Aircraft aircraft = demo().aircraft;
    aircraft.aero.zero_lift_aoa_rad = 2 * kDegree;
    const path::Path flight = flown(aircraft, {}, false);
    const auto found = zeroLiftOf(flight, demo().aircraft, air(), Vec3(0));
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->aoa_rad, 2 * kDegree, 0.4 * kDegree);
}

TEST(ZeroLift, AWindThatNobodyToldIsWithinItsDoubt) {
    data::Aircraft aircraft = demo().aircraft;
    aircraft.aero.zero_lift_aoa_rad = 1.6 * kDegree;
    constexpr double kWind_mps = 3;
    const path::Path one_side = flown(aircraft, windy(kWind_mps), false);
    const path::Path both_sides = flown(aircraft, windy(kWind_mps), true);
    const auto calm = zeroLiftOf(flown(aircraft, {}, false), aircraft, air(), Vec3(0));
    for (const path::Path* flight : {&one_side, &both_sides}) {
        const auto found = zeroLiftOf(*flight, aircraft, air(), Vec3(0));
        ASSERT_TRUE(found);
        EXPECT_NEAR(found->aoa_rad, 1.6 * kDegree, 2 * found->sigma_rad);
        EXPECT_LT(found->sigma_rad, 2.5 * kDegree);
    }
    ASSERT_TRUE(calm);
    // Told of, the wind is taken off.
    const double angle = demo().site.show_line_bearing_rad - 250 * kDegree;
    const Vec3 wind = -kWind_mps * Vec3(std::cos(angle), std::sin(angle), 0);
    const auto told = zeroLiftOf(one_side, aircraft, air(), wind);
    ASSERT_TRUE(told);
    EXPECT_NEAR(told->aoa_rad, 1.6 * kDegree, 0.5 * kDegree);
}

TEST(ZeroLift, WithoutVerticalsNothingIsSaid) {
    const path::Path level = test::fly({{"Level", "line level 800 m"}});
    EXPECT_FALSE(zeroLiftOf(level, demo().aircraft, air(), Vec3(0)));
    path::Path unknown = flown(demo().aircraft, {}, false);
    unknown.known.attitude = false;
    EXPECT_FALSE(zeroLiftOf(unknown, demo().aircraft, air(), Vec3(0)));
}

}  // namespace
}  // namespace plumbline::review

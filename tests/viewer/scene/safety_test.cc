#include "viewer/scene/safety.h"

#include <gtest/gtest.h>

namespace plumbline::scene {
namespace {

check::Gate gate() {
    check::Gate g;
    g.time_s = 30;
    g.position_S_m = Vec3(100, 20, 280);
    g.complete_m = 171.2;
    g.escape_m = 20;
    return g;
}

TEST(Safety, AGateStandsAtItsHeightWhileItsTopIsNear) {
    DrawList list;
    addGates({gate()}, 25, list);
    ASSERT_EQ(list.lines.size(), 3U);
    for (std::size_t i = 0; i < 2; ++i)
        for (const Vec3& p : list.lines[i].points_S_m) EXPECT_EQ(p.z, 171.2);
    EXPECT_EQ(list.lines[2].points_S_m.back(), Vec3(100, 20, 280));
    ASSERT_EQ(list.labels.size(), 1U);
    EXPECT_EQ(list.labels[0].height_m, 175);  // up to whole five metres
    EXPECT_NEAR(list.labels[0].quiet_m.value_or(0), 280, 1);
    for (const double far_s : {10.0, 40.0}) {
        DrawList none;
        addGates({gate()}, far_s, none);
        EXPECT_TRUE(none.lines.empty());
    }
}

TEST(Safety, ATopBelowItsGateLooksOtherwise) {
    DrawList enough, low;
    check::Gate g = gate();
    addGates({g}, 30, enough);
    g.position_S_m.z = 150;
    addGates({g}, 30, low);
    EXPECT_NE(enough.lines[0].colour, low.lines[0].colour);
}

TEST(Safety, ReachIsAClosedOutlineOnTheGroundAndNothingWithoutEnergy) {
    data::Aircraft aircraft;
    aircraft.geometry.wing_area_m2 = 10;
    aircraft.aero.cd0 = 0.04;
    aircraft.aero.induced_k = 0.0625;
    aircraft.aero.cl_max = 1.3;
    const check::Glide glide(aircraft, {}, {}, {});
    path::Sample now;
    now.mass_kg = 620;
    now.position_S_m.z = 300;
    now.velocity_S_mps = Vec3(60, 0, 0);
    now.airspeed_mps = 60;
    DrawList list;
    addReach(glide, now, list);
    ASSERT_EQ(list.lines.size(), 1U);
    const Polyline& line = list.lines[0];
    EXPECT_TRUE(line.on_ground);
    EXPECT_EQ(line.points_S_m.front(), line.points_S_m.back());
    for (const Vec3& p : line.points_S_m) EXPECT_EQ(p.z, 0);
    now.position_S_m.z = 1;
    now.airspeed_mps = 20;
    now.velocity_S_mps = Vec3(20, 0, 0);
    DrawList none;
    addReach(glide, now, none);
    EXPECT_TRUE(none.lines.empty());
}

}  // namespace
}  // namespace plumbline::scene

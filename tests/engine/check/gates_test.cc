// Gates by the energy and the circle of a way down, engine failure by closed forms of a glide.

#include "engine/check/gates.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "engine/check/glide.h"
#include "engine/load/load.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::check {
namespace {

using fly::test::kKnot;
using fly::test::plausibleAircraft;

struct Flown {
    data::Aircraft aircraft = plausibleAircraft();
    data::Site site;
    data::Weather weather;
    data::Pilot pilot;
    fly::Solution solution;
    path::Path path;

    explicit Flown(const std::string& text, double speed_mps = 80) {
        site.floor_m = 20;
        routine::Routine routine;
        routine.start.height_m = 300;
        routine.start.speed_mps = speed_mps;
        routine.start.fuel_l = 50;
        routine::RoutineFigure figure;
        figure.name = "figure";
        figure.elements = text::parseFigureText(text, "", 1, {}).elements;
        routine.figures = {figure};
        solution = fly::solve(aircraft, site, weather, routine);
        path = solution.samplePath(50);
    }
    std::vector<Gate> gates() const { return gatesOf(aircraft, site, pilot, solution, path); }
};

TEST(Gates, OneAtTheTopOfALoopNoneOnAClimbOrALevelPass) {
    const std::vector<Gate> gates = Flown("pull 360 deg radius 115 m\nline level 200 m").gates();
    ASSERT_EQ(gates.size(), 1U);
    EXPECT_TRUE(gates[0].inverted);
    EXPECT_FALSE(gates[0].vertical);
    EXPECT_EQ(gates[0].figure, "figure");
    // Its top is two radii up, and as much is planned to be lost.
    EXPECT_NEAR(gates[0].position_S_m.z, 300 + 230, 2);
    EXPECT_NEAR(gates[0].planned_loss_m, 230, 2);
    EXPECT_TRUE(Flown("line level 800 m").gates().empty());
    EXPECT_TRUE(Flown("pull to 45 deg up at 4 g\nline 45 deg up 100 m\npush to level at 1 g\n"
                      "line level 300 m")
                    .gates()
                    .empty());
}

// Energy says how fast it is at the bottom where drag and thrust nearly cancel; at load n the
// radius there is v^2 / (g (n - 1)) and at the top v^2 / (g (n + 1)), so the loss lies between
// their doubles.
TEST(Gates, TheWayDownLiesBetweenTheCirclesOfTopAndBottom) {
    Flown f("pull 360 deg radius 150 m\nline level 200 m", 90);
    f.pilot.gate_load_g = 4;
    const std::vector<Gate> gates = f.gates();
    ASSERT_EQ(gates.size(), 1U);
    const double loss = gates[0].complete_m - f.site.floor_m;
    const double top = gates[0].airspeed_mps;
    const double least = 2 * top * top / (kGravity_mps2 * 5);
    const double bottom2 = top * top + 2 * kGravity_mps2 * loss;
    const double most = 2 * bottom2 / (kGravity_mps2 * 3);
    EXPECT_GT(loss, least);
    EXPECT_LT(loss, most);
    // A wing that gives 4 g at the top already: faster is wider.
    const Gate fast = gateAt(gates[0], 90, f.solution, f.path);
    const Gate slow = gateAt(gates[0], 75, f.solution, f.path);
    EXPECT_GT(fast.complete_m, slow.complete_m + 10);
    // Rolled upright and flown on, almost nothing is lost.
    EXPECT_LT(gates[0].escape_m, f.site.floor_m + 15);
    EXPECT_LT(gates[0].escape_m, gates[0].complete_m);
}

TEST(Gates, MoreLoadNeedsLessHeightWhereTheWingGivesIt) {
    Flown f("pull 360 deg radius 150 m\nline level 200 m", 90);
    double last = 1e9;
    for (const double load : {3.0, 4.0, 5.0}) {
        f.pilot.gate_load_g = load;
        const double complete = f.gates().at(0).complete_m;
        EXPECT_LT(complete, last - 5);
        last = complete;
    }
}

TEST(Gates, ATopLowerThanItsWayDownIsUnsafe) {
    Flown f("pull 360 deg radius 115 m\nline level 200 m");
    f.pilot.gate_load_g = 6;
    std::vector<Gate> gates = f.gates();
    ASSERT_EQ(gates.size(), 1U);
    EXPECT_TRUE(checkGates(gates, f.path).empty());
    gates[0].complete_m = gates[0].position_S_m.z - 10;
    EXPECT_EQ(checkGates(gates, f.path).at(0).grade, Grade::Tight);
    gates[0].complete_m = gates[0].position_S_m.z + 10;
    const Finding finding = checkGates(gates, f.path).at(0);
    EXPECT_EQ(finding.grade, Grade::Unsafe);
    EXPECT_NEAR(finding.margin, -10, 1e-9);
    // The lowest that the pilot allows himself counts where it is above the site's floor.
    f.pilot.lowest_m = 120;
    EXPECT_NEAR(
        f.gates().at(0).complete_m - f.gates().at(0).floor_m,
        gates[0].complete_m - 10 - (gates[0].complete_m - 10 - (f.gates().at(0).complete_m - 120)),
        1e-6);
    EXPECT_EQ(f.gates().at(0).floor_m, 120);
}

// After a pivot nothing but the pull from the vertical is left. Straight down from near rest a body
// needs v^2 / 2g of height for the speed at which its wing carries it round.
TEST(Gates, AVerticalHasOneWayDown) {
    Flown f(
        "pull to up at 6 g\nline up until 25 kt\npivot left\nline down 150 m\npull to level at 5 "
        "g");
    const std::vector<Gate> gates = f.gates();
    ASSERT_EQ(gates.size(), 1U);
    EXPECT_TRUE(gates[0].vertical);
    EXPECT_EQ(gates[0].complete_m, gates[0].escape_m);
    const double stall2 =
        2 * 620 * kGravity_mps2 / (1.2 * f.aircraft.geometry.wing_area_m2 * f.aircraft.aero.cl_max);
    EXPECT_GT(gates[0].complete_m - f.site.floor_m, stall2 / (2 * kGravity_mps2));
    EXPECT_LT(gates[0].complete_m - f.site.floor_m, gates[0].planned_loss_m);
}

// The clean polar: cd0 + k CL^2 has its best ratio 1 / (2 sqrt(cd0 k)), at CL = sqrt(cd0 / k).
struct Glider {
    data::Aircraft aircraft = plausibleAircraft();
    data::Site site;
    data::Weather weather;
    data::Pilot pilot;
    path::Sample sample;
    double ratio, speed;

    Glider() {
        aircraft.power.windmill_drag_area_m2 = 0;
        aircraft.aero.cd0 = 0.04;
        aircraft.aero.induced_k = 0.0625;
        pilot.engine_failure_s = 0;
        ratio = 1 / (2 * std::sqrt(0.04 * 0.0625));  // 10
        const double density = 1.225;
        speed =
            std::sqrt(2 * 620 * kGravity_mps2 / (density * aircraft.geometry.wing_area_m2 * 0.8));
        data::Runway runway;
        runway.length_m = 1000;
        runway.bearing_rad = 0;  // the show line's own direction
        site.runway = runway;
        sample.mass_kg = 620;
        sample.q_SB = Quat(0, 1, 0, 0);
    }
    Glide glide() const { return {aircraft, site, weather, pilot}; }
    void standAt(double x, double y, double height_m, const Vec3& velocity) {
        sample.position_S_m = Vec3(x, y, height_m);
        sample.velocity_S_mps = velocity;
        sample.airspeed_mps = glm::length(velocity);
    }
};

TEST(Glide, RatioAndSpeedAreThoseOfThePolar) {
    const Glider g;
    EXPECT_NEAR(g.glide().ratio(), 10, 1e-9);
    EXPECT_NEAR(g.glide().speed_mps(620), g.speed, 1e-9);
}

// Lined up 2,300 m before the threshold that lies 300 m this side of the middle: 2,000 m at 1 : 10
// cost 200 m.
TEST(Glide, StraightInCostsTheDistanceOverTheRatio) {
    Glider g;
    const double true_speed =
        g.speed * std::sqrt(1.225 / earth::SiteAir(0, 288.15, 101325).at(250).density_kgpm3);
    g.standAt(-2300, 0, 250, Vec3(true_speed, 0, 0));
    const Reach reach = g.glide().reach(g.sample);
    EXPECT_EQ(reach.strip, "runway");
    EXPECT_NEAR(reach.energy_height_m, 250, 1e-6);
    EXPECT_NEAR(reach.spare_m, 50, 0.01);
    // Speed above the glide's is height: v^2 / 2g.
    g.standAt(-2300, 0, 250, Vec3(80, 0, 0));
    EXPECT_NEAR(g.glide().reach(g.sample).spare_m,
                50 + (80 * 80 - true_speed * true_speed) / (2 * kGravity_mps2), 0.01);
}

// A head wind of w carries the threshold on: the way through the air is longer by V / (V - w).
TEST(Glide, AHeadWindCostsItsShare) {
    Glider g;
    const double true_speed =
        g.speed * std::sqrt(1.225 / earth::SiteAir(0, 288.15, 101325).at(400).density_kgpm3);
    g.weather.wind = {{10, 0, 10}};  // from the north, the show line's own direction
    g.standAt(-2300, 0, 400, Vec3(true_speed, 0, 0));
    const double spare = g.glide().reach(g.sample).spare_m;
    EXPECT_NEAR(spare, 400 - 2000 / 10.0 * true_speed / (true_speed - 10), 1);
}

// Flying away from the runway abeam of it: two half turns of the radius v^2 / (g tan 45) at the
// load 1 / cos 45, each metre of arc costing that load over the ratio.
TEST(Glide, ATurnRoundCostsItsArc) {
    Glider g;
    const double true_speed =
        g.speed * std::sqrt(1.225 / earth::SiteAir(0, 288.15, 101325).at(300).density_kgpm3);
    const double n = std::sqrt(2.0), radius = n * true_speed * true_speed / kGravity_mps2;
    // Outbound exactly two radii beside the threshold of the opposite landing direction.
    g.standAt(300, 2 * radius, 300, Vec3(true_speed, 0, 0));
    const Reach reach = g.glide().reach(g.sample);
    EXPECT_NEAR(reach.spare_m, 300 - kPi * radius * n / 10, 0.5);
    EXPECT_NEAR(reach.heading_rad, kPi, 1e-9);
}

TEST(Glide, TheOutlineIsWhereTheSpareHeightEnds) {
    Glider g;
    g.standAt(0, 0, 200, Vec3(g.speed * 1.01, 0, 0));
    const std::vector<Vec3> outline = g.glide().outline(g.sample, 36);
    ASSERT_EQ(outline.size(), 36U);
    // Straight ahead farthest, by height times ratio.
    EXPECT_NEAR(outline[0].x, 2000, 15);
    EXPECT_NEAR(outline[0].y, 0, 1e-9);
    for (const Vec3& p : outline) EXPECT_LE(std::hypot(p.x, p.y), outline[0].x + 1e-6);
    // Left and right alike.
    EXPECT_NEAR(outline[9].y, -outline[27].y, 1e-9);
}

TEST(Glide, StretchesOutOfReachLastUntilAStripIsThereAgain) {
    const auto reach = [](double time_s, double spare_m) {
        Reach r;
        r.time_s = time_s;
        r.strip = "runway";
        r.spare_m = spare_m;
        return r;
    };
    const std::vector<Spell> out =
        outOfReach({reach(0, -1), reach(0.5, 3), reach(1, -2), reach(1.5, -9), reach(2, 0),
                    reach(2.5, 4), reach(3, -1)});
    ASSERT_EQ(out.size(), 3U);
    EXPECT_EQ(out[0].from_s, 0);
    EXPECT_EQ(out[0].to_s, 0.5);
    EXPECT_EQ(out[1].from_s, 1);
    EXPECT_EQ(out[1].to_s, 2);
    EXPECT_EQ(out[2].from_s, 3);
    Reach nowhere = reach(0, -1);
    nowhere.strip.clear();
    EXPECT_TRUE(outOfReach({nowhere}).empty());
}

TEST(Glide, WithoutAStripThereIsNothingToReach) {
    Glider g;
    g.site.runway.reset();
    g.standAt(0, 0, 200, Vec3(50, 0, 0));
    EXPECT_EQ(g.glide().reach(g.sample).strip, "");
}

}  // namespace
}  // namespace plumbline::check

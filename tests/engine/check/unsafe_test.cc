// A quiet routine, made unsafe in one way after the other: each time exactly that is found, with
// the value that geometry or a closed form has. And the same routine where the air is hot and thin.

#include <cmath>

#include <gtest/gtest.h>

#include "engine/check/check.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::check {
namespace {

using fly::test::kKnot;
using fly::test::plausibleAircraft;

std::string kindsOf(const std::vector<Finding>& findings) {
    std::string kinds;
    for (const Finding& f : findings) kinds += f.kind + ": " + f.what + " " + f.value + "; ";
    return kinds;
}

struct Plan {
    data::Aircraft aircraft = plausibleAircraft();
    data::Site site;
    data::Weather weather;
    data::Pilot pilot;
    routine::Routine routine;
    std::vector<data::RuleSet> rules;
    fly::Solution solution;
    path::Path path;

    explicit Plan(const std::string& text =
                      "line level 300 m\npull 360 deg radius 120 m\n"
                      "line level 300 m") {
        site.crowd_line_y_m = -150;
        site.crowd_x_min_m = -400;
        site.crowd_x_max_m = 400;
        site.show_line_offset_m = 150;
        site.floor_m = 50;
        site.box = data::Box{-1500, 1500, -50, 1000, 1100};
        aircraft.limits.inverted_s = 120;
        aircraft.limits.full_power_s = 300;
        routine.reserve_l = 15;
        routine.slot_s = 120;
        routine.start.x_m = -600;
        routine.start.y_m = 100;
        routine.start.height_m = 200;
        routine.start.speed_mps = 80;
        routine.start.fuel_l = 50;
        routine::RoutineFigure figure;
        figure.name = "figure";
        figure.elements = text::parseFigureText(text, "", 1, {}).elements;
        routine.figures = {figure};
    }

    /// Everything graded tight or worse.
    std::vector<Finding> bad() {
        solution = fly::solve(aircraft, site, weather, routine);
        path = solution.samplePath(100);
        std::vector<Finding> all =
            checkRoutine(aircraft, site, weather, routine, path, solution.notes(), pilot, rules);
        addFindings(all, checkGates(gates(), path));
        std::erase_if(all, [](const Finding& f) { return f.grade < Grade::Tight; });
        return all;
    }
    std::vector<Gate> gates() const { return gatesOf(aircraft, site, pilot, solution, path); }

    /// Exactly one finding, of that kind.
    Finding only(const std::string& kind) {
        const std::vector<Finding> found = bad();
        EXPECT_EQ(found.size(), 1U) << kindsOf(found);
        if (found.size() != 1) return {};
        EXPECT_EQ(found[0].kind, kind);
        EXPECT_FALSE(found[0].remedy.empty());
        EXPECT_FALSE(found[0].source.empty());
        return found[0];
    }
    /// The same, unsafe and with that margin.
    void expectOnly(const std::string& kind, double margin, double within) {
        const Finding found = only(kind);
        EXPECT_EQ(found.grade, Grade::Unsafe) << found.what;
        EXPECT_NEAR(found.margin, margin, within) << found.what;
    }
};

TEST(UnsafePlan, TheQuietRoutineHasNothing) { EXPECT_TRUE(Plan().bad().empty()); }

TEST(UnsafePlan, Floor) {
    Plan p;
    p.site.floor_m = 204;
    p.expectOnly("floor", -4, 0.3);
}

TEST(UnsafePlan, ShowLine) {
    Plan p;
    p.routine.start.y_m = -6;
    p.expectOnly("show line", -6, 0.01);
}

TEST(UnsafePlan, Box) {
    Plan p;
    p.site.box->top_m = 400;  // the loop's top is two radii up
    p.expectOnly("box", 400 - 440, 2);
}

TEST(UnsafePlan, Obstacle) {
    Plan p;
    p.site.obstacles = {
        {"mast",
         {Vec3(-402, 108, 0), Vec3(-398, 108, 0), Vec3(-398, 112, 0), Vec3(-402, 112, 0)},
         250}};
    p.expectOnly("obstacle", 8 - 15, 0.1);
}

// A turn right of a quarter leads to the crowd; with v = 80 m/s and two seconds, within 160 m.
TEST(UnsafePlan, TowardTheCrowd) {
    Plan p(
        "line level 200 m\nturn right 90 deg bank 70 deg\nturn left 90 deg bank 70 deg\nline level "
        "100 m");
    p.routine.start.y_m = 240;
    p.site.show_line_offset_m = 0;
    p.site.box.reset();
    const Finding found = p.only("toward the crowd");
    // Where it flies straight at the crowd it is as far from its line as the path says.
    double expected = 1e300;
    for (const path::Sample& s : p.path.samples)
        expected = std::min(expected, s.position_S_m.y + 150 + 2 * s.velocity_S_mps.y);
    EXPECT_NEAR(found.margin, expected, 1e-6);
}

// Pulled through at 80 m/s on 120 m: 1 + v^2 / (g r) = 6.4 g, plus what the fade-in adds.
TEST(UnsafePlan, Load) {
    Plan p;
    p.aircraft.load_limits = {{500, 6, -5}};  // this is what it may carry at its mass
    const double load = 1 + 80 * 80 / (kGravity_mps2 * 120);
    p.expectOnly("load", 6 - load, 0.35);
}

TEST(UnsafePlan, Speed) {
    Plan p;
    // 80 m/s true is this much calibrated at 200 m.
    const double cas =
        80 * std::sqrt(earth::SiteAir(0, 288.15, 101325).at(200).density_kgpm3 / 1.225);
    p.aircraft.limits.never_exceed_mps = cas - 6;
    p.aircraft.limits.manoeuvre_mps = 60;
    const Finding found = p.only("speed");
    // At the bottom of the loop, or at full power on the line, a little more.
    EXPECT_LT(found.margin, -6 + 0.5);
    EXPECT_GT(found.margin, -6 - 8);
}

// From rest the slide is at least as slow as a free fall: v <= sqrt(2 g h).
TEST(UnsafePlan, TailFirst) {
    Plan p(
        "line level 100 m\npull to up at 6 g\nline up until 60 kt\npower idle\nline up until 20 "
        "kt\n"
        "slide 150 m\nfall wheels-up\nline down 60 m\npower full\npull to level at 5 g\nline level "
        "100 m");
    p.aircraft.limits.tail_first_mps = 30;
    const Finding found = p.only("tail-first speed");
    EXPECT_GT(found.margin, 30 - std::sqrt(2 * kGravity_mps2 * 155));
    EXPECT_LT(found.margin, -8);
}

TEST(UnsafePlan, Fuel) {
    Plan p;
    p.routine.reserve_l = 49.9;
    const Finding found = p.only("fuel");
    // Full power burns 0.33 kg/kWh of 250 kW: 115 l/h, some 0.6 l in 20 s.
    const double used_l = 50 - 49.9 - 1e3 * found.margin;
    EXPECT_NEAR(used_l, 0.33 * 250 / 0.72 / 3600 * p.path.duration_s(), 0.1);
}

TEST(UnsafePlan, Slot) {
    Plan p;
    p.routine.slot_s = 10;
    const Finding found = p.only("slot");
    // Two lines of 300 m at 80 m/s and a circle of 120 m flown ever slower to the top.
    EXPECT_GT(-found.margin + 10, (600 + 2 * kPi * 120) / 95);
    EXPECT_LT(-found.margin + 10, (600 + 2 * kPi * 120) / 55);
}

TEST(UnsafePlan, Inverted) {
    Plan p(
        "line level 150 m with 1/2 roll right at end\nline level 1000 m\nline level 150 m with 1/2 "
        "roll right at start");
    p.aircraft.limits.inverted_s = 8;
    const Finding found = p.only("inverted");
    // A kilometre on its back at 80 m/s and faster.
    EXPECT_LT(8 - found.margin, 1000 / 79.0 + 1.2);
    EXPECT_GT(8 - found.margin, 1000 / 90.0);
}

TEST(UnsafePlan, FullPower) {
    Plan p;
    p.aircraft.limits.full_power_s = 12;
    const Finding found = p.only("full power");
    EXPECT_NEAR(found.margin, 12 - p.path.duration_s(), 0.05);
}

TEST(UnsafePlan, PilotsLoad) {
    Plan p;
    p.pilot.load_max_g = 5.5;
    p.expectOnly("pilot load", 5.5 - (1 + 80 * 80 / (kGravity_mps2 * 120)), 0.35);
}

TEST(UnsafePlan, Ceiling) {
    Plan p;
    p.weather.cloud_base_m = 400;
    p.weather.cloud_cover_frac = 0.9;
    p.expectOnly("cloud", 400 - 440, 2);
}

TEST(UnsafePlan, Crosswind) {
    Plan p;
    p.weather.wind = {
        {10, 0.5 * kPi, 20 * kKnot}};  // across the show line, from the right of north
    p.pilot.crosswind_mps = 15 * kKnot;
    p.expectOnly("wind", -5 * kKnot, 1e-6);
}

TEST(UnsafePlan, CrowdDistanceByARuleSet) {
    Plan p;
    data::RuleSet rules;
    rules.name = "Rules";
    rules.edition = "first";
    rules.distances = {{data::Flight::Aerobatic, 0, 0, 260, {"a source", false}}};
    p.rules = {rules};
    p.expectOnly("crowd distance", 250 - 260, 0.01);
}

TEST(UnsafePlan, Gate) {
    Plan p(
        "line level 300 m\npull 180 deg radius 60 m\nline level 50 m with 1/2 roll right\n"
        "line level 100 m with 1/2 roll right\npull 180 deg at 9 g\nline level 100 m");
    p.routine.start.height_m = 60;
    p.pilot.gate_load_g = 3;  // this pilot would not pull more
    p.aircraft.limits.load_max_g = 20;
    p.aircraft.aero.cl_max = 3;
    bool gate = false;
    for (const Finding& f : p.bad()) gate = gate || (f.kind == "gate" && f.grade == Grade::Unsafe);
    EXPECT_TRUE(gate);
}

// At 1,600 m and 35 degC the air has 77 % of the standard density: p = 101325 (1 - 0.0065 x 1600 /
// 288.15)^5.2559 = 83.5 kPa (ICAO Doc 7488), over R x 308.15 K.
struct HotAndHigh {
    Plan low, high;
    HotAndHigh()
        : low("line level 300 m\npull to up at 5 g\nline up until 25 kt\npivot left\nline down 120 "
              "m\n"
              "pull to level at 5 g\nline level 100 m\npull 360 deg radius 115 m\nline level 100 "
              "m"),
          high(low) {
        for (Plan* p : {&low, &high}) {
            p->routine.start.height_m = 120;
            p->pilot.gate_load_g = 8;
        }
        high.site.show_centre.elevation_m = 1600;
        high.weather.temperature_k = 308.15;
        low.bad();
        high.bad();
    }
};

TEST(HotAndHighSite, DensityAndItsAltitudeAreTold) {
    HotAndHigh h;
    const std::vector<Finding> all =
        checkRoutine(h.high.aircraft, h.high.site, h.high.weather, h.high.routine, h.high.path,
                     h.high.solution.notes());
    const auto f = std::find_if(all.begin(), all.end(),
                                [](const Finding& g) { return g.kind == "density altitude"; });
    ASSERT_NE(f, all.end());
    const double density =
        101325 * std::pow(1 - 0.0065 * 1600 / 288.15, 5.25588) / (287.05287 * 308.15);
    // rho = 1.225 (1 - 0.0065 h / 288.15)^4.25588, turned round.
    const double altitude = 288.15 / 0.0065 * (1 - std::pow(density / 1.225, 1 / 4.25588));
    EXPECT_EQ(f->value, std::to_string(std::lround(altitude)) + " m");
    EXPECT_NE(f->what.find("77 %"), std::string::npos);
}

// A wing at its greatest lift turns on r = 2 m / (rho S CL), whatever the speed: 1 / 0.77 wider.
TEST(HotAndHighSite, GatesRiseWithTheRadiusThatTheWingCanFly) {
    HotAndHigh h;
    const std::vector<Gate> low = h.low.gates(), high = h.high.gates();
    ASSERT_EQ(low.size(), 2U);
    ASSERT_EQ(high.size(), 2U);
    const double low_loss = low[1].complete_m - low[1].floor_m;
    const double high_loss =
        gateAt(high[1], low[1].airspeed_mps, h.high.solution, h.high.path).complete_m -
        high[1].floor_m;
    EXPECT_GT(high_loss, 1.12 * low_loss);
    EXPECT_LT(high_loss, 1.45 * low_loss);
}

TEST(HotAndHighSite, LessPowerReachesLessHeightAndTheSameLoadTakesMoreIncidence) {
    HotAndHigh h;
    // Excess power goes with the density: the upline tops out lower.
    EXPECT_LT(h.high.gates()[0].position_S_m.z, h.low.gates()[0].position_S_m.z - 5);
    double low_aoa = 0, high_aoa = 0;
    for (const path::Sample& s : h.low.path.samples)
        if (s.time_s < 3) low_aoa = std::max(low_aoa, s.aoa_rad);
    for (const path::Sample& s : h.high.path.samples)
        if (s.time_s < 3) high_aoa = std::max(high_aoa, s.aoa_rad);
    // Lift goes as density times incidence: 1 / 0.77 of it, somewhat less as the speed stays higher
    // with less drag.
    EXPECT_GT(high_aoa, 1.15 * low_aoa);
}

// Straight up without power, of the drag alone: h = ln(1 + k v^2 / g) / 2k and t = atan(v sqrt(k /
// g)) / sqrt(k g) to the top, k = rho S cd0 / 2m (any textbook of mechanics). In thinner air the
// line is longer, and takes more time.
TEST(HotAndHighSite, AnUplineWithoutPowerIsLongerByLessDrag) {
    double of_all_energy[2], of_no_drag[2];
    for (const bool hot : {false, true}) {
        Plan p("power idle\nline level 1 m\npull to up at 5 g\nline up until 3 m/s");
        p.aircraft.power.idle_power_frac = 0;
        p.aircraft.power.windmill_drag_area_m2 = 0;
        p.aircraft.power.throttle_lag_s = 0.01;
        p.aircraft.aero.cd0 = 0.12;  // to be seen over a short line
        p.aircraft.aero.induced_k = 0;
        if (hot) {
            p.site.show_centre.elevation_m = 1600;
            p.weather.temperature_k = 308.15;
        }
        p.bad();
        const path::Element& up = p.path.elements.back();
        const path::Sample from = path::sampleAt(p.path, up.start_s + 1e-6),
                           to = path::sampleAt(p.path, up.stop_s - 1e-6);
        const double middle_m = 0.5 * (from.position_S_m.z + to.position_S_m.z);
        const double t_k = (hot ? 308.15 : 288.15) - 0.0065 * middle_m;
        const double ground_k = hot ? 288.15 - 0.0065 * 1600 : 288.15;
        const double pressure = 101325 * std::pow(ground_k / 288.15, 5.25588) *
                                std::pow(t_k / (t_k + 0.0065 * middle_m), 5.25588);
        const double density = pressure / (287.05287 * t_k);
        const double k = density * 10 * 0.12 / (2 * from.mass_kg);
        const double v = from.airspeed_mps, end = to.airspeed_mps, g = kGravity_mps2;
        const double length_m = std::log((1 + k * v * v / g) / (1 + k * end * end / g)) / (2 * k);
        const double time_s =
            (std::atan(v * std::sqrt(k / g)) - std::atan(end * std::sqrt(k / g))) /
            std::sqrt(k * g);
        const double risen_m = to.position_S_m.z - from.position_S_m.z;
        EXPECT_NEAR(risen_m, length_m, 0.02 * length_m) << hot;
        EXPECT_NEAR(to.time_s - from.time_s, time_s, 0.02 * time_s) << hot;
        of_all_energy[hot] = risen_m / ((v * v - end * end) / (2 * g));
        of_no_drag[hot] = (to.time_s - from.time_s) / ((v - end) / g);
    }
    EXPECT_GT(of_all_energy[1], of_all_energy[0] + 0.01);
    EXPECT_GT(of_no_drag[1], of_no_drag[0] + 0.005);
}

// The pitot tube reads sqrt(0.77) of the true speed, and a wing gives 0.77 of the lift: one finding
// goes, another comes.
TEST(HotAndHighSite, FindingsChange) {
    const auto findings = [](bool hot, double never_exceed_mps, const char* pull) {
        Plan p(std::string("line level 300 m\npull 60 deg at ") + pull);
        p.aircraft.limits.never_exceed_mps = never_exceed_mps;
        p.aircraft.limits.load_onset_gps = 1000;
        if (hot) {
            p.site.show_centre.elevation_m = 1600;
            p.weather.temperature_k = 308.15;
        }
        return kindsOf(p.bad());
    };
    // 80 m/s true is 70 m/s on the dial up there.
    EXPECT_NE(findings(false, 78, "3 g").find("speed"), std::string::npos);
    EXPECT_EQ(findings(true, 78, "3 g"), "");
    // At sea level 1/2 rho v^2 S CL / m g = 8.4 g at 80 m/s for 620 kg; hot and high 6.5 g.
    EXPECT_EQ(findings(false, 0, "8 g"), "");
    EXPECT_NE(findings(true, 0, "8 g").find("load"), std::string::npos);
}

}  // namespace
}  // namespace plumbline::check

// Each check by a path that passes its limit by a hair, or keeps it by one. Limits are set here;
// values are geometry.

#include "engine/check/check.h"

#include <algorithm>
#include <cmath>

#include <gtest/gtest.h>

#include "tests/engine/check/level_flight.h"
#include "tests/engine/fly/fly_support.h"

namespace plumbline::check {
namespace {

using fly::test::kKnot;
using fly::test::plausibleAircraft;

// Two figures of a second each, level at 200 m, 60 m/s, one g, 200 m beyond the crowd line.
struct Case {
    data::Aircraft aircraft = plausibleAircraft();
    data::Site site;
    data::Weather weather;
    routine::Routine routine;
    path::Path path;
    std::vector<fly::SolveNote> notes;

    Case() {
        site.crowd_line_y_m = -150;
        site.show_line_offset_m = 150;
        site.floor_m = 50;
        site.box = data::Box{-500, 500, -50, 600, 1000};
        routine.reserve_l = 15;
        routine.slot_s = 60;
        path.figures = {{"first", 0, 1}, {"second", 1, 2}};
        path.elements = {{0, "line level", 4, 0, 1}, {1, "pull to up", 8, 1, 2}};
        path.samples = test::levelFlight(2, 0);
        for (path::Sample& s : path.samples) s.element = s.time_s < 1 - 1e-9 ? 0 : 1;
    }
    path::Sample& at(double time_s) {
        return path.samples[static_cast<std::size_t>(std::lround(time_s / 0.02))];
    }
    std::vector<Finding> run() const {
        return checkRoutine(aircraft, site, weather, routine, path, notes);
    }
    const Finding* find(const std::string& kind, const std::vector<Finding>& in) const {
        const auto it =
            std::find_if(in.begin(), in.end(), [&](const Finding& f) { return f.kind == kind; });
        return it == in.end() ? nullptr : &*it;
    }
};

void expectFinding(const Case& c, const std::string& kind, Grade grade, double time_s,
                   const std::string& figure, const std::string& value, const std::string& limit) {
    const std::vector<Finding> all = c.run();
    const Finding* f = c.find(kind, all);
    ASSERT_NE(f, nullptr) << kind;
    EXPECT_EQ(f->grade, grade);
    EXPECT_NEAR(f->time_s, time_s, 1e-9);
    EXPECT_EQ(f->figure, figure);
    EXPECT_EQ(f->value, value);
    EXPECT_EQ(f->limit, limit);
    EXPECT_FALSE(f->source.empty());
    EXPECT_FALSE(f->remedy.empty());
}

TEST(Check, AQuietPathHasOnlyItsFuelToNote) {
    const std::vector<Finding> all = Case().run();
    ASSERT_EQ(all.size(), 1U);
    EXPECT_EQ(all[0].kind, "fuel");
    EXPECT_EQ(all[0].grade, Grade::Note);
    EXPECT_EQ(all[0].value, "30 l");
    EXPECT_EQ(worstGrade(all), Grade::Note);
}

TEST(Check, FloorBelowIsUnsafeJustAboveIsTightWellAboveIsNothing) {
    Case c;
    c.at(1.5).position_S_m.z = 49.9;
    expectFinding(c, "floor", Grade::Unsafe, 1.5, "second", "50 m", "50 m");
    c.at(1.5).position_S_m.z = 52.9;
    expectFinding(c, "floor", Grade::Tight, 1.5, "second", "53 m", "50 m");
    c.at(1.5).position_S_m.z = 53.1;
    EXPECT_EQ(c.find("floor", c.run()), nullptr);
}

TEST(Check, EachFigureHasItsOwnFinding) {
    Case c;
    c.at(0.5).position_S_m.z = 40;
    c.at(1.5).position_S_m.z = 30;
    const std::vector<Finding> all = c.run();
    EXPECT_EQ(
        std::count_if(all.begin(), all.end(), [](const Finding& f) { return f.kind == "floor"; }),
        2);
    EXPECT_LT(all[0].time_s, all[1].time_s);
}

TEST(Check, ShowLineCountsFromTheCrowdLine) {
    Case c;
    c.at(0.5).position_S_m.y = -5;
    expectFinding(c, "show line", Grade::Unsafe, 0.5, "first", "145 m", "150 m");
    c.at(0.5).position_S_m.y = 9.9;
    expectFinding(c, "show line", Grade::Tight, 0.5, "first", "160 m", "150 m");
    c.at(0.5).position_S_m.y = 10.1;
    EXPECT_EQ(c.find("show line", c.run()), nullptr);
}

TEST(Check, BoxOnEverySide) {
    for (const Vec3& outside :
         {Vec3(-503, 50, 200), Vec3(503, 50, 200), Vec3(0, 603, 200), Vec3(0, 50, 1003)}) {
        Case c;
        c.at(0.6).position_S_m = outside;
        expectFinding(c, "box", Grade::Unsafe, 0.6, "first", "-3 m", "0 m");
    }
    Case c;
    c.site.box.reset();
    c.at(0.6).position_S_m.x = 5000;
    EXPECT_EQ(c.find("box", c.run()), nullptr);
}

TEST(Check, LoadsBothWays) {
    Case c;
    c.at(1.2).specific_force_B_mps2.z = -10.1 * kGravity_mps2;
    expectFinding(c, "load", Grade::Unsafe, 1.2, "second", "+10.1 g", "+10.0 g");
    c = Case();
    c.at(1.2).specific_force_B_mps2.z = 8.1 * kGravity_mps2;
    expectFinding(c, "load", Grade::Unsafe, 1.2, "second", "\u22128.1 g", "\u22128.0 g");
    c = Case();
    c.at(1.2).specific_force_B_mps2.z = -9.8 * kGravity_mps2;
    expectFinding(c, "load", Grade::Tight, 1.2, "second", "+9.8 g", "+10.0 g");
}

// VNE is a calibrated speed: in thin air the true airspeed may be higher. Density at 2000 m of the
// standard atmosphere is 1.0065 kg/m3 (ICAO Doc 7488), so 220 kt calibrated is 242.7 kt true there.
TEST(Check, SpeedIsCalibrated) {
    Case c;
    c.at(0.4).airspeed_mps =
        221 * kKnot * std::sqrt(1.225 / 1.2017);  // density at 200 m, same table
    expectFinding(c, "speed", Grade::Unsafe, 0.4, "first", "221 kt", "220 kt");
    Case high;
    high.site.show_centre.elevation_m = 1800;
    high.weather.temperature_k = 288.15 - 0.0065 * 1800;
    high.at(0.4).airspeed_mps = 236 * kKnot;
    EXPECT_EQ(high.find("speed", high.run()), nullptr);
    high.at(0.4).airspeed_mps = 244 * kKnot;
    EXPECT_NE(high.find("speed", high.run()), nullptr);
}

TEST(Check, TailFirstSpeedHasItsOwnLimit) {
    Case c;
    c.at(1.4).airspeed_mps = 61;
    c.at(1.4).aoa_rad = kPi - 0.01;
    expectFinding(c, "tail-first speed", Grade::Unsafe, 1.4, "second", "119 kt", "117 kt");
    EXPECT_EQ(c.find("speed", c.run()), nullptr);
}

TEST(Check, FuelAgainstReserveAndEmptiness) {
    Case c;
    c.path.samples.back().fuel_kg = 14 * 0.72;
    expectFinding(c, "fuel", Grade::Unsafe, 2.0, "second", "14 l", "15 l");
    c.path.samples.back().fuel_kg = -1;
    expectFinding(c, "fuel", Grade::Cannot, 2.0, "second", "0 l", "15 l");
}

TEST(Check, SlotIsCounted) {
    Case c;
    c.routine.slot_s = 1;
    expectFinding(c, "slot", Grade::Unsafe, 2.0, "second", "0:02", "0:01");
    c.routine.slot_s = 0;
    EXPECT_EQ(c.find("slot", c.run()), nullptr);
}

// At 50 samples a second: at negative load for so long, upright for a while, and again.
TEST(Check, TimeAtNegativeLoadCountsAtAStretch) {
    const auto gradeAfter = [](double first_s, double between_s, double second_s) {
        Case c;
        c.aircraft.limits.inverted_s = 30;
        const path::Sample level = c.path.samples.front();
        c.path.samples.clear();
        const double end_s = first_s + between_s + second_s + 5;
        for (int i = 0; i <= std::lround(end_s * 50); ++i) {
            path::Sample s = level;
            s.time_s = 0.02 * i;
            const bool first = s.time_s > 0 && s.time_s < first_s + 0.01;
            const bool second =
                s.time_s > first_s + between_s && s.time_s < first_s + between_s + second_s + 0.01;
            if (first || second) s.specific_force_B_mps2.z = kGravity_mps2;
            c.path.samples.push_back(s);
        }
        const auto findings = c.run();
        const Finding* f = c.find("inverted", findings);
        return f == nullptr ? std::string("none") : std::string(gradeWord(f->grade));
    };
    EXPECT_EQ(gradeAfter(24, 1, 0), "note");
    EXPECT_EQ(gradeAfter(29.9, 1, 0), "tight");
    EXPECT_EQ(gradeAfter(30.1, 1, 0), "unsafe");
    EXPECT_EQ(gradeAfter(20, 2, 10.2), "unsafe");  // two seconds bring no oil back
    EXPECT_EQ(gradeAfter(20, 4, 20), "note");
    Case unknown;
    for (path::Sample& s : unknown.path.samples) s.specific_force_B_mps2.z = kGravity_mps2;
    const auto findings = unknown.run();
    EXPECT_EQ(unknown.find("inverted", findings), nullptr);
}

TEST(Check, WhatCouldNotBeFlownIsCannot) {
    Case c;
    fly::SolveNote note;
    note.kind = fly::SolveNote::Kind::NeverMet;
    note.element = 1;
    note.time_s = 1.1;
    note.what = "never met";
    note.value = "a";
    note.limit = "b";
    note.remedy = "c";
    c.notes = {note};
    expectFinding(c, "not flyable", Grade::Cannot, 1.1, "second", "a", "b");
    c.notes[0].kind = fly::SolveNote::Kind::Ground;
    expectFinding(c, "ground", Grade::Cannot, 1.1, "second", "a", "b");
    // A load short by up to 1 g is information.
    c.notes[0].kind = fly::SolveNote::Kind::LoadShort;
    c.notes[0].short_g = 0.9;
    expectFinding(c, "load", Grade::Note, 1.1, "second", "a", "b");
    c.notes[0].short_g = 1.1;
    expectFinding(c, "load", Grade::Cannot, 1.1, "second", "a", "b");
    // Late is flown all the same: what it leads to is held against floor, lines and gates.
    c.notes[0].kind = fly::SolveNote::Kind::Late;
    c.notes[0].late_s = 0.4;
    expectFinding(c, "late", Grade::Tight, 1.1, "second", "a", "b");
    const auto findings = c.run();
    EXPECT_EQ(c.find("late", findings)->margin, -0.4);
}

}  // namespace
}  // namespace plumbline::check

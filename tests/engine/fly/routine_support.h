#pragma once
// Routines of several figures for the tests of fly/, and solutions compared bit by bit.

#include <string>
#include <vector>

#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly::test {

/// Level along the show line; `tables` are the figures of a routine file.
inline routine::Routine readRoutineOf(const std::string& tables, double x_m = -900,
                                      double height_m = 300, double speed_mps = 82) {
    const auto quoted = [](double value, const char* unit) {
        return "\"" + std::to_string(value) + " " + unit + "\"";
    };
    const std::string text =
        "name = 'Trial'\naircraft = 'a'\nsite = 's'\n[start]\nx = " + quoted(x_m, "m") +
        "\nheight = " + quoted(height_m, "m") +
        "\nheading = 'crowd-right'\nspeed = " + quoted(speed_mps, "m/s") + "\nfuel = '40 l'\n" +
        tables;
    routine::ReadRoutine read = routine::readRoutine(text, "trial");
    EXPECT_EQ(describe(read.problems), "") << tables;
    return std::move(read.routine);
}

inline std::vector<double> numbersOf(const path::Sample& s) {
    return {s.time_s,
            s.position_S_m.x,
            s.position_S_m.y,
            s.position_S_m.z,
            s.velocity_S_mps.x,
            s.velocity_S_mps.y,
            s.velocity_S_mps.z,
            s.q_SB.w,
            s.q_SB.x,
            s.q_SB.y,
            s.q_SB.z,
            s.rate_B_radps.x,
            s.rate_B_radps.y,
            s.rate_B_radps.z,
            s.specific_force_B_mps2.x,
            s.specific_force_B_mps2.y,
            s.specific_force_B_mps2.z,
            s.airspeed_mps,
            s.aoa_rad,
            s.sideslip_rad,
            s.power_frac,
            s.mass_kg,
            s.fuel_kg,
            s.head_temperature_k,
            static_cast<double>(s.element)};
}

/// Everything of the path, to the last bit.
inline void expectSamePath(const Solution& a, const Solution& b) {
    const path::Path p = a.samplePath(50), q = b.samplePath(50);
    EXPECT_EQ(p.name, q.name);
    ASSERT_EQ(p.samples.size(), q.samples.size());
    for (std::size_t i = 0; i < p.samples.size(); ++i)
        ASSERT_EQ(numbersOf(p.samples[i]), numbersOf(q.samples[i])) << "sample " << i;
    ASSERT_EQ(p.elements.size(), q.elements.size());
    for (std::size_t i = 0; i < p.elements.size(); ++i) {
        EXPECT_EQ(p.elements[i].figure, q.elements[i].figure);
        EXPECT_EQ(p.elements[i].label, q.elements[i].label);
        EXPECT_EQ(p.elements[i].source_line, q.elements[i].source_line);
        EXPECT_EQ(p.elements[i].start_s, q.elements[i].start_s);
        EXPECT_EQ(p.elements[i].stop_s, q.elements[i].stop_s);
    }
    ASSERT_EQ(p.figures.size(), q.figures.size());
    for (std::size_t i = 0; i < p.figures.size(); ++i) {
        EXPECT_EQ(p.figures[i].name, q.figures[i].name);
        EXPECT_EQ(p.figures[i].start_s, q.figures[i].start_s);
        EXPECT_EQ(p.figures[i].stop_s, q.figures[i].stop_s);
    }
    ASSERT_EQ(p.cues.size(), q.cues.size());
    for (std::size_t i = 0; i < p.cues.size(); ++i) {
        EXPECT_EQ(p.cues[i].time_s, q.cues[i].time_s);
        EXPECT_EQ(p.cues[i].words, q.cues[i].words);
    }
    ASSERT_EQ(p.smoke.size(), q.smoke.size());
    for (std::size_t i = 0; i < p.smoke.size(); ++i) {
        EXPECT_EQ(p.smoke[i].start_s, q.smoke[i].start_s);
        EXPECT_EQ(p.smoke[i].stop_s, q.smoke[i].stop_s);
    }
}

inline void expectSameNotes(const Solution& a, const Solution& b) {
    ASSERT_EQ(a.notes().size(), b.notes().size());
    for (std::size_t i = 0; i < a.notes().size(); ++i) {
        const SolveNote &m = a.notes()[i], &n = b.notes()[i];
        EXPECT_EQ(m.kind, n.kind);
        EXPECT_EQ(m.figure, n.figure);
        EXPECT_EQ(m.element, n.element);
        EXPECT_EQ(m.source_line, n.source_line);
        EXPECT_EQ(m.time_s, n.time_s);
        EXPECT_EQ(m.what, n.what);
        EXPECT_EQ(m.value, n.value);
    }
}

}  // namespace plumbline::fly::test

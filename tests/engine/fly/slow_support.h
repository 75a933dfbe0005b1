#pragma once
// For the tests of what is flown in or beyond the stall.

#include <algorithm>
#include <string>

#include "tests/engine/fly/fly_support.h"

namespace plumbline::fly::test {

/// Position, velocity, attitude and body rates have no step anywhere, not only at the elements'
/// joints: at 4000 samples a second nothing changes faster than a pilot and the forces can.
/// @param step_radps  a step of the body rates so small is let pass
inline void expectSmooth(const Solution& solution, const std::string& what,
                         double most_radps2 = 120, double most_mps2 = 150,
                         double step_radps = 2e-3) {
    const path::Path p = solution.samplePath(4000);
    ASSERT_GT(p.samples.size(), 10U) << what;
    for (std::size_t i = 1; i < p.samples.size(); ++i) {
        const path::Sample &a = p.samples[i - 1], &b = p.samples[i];
        const double dt = b.time_s - a.time_s;
        const std::string where = what + " at " + std::to_string(b.time_s);
        ASSERT_LT(glm::length(b.rate_B_radps - a.rate_B_radps), most_radps2 * dt + step_radps)
            << where;
        ASSERT_LT(glm::length(b.velocity_S_mps - a.velocity_S_mps), most_mps2 * dt + 1e-6) << where;
        const Vec3 middle = 0.5 * (a.velocity_S_mps + b.velocity_S_mps);
        ASSERT_LT(glm::length(b.position_S_m - a.position_S_m - dt * middle), 1e-5) << where;
        const Vec3 turned = vectorFromRotation(glm::conjugate(a.q_SB) * b.q_SB);
        ASSERT_LT(glm::length(turned - 0.5 * dt * (a.rate_B_radps + b.rate_B_radps)), 1e-5)
            << where;
    }
}

inline std::string mirroredText(std::string text) {
    const auto swap = [&](const std::string& a, const std::string& b) {
        std::string out;
        for (std::size_t i = 0; i < text.size();) {
            const bool is_a = text.compare(i, a.size(), a) == 0;
            const bool is_b = text.compare(i, b.size(), b) == 0;
            out += is_a ? b : is_b ? a : std::string(1, text[i]);
            i += is_a ? a.size() : is_b ? b.size() : 1;
        }
        text = out;
    };
    swap("left", "right");
    swap("x -", "x ");
    return text;
}

/// Greatest distance between a flight and its mirror image across the show line's middle, the
/// propeller turning the other way.
inline double worstMirrorMiss(data::Aircraft aircraft, const std::string& text,
                              RoutineSetup setup = {}) {
    const path::Path a = solveText(aircraft, text, setup).samplePath(50);
    setup.x_m = -setup.x_m;
    setup.crowd_right = !setup.crowd_right;
    aircraft.power.clockwise_from_cockpit = !aircraft.power.clockwise_from_cockpit;
    const path::Path b = solveText(aircraft, mirroredText(text), setup).samplePath(50);
    if (a.samples.size() != b.samples.size()) return 1e9;
    double worst = 0;
    const auto mirror = [](const Vec3& v) { return Vec3(-v.x, v.y, v.z); };
    for (std::size_t i = 0; i < a.samples.size(); ++i) {
        const path::Sample &s = a.samples[i], &m = b.samples[i];
        worst = std::max({worst, glm::length(mirror(m.position_S_m) - s.position_S_m),
                          glm::length(mirror(m.velocity_S_mps) - s.velocity_S_mps)});
        for (const Vec3 axis : {Vec3(1, 0, 0), Vec3(0, 0, 1)})
            worst =
                std::max(worst, glm::length(mirror(rotate(m.q_SB, axis)) - rotate(s.q_SB, axis)));
    }
    return worst;
}

inline const SolveNote* noteOf(const Solution& s, const std::string& subject) {
    for (const SolveNote& n : s.notes())
        if (n.subject == subject) return &n;
    return nullptr;
}

inline bool saidNotFlyable(const Solution& s, const std::string& word) {
    return std::any_of(s.notes().begin(), s.notes().end(), [&](const SolveNote& n) {
        return n.kind == SolveNote::Kind::NotFlyable &&
               (n.what + n.value + n.limit + n.remedy).find(word) != std::string::npos;
    });
}

/// All of it flown as written.
inline std::string refusals(const Solution& s) {
    std::string said;
    for (const SolveNote& n : s.notes())
        if (n.kind != SolveNote::Kind::Information && n.kind != SolveNote::Kind::LoadShort)
            said += n.what + " " + n.value + "\n";
    return said;
}

}  // namespace plumbline::fly::test

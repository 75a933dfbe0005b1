#include "engine/brief/rungs.h"

#include <cmath>

namespace plumbline::brief {

std::vector<Rung> rungsOf(const path::Path& path, double start_s, double stop_s, double span_m,
                          int steps) {
    constexpr double kAside_rad = 19 * kPi / 180, kAbove_rad = 12 * kPi / 180;
    constexpr double kWingsWide = 3.5;  // chosen: the band is seen at this size
    constexpr double kDrift_mps = 2.4;  // chosen: parts lines up from lines down
    const Vec3 right(std::cos(kAside_rad), std::sin(kAside_rad), 0);
    const Vec3 forward(-std::sin(kAside_rad) * std::cos(kAbove_rad),
                       std::cos(kAside_rad) * std::cos(kAbove_rad), -std::sin(kAbove_rad));
    const Vec3 up = glm::cross(right, forward);
    std::vector<Rung> rungs;
    Vec3 drift{0};
    for (int i = 0; i <= steps; ++i) {
        const double t_s = start_s + (stop_s - start_s) * i / steps;
        const path::Sample sample = path::sampleAt(path, t_s);
        const Vec3 along(sample.velocity_S_mps.x, sample.velocity_S_mps.y, 0);
        if (i == 0 && glm::length(along) > 1) drift = glm::normalize(along) * kDrift_mps;
        const Vec3 at = sample.position_S_m + drift * (t_s - start_s);
        const Vec3 wing = rotate(sample.q_SB, Vec3(0, 0.5 * span_m * kWingsWide, 0));
        Rung rung;
        rung.x = glm::dot(at, right);
        rung.y = -glm::dot(at, up);
        rung.left_x = glm::dot(at - wing, right);
        rung.left_y = -glm::dot(at - wing, up);
        rung.right_x = glm::dot(at + wing, right);
        rung.right_y = -glm::dot(at + wing, up);
        rung.depth = glm::dot(at, forward);
        rung.canopy = glm::dot(rotate(sample.q_SB, Vec3(0, 0, -1)), forward) < 0;
        rungs.push_back(rung);
    }
    return rungs;
}

}  // namespace plumbline::brief

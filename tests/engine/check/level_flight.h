#pragma once
// A level pass for the tests of checks: 60 m/s to crowd right at 200 m, 50 m beyond the show line,
// one g, fifty samples a second.

#include <vector>

#include "engine/path/path.h"

namespace plumbline::check::test {

/// @param start_x_m  where it begins
inline std::vector<path::Sample> levelFlight(double duration_s, double start_x_m) {
    std::vector<path::Sample> samples;
    for (int i = 0; i <= static_cast<int>(50 * duration_s + 0.5); ++i) {
        path::Sample s;
        s.time_s = 0.02 * i;
        s.position_S_m = Vec3(start_x_m + 60 * s.time_s, 50, 200);
        s.velocity_S_mps = Vec3(60, 0, 0);
        s.q_SB = Quat(0, 1, 0, 0);
        s.specific_force_B_mps2 = Vec3(0, 0, -kGravity_mps2);
        s.airspeed_mps = 60;
        s.mass_kg = 620;
        s.fuel_kg = 30 * 0.72;
        s.element = 0;
        samples.push_back(s);
    }
    return samples;
}

}  // namespace plumbline::check::test

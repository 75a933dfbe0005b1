// Any numbers as sensors: the smoother ends, and what it gives is finite.

#include <cmath>
#include <cstddef>
#include <cstdint>

#include "engine/base/check.h"
#include "engine/estimate/mounting.h"
#include "engine/estimate/smoother.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t size) {
    using namespace plumbline;
    if (size == 0) return 0;
    std::size_t at = 0;
    // a byte is a number of any size, small ones often
    const auto number = [&](double scale) {
        const auto byte = static_cast<std::int8_t>(bytes[at++ % size]);
        const double fraction = byte / 127.0;
        return scale * fraction * (byte % 16 == 0 ? 1000 : 1);
    };
    const auto vector = [&](double scale) {
        const double x = number(scale), y = number(scale);
        return Vec3(x, y, number(scale));
    };
    estimate::Streams streams;
    double t = 0;
    for (int i = 0; i < 300; ++i) {
        t += 0.01 + std::abs(number(0.02));
        streams.inertial.time_s.push_back(t);
        streams.inertial.rate_I_radps.push_back(vector(5));
        streams.inertial.force_I_mps2.push_back(vector(40));
        if (i % 10 == 0) streams.field.push_back({t, vector(50)});
        if (i % 20 != 0 || bytes[0] % 2 == 0) continue;
        estimate::GnssFix fix;
        fix.time_s = t;
        fix.position_S_m = vector(100);
        fix.velocity_S_mps = vector(50);
        fix.has_velocity = bytes[at % size] % 3 != 0;
        streams.gnss.push_back(fix);
        streams.pressure_height_m.push_back({t, number(100)});
    }
    const estimate::Solution solution = estimate::smooth(streams);
    for (const estimate::State& state : solution.states) {
        const Vec3 sum = state.position_S_m + state.velocity_S_mps;
        PL_EXPECT(std::isfinite(sum.x + sum.y + sum.z + state.q_SI.w));
        PL_EXPECT(std::abs(glm::length(state.q_SI) - 1) < 1e-6);
    }
    estimate::findMounting(solution);
    return 0;
}

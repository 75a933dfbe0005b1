#include "tests/figures/sensor_simulator.h"

#include <algorithm>
#include <cmath>

#include "tests/property/random_routine.h"

namespace plumbline::figures {

namespace {

class Normal {
public:
    explicit Normal(std::uint64_t seed) : random_(seed) {}
    /// Box and Muller, Annals of Mathematical Statistics 29 (1958) 610.
    double operator()() {
        const double u = 1 - random_.share();
        return std::sqrt(-2 * std::log(u)) * std::cos(2 * kPi * random_.share());
    }
    Vec3 vector() {
        const double x = (*this)(), y = (*this)();
        return {x, y, (*this)()};
    }
    Vec3 signs() {
        const auto sign = [this] { return random_.chance(0.5) ? 1.0 : -1.0; };
        const double x = sign(), y = sign();
        return {x, y, sign()};
    }
    double share() { return random_.share(); }

private:
    test::Random random_;
};

Vec3 clipped(const Vec3& v, double range) { return glm::clamp(v, Vec3(-range), Vec3(range)); }

}  // namespace

estimate::Streams simulateSensors(const path::Path& fine, const SensorErrors& errors,
                                  std::uint64_t seed) {
    constexpr std::size_t kFine = 10;
    estimate::Streams s;
    Normal normal(seed);
    const Vec3 rate_bias = errors.rate_bias_radps * normal.signs();
    const Vec3 rate_gain = Vec3(1) + errors.rate_gain * normal.signs();
    const Vec3 force_bias = errors.force_bias_mps2 * normal.signs();
    const Vec3 phase = kPi * normal.vector();
    const auto& samples = fine.samples;
    for (std::size_t i = kFine; i < samples.size(); i += kFine) {
        Vec3 rate(0), force(0);
        for (std::size_t j = i - kFine; j <= i; ++j) {
            const double part = (j == i - kFine || j == i ? 0.5 : 1.0) / kFine;
            rate += part * samples[j].rate_B_radps;
            Vec3 f = samples[j].specific_force_B_mps2;
            for (int a = 0; a < 3; ++a)
                f[a] += errors.vibration_mps2 *
                        std::sin(2 * kPi * errors.vibration_hz * samples[j].time_s + phase[a]);
            force += part * f;
        }
        s.inertial.time_s.push_back(samples[i].time_s);
        s.inertial.rate_I_radps.push_back(
            clipped(rate_gain * (rate + rate_bias) + errors.rate_noise_radps * normal.vector(),
                    errors.rate_range_radps));
        s.inertial.force_I_mps2.push_back(
            clipped(force + force_bias + errors.force_noise_mps2 * normal.vector(),
                    errors.force_range_mps2));
    }
    Vec3 slow = errors.gnss_slow_m * normal.vector();
    const double keep = std::exp(-1 / (errors.gnss_hz * errors.gnss_slow_s));
    for (double t = 0; t + errors.gnss_latency_s <= fine.duration_s(); t += 1 / errors.gnss_hz) {
        const path::Sample at = path::sampleAt(fine, t);
        slow = keep * slow + errors.gnss_slow_m * std::sqrt(1 - keep * keep) * normal.vector();
        const Vec3 white =
            Vec3(errors.gnss_horizontal_m, errors.gnss_horizontal_m, errors.gnss_vertical_m) *
            normal.vector();
        const Vec3 velocity = errors.gnss_velocity_mps * normal.vector();
        const double nose_up = std::asin(std::clamp(rotate(at.q_SB, Vec3(1, 0, 0)).z, -1.0, 1.0));
        const bool lost = normal.share() < errors.steep_lost;
        if (std::abs(nose_up) > errors.steep_rad && lost) continue;
        estimate::GnssFix fix;
        fix.time_s = t + errors.gnss_latency_s;
        fix.position_S_m = at.position_S_m + slow + white;
        fix.velocity_S_mps = at.velocity_S_mps + velocity;
        fix.has_velocity = true;
        s.gnss.push_back(fix);
    }
    for (double t = 0; t <= fine.duration_s(); t += 1 / errors.height_hz) {
        const path::Sample at = path::sampleAt(fine, t);
        const bool tail_first = std::abs(at.aoa_rad) > kPi / 2;
        s.pressure_height_m.push_back({t, at.position_S_m.z + errors.height_noise_m * normal() +
                                              (tail_first ? errors.height_tail_first_m : 0)});
    }
    for (double t = 0; errors.airspeed_hz > 0 && t <= fine.duration_s();
         t += 1 / errors.airspeed_hz)
        s.airspeed_mps.push_back(
            {t, (1 + errors.airspeed_gain) * path::sampleAt(fine, t).airspeed_mps +
                    errors.airspeed_noise_mps * normal()});
    return s;
}

}  // namespace plumbline::figures

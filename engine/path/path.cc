#include "engine/path/path.h"

#include <algorithm>
#include <cmath>

namespace plumbline::path {

namespace {

double lerp(double a, double b, double u) { return a + (b - a) * u; }

/// Between two angles the short way round, result in (-pi, pi].
double lerpAngle(double a_rad, double b_rad, double u) {
    const double step_rad = std::remainder(b_rad - a_rad, 2 * kPi);
    const double angle_rad = std::remainder(a_rad + step_rad * u, 2 * kPi);
    return angle_rad <= -kPi ? kPi : angle_rad;
}

/// Rate of the rotation vector d of exp(d) that a body rate makes there: the inverse right
/// Jacobian of the rotation group, d' = w + d x w / 2 + (1 - (a/2) cot(a/2)) / a^2  d x (d x w).
Vec3 rotationVectorRate(const Vec3& d_rad, const Vec3& rate_B_radps) {
    const double angle = glm::length(d_rad);
    // Past half a turn the series heads for its pole at a whole turn; such a step is a roll about
    // a nearly fixed axis, where the correction vanishes anyway.
    if (angle > kPi) return rate_B_radps;
    const double c =
        angle < 1e-3 ? 1.0 / 12 : (1 - 0.5 * angle / std::tan(0.5 * angle)) / (angle * angle);
    const Vec3 cross = glm::cross(d_rad, rate_B_radps);
    return rate_B_radps + 0.5 * cross + c * glm::cross(d_rad, cross);
}

/// The rotation from a to b in a's body axes; of the many that end there (whole turns more or
/// less) the one that the rates speak for, so that fast rolls survive coarse sampling.
Vec3 rotationBetween(const Sample& a, const Sample& b, double step_s) {
    Vec3 d_rad = vectorFromRotation(glm::conjugate(a.q_SB) * b.q_SB);
    const Vec3 expected_rad = 0.5 * step_s * (a.rate_B_radps + b.rate_B_radps);
    if (glm::length(expected_rad) <= 0.5 * kPi) return d_rad;
    const double angle = glm::length(d_rad);
    const Vec3 axis = angle > 1e-6 ? d_rad / angle : glm::normalize(expected_rad);
    const double turns = std::round((glm::dot(expected_rad, axis) - angle) / (2 * kPi));
    return axis * (angle + 2 * kPi * turns);
}

Quat attitudeBetween(const Sample& a, const Sample& b, double step_s, double u) {
    const Vec3 d_rad = rotationBetween(a, b, step_s);
    const Vec3 start = step_s * a.rate_B_radps;
    const Vec3 stop = step_s * rotationVectorRate(d_rad, b.rate_B_radps);
    const double u2 = u * u;
    const double u3 = u2 * u;
    const Vec3 rotation_rad =
        (3 * u2 - 2 * u3) * d_rad + (u3 - 2 * u2 + u) * start + (u3 - u2) * stop;
    return glm::normalize(a.q_SB * rotationFromVector(rotation_rad));
}

Sample between(const Sample& a, const Sample& b, double time_s) {
    const double step_s = b.time_s - a.time_s;
    const double u = (time_s - a.time_s) / step_s;
    const double u2 = u * u;
    const double u3 = u2 * u;
    Sample s = a;
    s.time_s = time_s;
    // Cubic Hermite and its derivative, written from a so that far from the origin no digit is
    // lost.
    const Vec3 d = b.position_S_m - a.position_S_m;
    s.position_S_m = a.position_S_m + (3 * u2 - 2 * u3) * d +
                     step_s * ((u3 - 2 * u2 + u) * a.velocity_S_mps + (u3 - u2) * b.velocity_S_mps);
    s.velocity_S_mps = (6 * (u - u2) / step_s) * d + (3 * u2 - 4 * u + 1) * a.velocity_S_mps +
                       (3 * u2 - 2 * u) * b.velocity_S_mps;
    s.q_SB = attitudeBetween(a, b, step_s, u);
    s.rate_B_radps = a.rate_B_radps + (b.rate_B_radps - a.rate_B_radps) * u;
    s.specific_force_B_mps2 =
        a.specific_force_B_mps2 + (b.specific_force_B_mps2 - a.specific_force_B_mps2) * u;
    s.airspeed_mps = lerp(a.airspeed_mps, b.airspeed_mps, u);
    s.aoa_rad = lerpAngle(a.aoa_rad, b.aoa_rad, u);
    s.sideslip_rad = lerp(a.sideslip_rad, b.sideslip_rad, u);
    s.power_frac = lerp(a.power_frac, b.power_frac, u);
    s.mass_kg = lerp(a.mass_kg, b.mass_kg, u);
    s.fuel_kg = lerp(a.fuel_kg, b.fuel_kg, u);
    s.head_temperature_k = lerp(a.head_temperature_k, b.head_temperature_k, u);
    s.attitude_sigma_rad = std::max(a.attitude_sigma_rad, b.attitude_sigma_rad);
    s.position_sigma_m = std::max(a.position_sigma_m, b.position_sigma_m);
    return s;
}

}  // namespace

std::size_t sampleIndexAt(const Path& path, double time_s) {
    const auto after =
        std::upper_bound(path.samples.begin(), path.samples.end(), time_s,
                         [](double t_s, const Sample& sample) { return t_s < sample.time_s; });
    if (after == path.samples.begin()) return 0;
    return static_cast<std::size_t>(after - path.samples.begin()) - 1;
}

Sample sampleAt(const Path& path, double time_s) {
    if (path.samples.empty()) return {};
    if (!(time_s > path.samples.front().time_s)) return path.samples.front();
    if (time_s >= path.samples.back().time_s) return path.samples.back();
    const std::size_t index = sampleIndexAt(path, time_s);
    const Sample& before = path.samples[index];
    if (before.time_s == time_s) return before;
    return between(before, path.samples[index + 1], time_s);
}

std::int32_t figureAt(const Path& path, double time_s) {
    const auto after =
        std::upper_bound(path.figures.begin(), path.figures.end(), time_s,
                         [](double t_s, const Figure& figure) { return t_s < figure.start_s; });
    if (after == path.figures.begin()) return -1;
    const auto figure = after - 1;
    return time_s <= figure->stop_s ? static_cast<std::int32_t>(figure - path.figures.begin()) : -1;
}

bool smokeAt(const Path& path, double time_s) {
    return std::any_of(path.smoke.begin(), path.smoke.end(), [time_s](const Smoke& smoke) {
        return smoke.start_s <= time_s && time_s < smoke.stop_s;
    });
}

bool attitudeShown(const Path& path, const Sample& sample) {
    return path.known.attitude && path.known.bank &&
           static_cast<double>(sample.attitude_sigma_rad) <= kUnsureAttitude_rad;
}

}  // namespace plumbline::path

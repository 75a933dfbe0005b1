#include "engine/record/clock_match.h"

#include <algorithm>
#include <cmath>

namespace plumbline::record {

namespace {

// chosen: loads last for seconds, fixes come once a second or faster
constexpr double kStep_s = 0.25;
// chosen: a record of more steps than this is looked at more coarsely, or it would take minutes
constexpr double kMostSteps = 30000;
constexpr double kMean_s = 1.5;
// chosen: the part of the shorter record that must lie within the other
constexpr double kOverlap = 0.6;
constexpr double kLeastLikeness = 0.6;
// chosen: how much better than at any other offset, away from the peak's own width
constexpr double kStandsOut = 0.15;
constexpr double kPeakWidth_s = 8;

struct Curve {
    double start_s = 0;
    std::vector<double> load;  ///< every step, mean over kMean_s
};

/// Means of irregular samples about a regular grid; holes keep the last value.
Curve onGrid(const std::vector<double>& time_s, const std::vector<double>& value, double step_s) {
    Curve curve;
    curve.start_s = time_s.front();
    std::size_t from = 0, to = 0;
    double sum = 0;
    const auto count = static_cast<std::size_t>((time_s.back() - time_s.front()) / step_s);
    for (std::size_t i = 0; i < count; ++i) {
        const double t = curve.start_s + static_cast<double>(i) * step_s;
        while (to < time_s.size() && time_s[to] <= t + kMean_s / 2) sum += value[to++];
        while (from < to && time_s[from] < t - kMean_s / 2) sum -= value[from++];
        curve.load.push_back(to > from            ? sum / static_cast<double>(to - from)
                             : curve.load.empty() ? kGravity_mps2
                                                  : curve.load.back());
    }
    return curve;
}

Curve curveOfForce(const Series<Vec3>& force, double step_s) {
    std::vector<double> size(force.size());
    for (std::size_t i = 0; i < force.size(); ++i) size[i] = glm::length(force.values[i]);
    return onGrid(force.clock_s, size, step_s);
}

Curve curveOfFixes(const std::vector<Fix>& fixes, const std::vector<Vec3>& positions_S_m,
                   double step_s) {
    const auto velocity = [&](std::size_t i) {
        if (fixes[i].has_velocity && fixes[i].has_vertical_velocity) return fixes[i].velocity_E_mps;
        const std::size_t a = i > 0 ? i - 1 : i, b = std::min(i + 1, fixes.size() - 1);
        return (positions_S_m[b] - positions_S_m[a]) / (fixes[b].clock_s - fixes[a].clock_s);
    };
    std::vector<double> time_s, load;
    for (std::size_t i = 1; i < fixes.size(); ++i) {
        const double dt = fixes[i].clock_s - fixes[i - 1].clock_s;
        if (dt > 3) continue;
        time_s.push_back(fixes[i].clock_s - dt / 2);
        load.push_back(
            glm::length((velocity(i) - velocity(i - 1)) / dt + Vec3(0, 0, kGravity_mps2)));
    }
    if (time_s.size() < 2) return {};
    return onGrid(time_s, load, step_s);
}

}  // namespace

std::optional<ClockMatch> matchClocks(const Series<Vec3>& force_I_mps2,
                                      const std::vector<Fix>& fixes,
                                      const std::vector<Vec3>& positions_S_m) {
    if (force_I_mps2.size() < 100 || fixes.size() < 30) return std::nullopt;
    const double longest_s = std::max(force_I_mps2.clock_s.back() - force_I_mps2.clock_s.front(),
                                      fixes.back().clock_s - fixes.front().clock_s);
    const double step_s = std::max(kStep_s, longest_s / kMostSteps);
    const Curve a = curveOfForce(force_I_mps2, step_s);
    const Curve b = curveOfFixes(fixes, positions_S_m, step_s);
    const auto na = std::ssize(a.load), nb = std::ssize(b.load);
    const auto least = static_cast<std::ptrdiff_t>(kOverlap * double(std::min(na, nb)));
    if (least < 40) return std::nullopt;
    std::vector<double> likeness;
    const std::ptrdiff_t first = least - na, last = nb - least;  // a[i] meets b[i + shift]
    for (std::ptrdiff_t shift = first; shift <= last; ++shift) {
        double sa = 0, sb = 0, saa = 0, sbb = 0, sab = 0, n = 0;
        for (std::ptrdiff_t i = std::max<std::ptrdiff_t>(0, -shift); i < std::min(na, nb - shift);
             ++i) {
            const double x = a.load[std::size_t(i)] - kGravity_mps2;
            const double y = b.load[std::size_t(i + shift)] - kGravity_mps2;
            sa += x;
            sb += y;
            saa += x * x;
            sbb += y * y;
            sab += x * y;
            n += 1;
        }
        const double spread = (saa - sa * sa / n) * (sbb - sb * sb / n);
        likeness.push_back(spread > 0 ? (sab - sa * sb / n) / std::sqrt(spread) : 0);
    }
    const auto peak = std::max_element(likeness.begin(), likeness.end());
    const std::ptrdiff_t at = peak - likeness.begin();
    double other = -1;
    for (std::ptrdiff_t i = 0; i < std::ssize(likeness); ++i)
        if (std::abs(double(i - at)) * step_s > kPeakWidth_s)
            other = std::max(other, likeness[std::size_t(i)]);
    if (*peak < kLeastLikeness || *peak - other < kStandsOut) return std::nullopt;
    double between = 0;  // top of the parabola through the peak and its neighbours
    if (at > 0 && at + 1 < std::ssize(likeness)) {
        const double l = likeness[std::size_t(at - 1)], r = likeness[std::size_t(at + 1)];
        const double bend = l - 2 * *peak + r;
        if (bend < 0) between = 0.5 * (l - r) / bend;
    }
    return ClockMatch{b.start_s - a.start_s + (static_cast<double>(first + at) + between) * step_s,
                      *peak};
}

}  // namespace plumbline::record

#include "engine/estimate/gnss.h"

#include <algorithm>
#include <cmath>

namespace plumbline::estimate {

namespace {

// chosen: no recording of an aerobatic aircraft holds more
constexpr double kFastest_mps = 350;
// chosen: how far a fix that is not wrong may be off
constexpr double kScatter_m = 60;

bool inReach(const GnssFix& a, const GnssFix& b) {
    return glm::length(b.position_S_m - a.position_S_m) <=
           kFastest_mps * std::abs(b.time_s - a.time_s) + kScatter_m;
}

bool finite(const GnssFix& fix) {
    const Vec3 sum = fix.position_S_m + fix.velocity_S_mps;
    return std::isfinite(sum.x + sum.y + sum.z) && std::isfinite(fix.time_s);
}

}  // namespace

std::vector<GnssFix> usableFixes(const std::vector<GnssFix>& fixes) {
    std::vector<GnssFix> rising;
    for (const GnssFix& fix : fixes)
        if (finite(fix) && (rising.empty() || fix.time_s > rising.back().time_s))
            rising.push_back(fix);
    // The longest run of fixes in reach of each other is where the flight was; from it outward.
    std::size_t start = 0, length = 0, run = 0;
    for (std::size_t i = 0; i < rising.size(); ++i) {
        if (i > 0 && !inReach(rising[i - 1], rising[i])) run = i;
        if (i - run + 1 > length) {
            length = i - run + 1;
            start = run;
        }
    }
    std::vector<GnssFix> kept;
    for (std::size_t i = start; i-- > 0;)
        if (inReach(rising[i], kept.empty() ? rising[start] : kept.back()))
            kept.push_back(rising[i]);
    std::reverse(kept.begin(), kept.end());
    for (std::size_t i = start; i < rising.size(); ++i)
        if (kept.empty() || inReach(kept.back(), rising[i])) kept.push_back(rising[i]);
    return kept;
}

GnssCourse::GnssCourse(const std::vector<GnssFix>& fixes) {
    for (const GnssFix& fix : fixes) {
        time_s_.push_back(fix.time_s);
        position_.push_back(toEigen(fix.position_S_m));
        velocity_.push_back(toEigen(fix.velocity_S_mps));
    }
    std::size_t a = 0, b = 0;
    for (std::size_t i = 0; i < fixes.size(); ++i) {
        if (fixes[i].has_velocity && fixes[i].has_vertical_velocity) continue;
        // chosen: over about a second, or the fixes to either side
        while (a + 1 < i && time_s_[i] - time_s_[a + 1] >= 0.5) ++a;
        b = std::max(b, i);
        while (b + 1 < fixes.size() && (b == i || time_s_[b] - time_s_[i] < 0.5)) ++b;
        const std::size_t from = std::min(a, i);
        if (time_s_[b] <= time_s_[from]) continue;
        const Vec moved = (position_[b] - position_[from]) / (time_s_[b] - time_s_[from]);
        if (fixes[i].has_velocity)
            velocity_[i].z() = moved.z();
        else
            velocity_[i] = moved;
    }
}

std::size_t GnssCourse::after(double time_s) const {
    if (at_ >= time_s_.size() || time_s_[at_ - 1] > time_s) at_ = 1;
    while (at_ + 1 < time_s_.size() && time_s_[at_] < time_s) ++at_;
    return at_;
}

Vec GnssCourse::position(double time_s) const {
    if (time_s_.size() < 2) return time_s_.empty() ? Vec(Vec::Zero()) : position_[0];
    const std::size_t i = after(time_s);
    const double h = time_s_[i] - time_s_[i - 1];
    const double u = (time_s - time_s_[i - 1]) / h;
    if (u <= 0) return position_[i - 1];
    if (u >= 1) return position_[i];
    const double u2 = u * u, u3 = u2 * u;
    return (2 * u3 - 3 * u2 + 1) * position_[i - 1] + (3 * u2 - 2 * u3) * position_[i] +
           h * ((u3 - 2 * u2 + u) * velocity_[i - 1] + (u3 - u2) * velocity_[i]);
}

Vec GnssCourse::velocity(double time_s) const {
    if (time_s_.size() < 2) return time_s_.empty() ? Vec(Vec::Zero()) : velocity_[0];
    const std::size_t i = after(time_s);
    const double u =
        std::clamp((time_s - time_s_[i - 1]) / (time_s_[i] - time_s_[i - 1]), 0.0, 1.0);
    return (1 - u) * velocity_[i - 1] + u * velocity_[i];
}

double GnssCourse::gap(double time_s) const {
    if (time_s_.size() < 2) return 1e9;
    const std::size_t i = after(time_s);
    if (time_s < time_s_[i - 1] || time_s > time_s_[i]) return 1e9;
    return time_s_[i] - time_s_[i - 1];
}

}  // namespace plumbline::estimate

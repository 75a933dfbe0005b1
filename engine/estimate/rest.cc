#include "engine/estimate/rest.h"

#include <algorithm>
#include <cmath>

namespace plumbline::estimate {

namespace {

// chosen: above the noise of small sensors, below what a hand or an idling engine does
constexpr double kRateScatter_radps = 0.0087;
constexpr double kForceScatter_mps2 = 0.15;
constexpr double kHalf_s = 0.5;
// chosen: no bias that is worth correcting is larger; more is slow turning
constexpr double kLargestRate_radps = 0.05;
constexpr double kSlow_mps = 1;

struct Sums {
    Vec rate = Vec::Zero(), rate2 = Vec::Zero(), force = Vec::Zero(), force2 = Vec::Zero();
};

}  // namespace

RestSpans findRest(const Inertial& inertial, const std::vector<GnssFix>* fixes) {
    const std::size_t n = inertial.size();
    RestSpans rest;
    rest.still.assign(n, 0);
    Sums sums;
    const auto add = [&](std::size_t i, double sign) {
        const Vec w = toEigen(inertial.rate_I_radps[i]), f = toEigen(inertial.force_I_mps2[i]);
        sums.rate += sign * w;
        sums.rate2 += sign * w.cwiseProduct(w);
        sums.force += sign * f;
        sums.force2 += sign * f.cwiseProduct(f);
    };
    Vec total = Vec::Zero();
    double count = 0;
    std::size_t from = 0, to = 0, fix = 0;
    for (std::size_t i = 0; i < n; ++i) {
        const double t = inertial.time_s[i];
        while (to < n && inertial.time_s[to] <= t + kHalf_s) add(to++, 1);
        while (inertial.time_s[from] < t - kHalf_s) add(from++, -1);
        const double m = static_cast<double>(to - from);
        if (m < 10) continue;
        const Vec rate = sums.rate / m, force = sums.force / m;
        const double rate_var = (sums.rate2 / m - rate.cwiseProduct(rate)).maxCoeff();
        const double force_var = (sums.force2 / m - force.cwiseProduct(force)).maxCoeff();
        if (rate_var > kRateScatter_radps * kRateScatter_radps ||
            force_var > kForceScatter_mps2 * kForceScatter_mps2 || rate.norm() > kLargestRate_radps)
            continue;
        if (fixes) {
            while (fix + 1 < fixes->size() && (*fixes)[fix + 1].time_s <= t) ++fix;
            const GnssFix& near = (*fixes)[fix];
            if (!near.has_velocity || glm::length(near.velocity_S_mps) > kSlow_mps ||
                std::abs(near.time_s - t) > 2)
                continue;
        }
        rest.still[i] = 1;
        total += rate;
        count += 1;
    }
    rest.any = count > 0;
    if (rest.any) rest.bias = total / count;
    return rest;
}

}  // namespace plumbline::estimate

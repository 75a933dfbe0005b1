#include "engine/margins/statistics.h"

#include <algorithm>
#include <cmath>

#include "engine/math/frames.h"

namespace plumbline::margins {

double normalQuantile(double u) {
    const bool upper = u > 0.5;
    const double p = std::max(upper ? 1 - u : u, 1e-12);
    if (p >= 0.5) return 0;
    // M. Abramowitz, I. A. Stegun, Handbook of Mathematical Functions, 26.2.23, within 4.5e-4 (from
    // memory); then Newton's method on the distribution function.
    const double t = std::sqrt(-2 * std::log(p));
    double x = t - (2.515517 + t * (0.802853 + t * 0.010328)) /
                       (1 + t * (1.432788 + t * (0.189269 + t * 0.001308)));
    for (int i = 0; i < 2; ++i) {
        const double miss = 0.5 * std::erfc(x / std::sqrt(2.0)) - p;
        x += miss / (std::exp(-0.5 * x * x) / std::sqrt(2 * kPi));
    }
    return upper ? x : -x;
}

Interval wilson(std::uint64_t hits, std::uint64_t trials) {
    if (trials == 0) return {};
    const double z = normalQuantile(0.975), z2 = z * z;
    const double n = static_cast<double>(trials), p = static_cast<double>(hits) / n;
    const double middle = (p + z2 / (2 * n)) / (1 + z2 / n);
    const double half = z / (1 + z2 / n) * std::sqrt(p * (1 - p) / n + z2 / (4 * n * n));
    return {hits == 0 ? 0 : std::max(middle - half, 0.0),
            hits == trials ? 1 : std::min(middle + half, 1.0)};
}

Histogram::Histogram(double middle, double half_width, double cell)
    : least_(middle - half_width),
      cell_(cell),
      cells_(static_cast<std::size_t>(std::ceil(2 * half_width / cell)), 0) {}

void Histogram::add(double value) {
    const double at =
        std::clamp((value - least_) / cell_, 0.0, static_cast<double>(cells_.size()) - 0.5);
    ++cells_[static_cast<std::size_t>(at)];
    ++count_;
}

double Histogram::quantile(double share) const {
    const double wanted = share * static_cast<double>(count_);
    std::uint64_t below = 0;
    for (std::size_t i = 0; i < cells_.size(); ++i) {
        const double here = cells_[i];
        if (here > 0 && static_cast<double>(below) + here >= wanted)
            return least_ +
                   cell_ * (static_cast<double>(i) +
                            std::clamp((wanted - static_cast<double>(below)) / here, 0.0, 1.0));
        below += cells_[i];
    }
    return least_ + 0.5 * cell_ * static_cast<double>(cells_.size());
}

std::size_t binOf(double u) { return std::min(static_cast<std::size_t>(u * kBins), kBins - 1); }

double firstOrder(const Bins& bins, double sum, double sum_of_squares) {
    double n = 0;
    for (const std::uint64_t count : bins.count) n += static_cast<double>(count);
    if (n <= 2 * kBins) return 0;
    const double mean = sum / n, all = sum_of_squares - n * mean * mean;
    if (!(all > 1e-12 * sum_of_squares)) return 0;
    double between = 0, used = 0;
    for (std::size_t b = 0; b < kBins; ++b) {
        if (bins.count[b] == 0) continue;
        const double count = static_cast<double>(bins.count[b]);
        const double off = bins.sum[b] / count - mean;
        between += count * off * off;
        ++used;
    }
    const double within = (all - between) / (n - used);
    return std::clamp((between - (used - 1) * within) / all, 0.0, 1.0);
}

double firstOrderNoise(std::uint64_t trials) {
    // For an input that does nothing, n times the index is chi-squared less its mean.
    return trials == 0 ? 1 : 3 * std::sqrt(2.0 * (kBins - 1)) / static_cast<double>(trials);
}

}  // namespace plumbline::margins

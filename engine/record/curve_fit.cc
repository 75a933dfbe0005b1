#include "engine/record/curve_fit.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace plumbline::record {

namespace {

// chosen: half-width of the fit; fast logs (10 Hz and up) get noise down, a pull lasts longer.
constexpr double kHalfWindow_s = 0.4;
// chosen: a hole this many times the usual step is a gap that no fit reaches across.
constexpr double kGapSteps = 3.5;
// chosen: five fixes leave one number over to tell their scatter by, which is next to none; the
// scatter of all the log stands in with the weight of this many.
constexpr double kSharedScatter = 6;

/// A polynomial through some samples: its slopes at one of them and what it leaves over.
struct Fit {
    Vec3 slope{0}, bend{0};  ///< first and second derivative
    double slope_gain = 0;   ///< standard deviation of a component of the slope by that of the data
    double bend_gain = 0;
    double left2 = 0;  ///< sum of squares left over, all components
    double spare = 0;  ///< how many numbers more than unknowns, all components
};

/// Least-squares polynomial with up to so many terms through the samples [first, last], seen from
/// the sample `at`, by the normal equations in scaled time.
Fit fitCurve(const std::vector<path::Sample>& samples, Vec3 path::Sample::*what, std::size_t most,
             std::size_t first, std::size_t last, std::size_t at) {
    const std::size_t terms = std::min<std::size_t>(most, last - first + 1);
    if (terms < 2) return {};
    const double scale_s = std::max(samples[last].time_s - samples[at].time_s,
                                    samples[at].time_s - samples[first].time_s);
    std::array<std::array<double, 8>, 4> normal{};  // beside it the unit matrix, then its inverse
    std::array<Vec3, 4> right{Vec3(0), Vec3(0), Vec3(0), Vec3(0)};
    const auto powersOf = [&](std::size_t i) {
        const double u = (samples[i].time_s - samples[at].time_s) / scale_s;
        return std::array<double, 4>{1, u, u * u, u * u * u};
    };
    for (std::size_t i = first; i <= last; ++i) {
        const std::array<double, 4> powers = powersOf(i);
        const Vec3 offset = samples[i].*what - samples[at].*what;
        for (std::size_t r = 0; r < terms; ++r) {
            for (std::size_t c = 0; c < terms; ++c) normal[r][c] += powers[r] * powers[c];
            right[r] += powers[r] * offset;
        }
    }
    // Gauss and Jordan; the matrix is positive definite, since times differ.
    for (std::size_t k = 0; k < terms; ++k) normal[k][4 + k] = 1;
    for (std::size_t k = 0; k < terms; ++k) {
        const double pivot = normal[k][k];
        for (double& cell : normal[k]) cell /= pivot;
        right[k] /= pivot;
        for (std::size_t r = 0; r < terms; ++r) {
            if (r == k) continue;
            const double factor = normal[r][k];
            for (std::size_t c = 0; c < 8; ++c) normal[r][c] -= factor * normal[k][c];
            right[r] -= factor * right[k];
        }
    }
    Fit fit;
    fit.slope = right[1] / scale_s;
    fit.slope_gain = std::sqrt(std::max(0.0, normal[1][5])) / scale_s;
    if (terms > 2) {
        fit.bend = 2.0 * right[2] / (scale_s * scale_s);
        fit.bend_gain = 2 * std::sqrt(std::max(0.0, normal[2][6])) / (scale_s * scale_s);
    }
    fit.spare = 3 * static_cast<double>(last - first + 1 - terms);
    for (std::size_t i = first; i <= last; ++i) {
        Vec3 left = samples[i].*what - samples[at].*what;
        const std::array<double, 4> powers = powersOf(i);
        for (std::size_t r = 0; r < terms; ++r) left -= powers[r] * right[r];
        fit.left2 += glm::dot(left, left);
    }
    return fit;
}

std::vector<Fit> fitAll(const std::vector<path::Sample>& samples, Vec3 path::Sample::*what,
                        std::size_t terms) {
    const std::size_t count = samples.size();
    const double gap_s = kGapSteps * medianStep(samples);
    const auto joined = [&](std::size_t i) {  // sample i follows on the one before
        return samples[i].time_s - samples[i - 1].time_s <= gap_s;
    };
    std::vector<Fit> fits(count);
    for (std::size_t at = 0; at < count; ++at) {
        std::size_t first = at, last = at;
        const auto reach = [&](std::size_t i, std::size_t steps) {
            return steps < 2 || std::abs(samples[i].time_s - samples[at].time_s) <= kHalfWindow_s;
        };
        while (first > 0 && joined(first) && reach(first - 1, at - first)) --first;
        while (last + 1 < count && joined(last + 1) && reach(last + 1, last - at)) ++last;
        // At the ends of a stretch five fixes are still wanted, all from one side.
        while (last - first < 4 && first > 0 && joined(first)) --first;
        while (last - first < 4 && last + 1 < count && joined(last + 1)) ++last;
        fits[at] = fitCurve(samples, what, terms, first, last, at);
    }
    return fits;
}

/// Standard deviation of the data of each fit, from what it and all others leave over.
std::vector<double> scatterOf(const std::vector<Fit>& fits) {
    std::vector<double> each;
    for (const Fit& fit : fits)
        if (fit.spare > 0) each.push_back(fit.left2 / fit.spare);
    std::vector<double> scatter(fits.size(), 1e3);  // nothing left over tells nothing
    if (each.empty()) return scatter;
    // the middle of all, made a mean: of chi-square with three numbers it is 2.366 / 3
    std::nth_element(each.begin(), each.begin() + std::ssize(each) / 2, each.end());
    const double all2 = each[each.size() / 2] / 0.789;
    for (std::size_t i = 0; i < fits.size(); ++i)
        if (fits[i].spare > 0)
            scatter[i] = std::sqrt((fits[i].left2 + kSharedScatter * all2) /
                                   (fits[i].spare + kSharedScatter));
    return scatter;
}

}  // namespace

double medianStep(const std::vector<path::Sample>& samples) {
    if (samples.size() < 2) return 0;
    std::vector<double> steps;
    for (std::size_t i = 1; i < samples.size(); ++i)
        steps.push_back(samples[i].time_s - samples[i - 1].time_s);
    const auto middle = steps.begin() + std::ssize(steps) / 2;
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

void differentiate(std::vector<path::Sample>& samples, Accelerations* accelerations) {
    const std::vector<Fit> fits = fitAll(samples, &path::Sample::position_S_m, 4);
    for (std::size_t i = 0; i < fits.size(); ++i) samples[i].velocity_S_mps = fits[i].slope;
    if (!accelerations) return;
    const std::vector<double> scatter_m = scatterOf(fits);
    *accelerations = {};
    for (std::size_t i = 0; i < fits.size(); ++i) {
        accelerations->value_S_mps2.push_back(fits[i].bend);
        accelerations->sigma_mps2.push_back(fits[i].bend_gain * scatter_m[i]);
    }
}

Accelerations accelerationsOf(const std::vector<path::Sample>& samples) {
    const std::vector<Fit> fits = fitAll(samples, &path::Sample::velocity_S_mps, 4);
    const std::vector<double> scatter_mps = scatterOf(fits);
    Accelerations out;
    for (std::size_t i = 0; i < fits.size(); ++i) {
        out.value_S_mps2.push_back(fits[i].slope);
        out.sigma_mps2.push_back(fits[i].slope_gain * scatter_mps[i]);
    }
    return out;
}

}  // namespace plumbline::record

#include "engine/estimate/first_attitude.h"

#include <cmath>

#include <Eigen/SVD>

namespace plumbline::estimate {

namespace {

Mat3 nearestRotation(const Mat3& profile, double* second = nullptr) {
    const Eigen::JacobiSVD<Mat3> svd(profile, Eigen::ComputeFullU | Eigen::ComputeFullV);
    if (second) *second = svd.singularValues()[1];
    Mat3 sign = Mat3::Identity();
    sign(2, 2) = (svd.matrixU() * svd.matrixV().transpose()).determinant() < 0 ? -1 : 1;
    return svd.matrixU() * sign * svd.matrixV().transpose();
}

}  // namespace

std::vector<Mat3> firstAttitudes(const std::vector<Mat3>& turns,
                                 const std::vector<DirectionPair>& pairs,
                                 const std::vector<double>& node_time_s, double memory_s) {
    const std::size_t n = pairs.size();
    std::vector<Mat3> profile(n, Mat3::Zero());
    std::vector<double> weight(n, 0);
    const auto own = [&](std::size_t k) -> Mat3 {
        return pairs[k].weight * pairs[k].in_S * pairs[k].in_I.transpose();
    };
    Mat3 seen = Mat3::Zero();
    double sum = 0;
    for (std::size_t k = 0; k < n; ++k) {
        if (k > 0) {
            const double keep = std::exp(-(node_time_s[k] - node_time_s[k - 1]) / memory_s);
            seen = keep * (seen * turns[k - 1]).eval();
            sum *= keep;
        }
        seen += own(k);
        sum += pairs[k].weight;
        profile[k] = seen;
        weight[k] = sum;
    }
    seen.setZero();
    sum = 0;
    for (std::size_t k = n; k-- > 0;) {
        if (k + 1 < n) {
            const double keep = std::exp(-(node_time_s[k + 1] - node_time_s[k]) / memory_s);
            seen = keep * ((seen + own(k + 1)) * turns[k].transpose()).eval();
            sum = keep * (sum + pairs[k + 1].weight);
        }
        profile[k] += seen;
        weight[k] += sum;
    }
    // Start where two directions are seen best and go both ways.
    std::size_t best = 0;
    double best_second = -1;
    for (std::size_t k = 0; k < n; k += 5) {
        double second = 0;
        nearestRotation(profile[k], &second);
        if (second > best_second) {
            best_second = second;
            best = k;
        }
    }
    // chosen: a horizontal acceleration below this is weaker than what is carried over
    constexpr double kWeak_mps2 = 1;
    std::vector<Mat3> attitude(n, Mat3::Identity());
    attitude[best] = nearestRotation(profile[best]);
    for (std::size_t k = best + 1; k < n; ++k) {
        const Mat3 carried = attitude[k - 1] * turns[k - 1];
        attitude[k] =
            nearestRotation(profile[k] + kWeak_mps2 * kWeak_mps2 * (weight[k] + 1e-6) * carried);
    }
    for (std::size_t k = best; k-- > 0;) {
        const Mat3 carried = attitude[k + 1] * turns[k].transpose();
        attitude[k] =
            nearestRotation(profile[k] + kWeak_mps2 * kWeak_mps2 * (weight[k] + 1e-6) * carried);
    }
    return attitude;
}

}  // namespace plumbline::estimate

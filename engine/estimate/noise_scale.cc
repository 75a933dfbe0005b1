#include "engine/estimate/noise_scale.h"

#include <algorithm>
#include <cmath>

namespace plumbline::estimate {

void NoiseScale::add(std::size_t node, const StepModel& step) { kept_.push_back({node, step}); }

void NoiseScale::weigh(const Chain& chain, std::size_t node, const Pair& pair) {
    while (!kept_.empty() && kept_.back().node > node) kept_.pop_back();
    if (kept_.empty() || kept_.back().node != node) return;
    const StepModel& step = kept_.back().step;
    const auto& phi = step.phi;
    StepErrors left = step.off + chain.at(node + 1).head<9>();
    left.noalias() -= phi * chain.at(node).head<12>();
    left.noalias() -= step.gamma * chain.sharedSolution().head<16>();

    // What the unknowns may still be off by takes that much out of the residuals.
    const Eigen::Matrix<double, 9, 12> phi_p = phi * pair.p_now.topLeftCorner<12, 12>();
    const StepSquare phi_across = phi * pair.p_across.topLeftCorner<12, 9>();
    StepSquare taken = pair.p_next.topLeftCorner<9, 9>();
    taken.noalias() += phi_p * phi.transpose();
    taken -= phi_across + phi_across.transpose();
    Eigen::Matrix<double, 9, kShared> through = -pair.next_to_shared.topRows<9>();
    through.noalias() += phi * pair.now_to_shared.topRows<12>();
    through.leftCols<16>() -= step.gamma;
    const Eigen::Matrix<double, 9, kShared> through_c = through * chain.sharedCovariance();
    taken.noalias() += through_c * through.transpose();
    const StepSquare free = step.noise - taken;

    // White forces: velocity as a sum, position as its sum. The rest of the noise is the rates'.
    const double t = step.duration_s, q = step.force_noise2;
    StepSquare of_force = StepSquare::Zero();
    for (int a = 0; a < 3; ++a) {
        of_force(3 + a, 3 + a) = q;
        of_force(3 + a, 6 + a) = of_force(6 + a, 3 + a) = q * t / 2;
        of_force(6 + a, 6 + a) = q * t * t / 3;
    }
    const StepErrors weighed = step.weight * left;
    const auto share = [&](const StepSquare& part, double& squares, double& freedom) {
        squares += weighed.dot(part * weighed);
        const StepSquare a = step.weight * part * step.weight;
        freedom += a.cwiseProduct(free).sum();
    };
    share(of_force, force_squares_, force_freedom_);
    share(step.noise - of_force, rate_squares_, rate_freedom_);
}

void NoiseScale::settle(double each) {
    // chosen: the settings count as much as so many residuals, so that little data changes little
    constexpr double kPrior = 2;
    // chosen: no sensor is ten times better than the settings; a loose box may be much worse
    constexpr double kLeast = 0.1, kMost = 20;
    const auto scaled = [&](double scale, double squares, double freedom) {
        const double variance =
            (scale * scale * each * squares + kPrior) / (each * std::max(0.0, freedom) + kPrior);
        if (!std::isfinite(variance)) return scale;
        // chosen: half as much again as the residuals ask for, since each pass goes part of the way
        return std::clamp(std::pow(std::sqrt(variance) / scale, 1.5) * scale, kLeast, kMost);
    };
    rate_ = scaled(rate_, rate_squares_, rate_freedom_);
    force_ = scaled(force_, force_squares_, force_freedom_);
    rate_squares_ = rate_freedom_ = force_squares_ = force_freedom_ = 0;
    kept_.clear();
}

}  // namespace plumbline::estimate

#pragma once
// How noisy rates and forces are in this recording, told by what a pass of the fit leaves over.
// Internal to the layer.
//
// Each part of the noise is scaled by what its residuals weigh over what they should, given how
// much of them the unknowns can take up (variance components: W. Foerstner, "Ein Verfahren zur
// Schaetzung von Varianz- und Kovarianzkomponenten", Allgemeine Vermessungs-Nachrichten 86 (1979)
// 446).

#include <Eigen/StdVector>

#include "engine/estimate/chain.h"

namespace plumbline::estimate {

using StepSquare = Eigen::Matrix<double, 9, 9>;
using StepErrors = Eigen::Matrix<double, 9, 1>;

/// The linear model of one step between nodes: off + x_next - phi x_now - gamma shared is its
/// error.
struct StepModel {
    Eigen::Matrix<double, 9, 12> phi;
    Eigen::Matrix<double, 9, 16> gamma;
    StepSquare noise, weight;
    StepErrors off;
    double duration_s = 0;
    double force_noise2 = 0;  ///< of noise what the forces' scale stands for, (m/s)^2
};

class NoiseScale {
public:
    /// A node's step, to be weighed once the pass is solved; nodes in rising order.
    void add(std::size_t node, const StepModel& step);
    /// On the way back through the chain.
    void weigh(const Chain& chain, std::size_t node, const Pair& pair);
    /// Takes in what was weighed, each step standing for so many, and forgets it.
    void settle(double each);

    double rate() const { return rate_; }    ///< of the rates' set noise, one standard deviation
    double force() const { return force_; }  ///< of the forces'

private:
    double rate_ = 1, force_ = 1;
    double rate_squares_ = 0, rate_freedom_ = 0, force_squares_ = 0, force_freedom_ = 0;
    struct Kept {
        std::size_t node;
        StepModel step;
    };
    std::vector<Kept, Eigen::aligned_allocator<Kept>> kept_;
};

}  // namespace plumbline::estimate

#pragma once
// Least squares over a chain of unknowns and a few that all share. Internal to the layer.
//
// The normal equations are block tridiagonal with a border: each node is eliminated as soon as the
// next is linked to it, so time and memory grow with the number of nodes only. The solution and its
// covariance at each node come back in one sweep (the recursion of a fixed-interval smoother: H. E.
// Rauch, F. Tung, C. T. Striebel, AIAA Journal 3 (1965), in information form).

#include <functional>
#include <vector>

#include <Eigen/Cholesky>
#include <Eigen/Core>
#include <Eigen/StdVector>

namespace plumbline::estimate {

/// Unknowns of one node: errors of attitude (S, on the left), velocity, position, the rate's bias,
/// the slow part of the fixes' error, the pressure height's bias.
constexpr int kTheta = 0, kVelocity = 3, kPosition = 6, kRateBias = 9, kSlow = 12, kHeight = 15;
constexpr int kLocal = 16;
/// Unknowns of the whole: rate gains, force bias, force gain, lag, latency, antenna, wind to the
/// east and north, gain and offset of the airspeed.
constexpr int kSharedGains = 0, kSharedForceBias = 9, kSharedForceGain = 12, kSharedLag = 15,
              kSharedLatency = 16, kSharedAntenna = 17, kSharedWind = 20, kSharedAirGain = 22,
              kSharedAirOffset = 23;
constexpr int kShared = 24;

using Local = Eigen::Matrix<double, kLocal, 1>;
using LocalSquare = Eigen::Matrix<double, kLocal, kLocal>;
using Border = Eigen::Matrix<double, kLocal, kShared>;
using Shared = Eigen::Matrix<double, kShared, 1>;
using SharedSquare = Eigen::Matrix<double, kShared, kShared>;

/// Normal equations of one node before its elimination.
struct NodeEquations {
    LocalSquare h = LocalSquare::Zero();
    Border b = Border::Zero();
    Local right = Local::Zero();
};

/// What the sweep back knows between a node and the next: covariances with the shared unknowns
/// held, and how both go with these (negative).
struct Pair {
    const LocalSquare &p_now, &p_next, &p_across;
    const Border &now_to_shared, &next_to_shared;
};

class Chain {
public:
    using Visit = std::function<void(std::size_t node, const Pair& pair)>;

    explicit Chain(std::size_t nodes, bool with_covariance);

    NodeEquations& now() { return now_; }
    NodeEquations& next() { return next_; }
    SharedSquare& shared() { return c_; }
    Shared& sharedRight() { return c_right_; }

    /// Eliminates the node now; `link` is the block between it and the next one. Then next is now.
    bool eliminate(const LocalSquare& link);
    /// After the last node (nothing linked to it). With covariance each pair of neighbours can be
    /// looked at on the way back, from the last to the first; both their solutions are there.
    bool solve(const Visit& visit = {});

    const Local& at(std::size_t node) const { return x_[node]; }
    const Shared& sharedSolution() const { return g_; }
    /// Covariance of attitude, velocity and position of a node; only when it was asked for.
    const Eigen::Matrix<double, 9, 9>& covariance(std::size_t node) const { return p_[node]; }
    const SharedSquare& sharedCovariance() const { return c_inverse_; }

private:
    bool factor();

    bool with_covariance_;
    std::size_t count_ = 0;
    NodeEquations now_, next_;
    SharedSquare c_ = SharedSquare::Zero(), c_inverse_ = SharedSquare::Zero();
    Shared c_right_ = Shared::Zero(), g_ = Shared::Zero();
    Eigen::LLT<LocalSquare> llt_;
    template <class T>
    using Aligned = std::vector<T, Eigen::aligned_allocator<T>>;
    Aligned<LocalSquare> to_next_, inverse_;
    Aligned<Border> to_shared_;
    Aligned<Local> x_;
    Aligned<Eigen::Matrix<double, 9, 9>> p_;
};

}  // namespace plumbline::estimate

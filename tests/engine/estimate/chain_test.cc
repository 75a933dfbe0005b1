// The chain's elimination against one dense solution of the same equations.

#include "engine/estimate/chain.h"

#include <Eigen/LU>
#include <gtest/gtest.h>

#include "tests/property/random_routine.h"

namespace plumbline::estimate {
namespace {

TEST(Chain, SolutionAndCovarianceAreThoseOfTheDenseEquations) {
    constexpr int kNodes = 5, kAll = kNodes * kLocal + kShared;
    test::Random random(7);
    Eigen::MatrixXd h = Eigen::MatrixXd::Zero(kAll, kAll);
    Eigen::VectorXd right(kAll);
    for (int i = 0; i < kAll; ++i) right[i] = random.between(-1, 1);
    const int border = kNodes * kLocal;
    for (int k = 0; k < kNodes; ++k) {
        // positive definite by its diagonal
        const int from = k * kLocal;
        for (int i = 0; i < kLocal; ++i) {
            for (int j = 0; j <= i; ++j)
                h(from + i, from + j) = h(from + j, from + i) = random.between(-0.3, 0.3);
            for (int j = 0; j < kLocal && k + 1 < kNodes; ++j)
                h(from + i, from + kLocal + j) = h(from + kLocal + j, from + i) =
                    random.between(-0.2, 0.2);
            for (int j = 0; j < kShared; ++j)
                h(from + i, border + j) = h(border + j, from + i) = random.between(-0.2, 0.2);
        }
    }
    h.diagonal().array() += 14;

    Chain chain(kNodes, true);
    chain.shared() = h.bottomRightCorner<kShared, kShared>();
    chain.sharedRight() = right.tail<kShared>();
    for (int k = 0; k < kNodes; ++k) {
        const int from = k * kLocal;
        chain.now().h += h.block<kLocal, kLocal>(from, from);
        chain.now().b += h.block<kLocal, kShared>(from, border);
        chain.now().right += right.segment<kLocal>(from);
        if (k + 1 < kNodes) {
            ASSERT_TRUE(chain.eliminate(h.block<kLocal, kLocal>(from, from + kLocal)));
        }
    }
    ASSERT_TRUE(chain.solve());

    const Eigen::MatrixXd inverse = h.inverse();
    const Eigen::VectorXd x = inverse * right;
    for (int k = 0; k < kNodes; ++k) {
        const int from = k * kLocal;
        EXPECT_LT((chain.at(k) - x.segment<kLocal>(from)).norm(), 1e-12) << k;
        EXPECT_LT((chain.covariance(k) - inverse.block<9, 9>(from, from)).norm(), 1e-12) << k;
    }
    EXPECT_LT((chain.sharedSolution() - x.tail<kShared>()).norm(), 1e-12);
}

}  // namespace
}  // namespace plumbline::estimate

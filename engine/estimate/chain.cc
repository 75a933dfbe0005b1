#include "engine/estimate/chain.h"

namespace plumbline::estimate {

Chain::Chain(std::size_t nodes, bool with_covariance)
    : with_covariance_(with_covariance),
      to_next_(nodes),
      inverse_(with_covariance ? nodes : 0),
      to_shared_(nodes),
      x_(nodes),
      p_(with_covariance ? nodes : 0) {}

bool Chain::factor() {
    llt_.compute(now_.h);
    if (llt_.info() != Eigen::Success) return false;
    to_shared_[count_] = llt_.solve(now_.b);
    x_[count_] = llt_.solve(now_.right);
    if (with_covariance_) inverse_[count_] = llt_.solve(LocalSquare::Identity());
    c_.noalias() -= now_.b.transpose() * to_shared_[count_];
    c_right_.noalias() -= now_.b.transpose() * x_[count_];
    return true;
}

bool Chain::eliminate(const LocalSquare& link) {
    if (!factor()) return false;
    to_next_[count_] = llt_.solve(link);
    next_.h.noalias() -= link.transpose() * to_next_[count_];
    next_.b.noalias() -= link.transpose() * to_shared_[count_];
    next_.right.noalias() -= link.transpose() * x_[count_];
    now_ = next_;
    next_ = NodeEquations{};
    ++count_;
    return true;
}

bool Chain::solve(const Visit& visit) {
    if (!factor()) return false;
    Eigen::LLT<SharedSquare> shared(c_);
    if (shared.info() != Eigen::Success) return false;
    g_ = shared.solve(c_right_);
    c_inverse_ = shared.solve(SharedSquare::Identity());
    LocalSquare p;     // of the node, the shared ones held
    Border to_shared;  // d node / d shared, negative
    for (std::size_t k = count_ + 1; k-- > 0;) {
        x_[k].noalias() -= to_shared_[k] * g_;
        if (k < count_) x_[k].noalias() -= to_next_[k] * x_[k + 1];
        if (!with_covariance_) continue;
        if (k == count_) {
            p = inverse_[k];
            to_shared = to_shared_[k];
        } else {
            const LocalSquare across = -to_next_[k] * p;
            LocalSquare here = inverse_[k];
            here.noalias() -= across * to_next_[k].transpose();
            const Border own = to_shared_[k] - to_next_[k] * to_shared;
            if (visit) visit(k, {here, p, across, own, to_shared});
            p = here;
            to_shared = own;
        }
        const Eigen::Matrix<double, 9, kShared> top = to_shared.topRows<9>();
        p_[k] = p.topLeftCorner<9, 9>();
        p_[k].noalias() += top * c_inverse_ * top.transpose();
    }
    return true;
}

}  // namespace plumbline::estimate

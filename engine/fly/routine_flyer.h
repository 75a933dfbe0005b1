#pragma once
// Flies a routine figure by figure, and goes back before any of them.

#include "engine/fly/solution.h"

namespace plumbline::fly {

class RoutineFlyer {
public:
    explicit RoutineFlyer(Solution::Impl& impl) : impl_(impl), flight_(impl.flight) {}

    /// Stands at the routine's start.
    void start(const routine::Start& start);
    /// Stands anywhere.
    void stand(const Standing& standing);
    /// Takes over the first figures of another solution in the same world, from the same start.
    void resume(const Solution::Impl& before, std::size_t figures);

    std::size_t flown() const { return impl_.checkpoints.size() - 1; }
    bool grounded() const { return flight_.grounded; }
    /// The next figure.
    void figure(const routine::RoutineFigure& figure);
    /// Back to where so many figures were flown.
    void rewind(std::size_t figures);
    /// What was added to the solution since belongs before the next figure.
    void keepAdditions() { impl_.checkpoints.back() = checkpoint(); }
    /// Closes what is open.
    void finish();

    void addFound(FoundValue value) { impl_.found.push_back(std::move(value)); }

    const Solution::Impl& solution() const { return impl_; }
    Flight& flight() { return flight_; }

private:
    Checkpoint checkpoint() const;
    void startElsewhere(std::size_t figure);
    std::int32_t newElement(std::int32_t figure, const text::Element& e);
    /// What stands between stretches (text::isMark).
    void mark(const text::Element& e);
    std::size_t element(std::int32_t figure, const std::vector<text::Element>& elements,
                        std::size_t i);

    Solution::Impl& impl_;
    Flight& flight_;
    bool smoke_on_ = false;
    double smoke_from_s_ = 0;
};

}  // namespace plumbline::fly

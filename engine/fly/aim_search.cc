#include "engine/fly/aim_search.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

namespace plumbline::fly {
namespace {

constexpr double kClose = 1e-4;  // chosen: searched to a hundredth of what counts as met
constexpr int kScan = 16;        // chosen: stretches of a range looked into for a change of sign
constexpr int kCuts = 60, kGoldenCuts = 20;
constexpr double kNarrowest = 1e-10;  // of a range: there is a jump, no root
constexpr double kSlopeStep = 1e-3;   // of a range: a metre or so, far above the trials' error
constexpr int kNewtonSteps = 10, kHalvings = 5, kRounds = 4, kPolishSteps = 6;

/// One parameter, one miss.
class LineSearch {
public:
    struct Point {
        double share = 0, miss = 0;
    };

    explicit LineSearch(std::function<std::optional<double>(double)> miss)
        : miss_(std::move(miss)) {}

    /// Where the miss vanishes, or the nearest of what was tried; nothing where nothing flew.
    std::optional<Point> run() {
        std::vector<std::optional<Point>> at(kScan + 1);
        at.front() = tryAt(0);
        if (close()) return best_;
        at.back() = tryAt(1);
        if (close() || closeIn(at.front(), at.back())) return best_;
        for (int i = 1; i < kScan; ++i) {
            at[static_cast<std::size_t>(i)] = tryAt(static_cast<double>(i) / kScan);
            if (close()) return best_;
        }
        for (std::size_t i = 0; i < kScan; ++i)
            if (closeIn(at[i], at[i + 1])) return best_;
        if (best_) settle(*best_);
        return best_;
    }

private:
    bool close() const { return best_ && std::fabs(best_->miss) <= kClose; }

    std::optional<Point> tryAt(double share) {
        const std::optional<double> miss = miss_(share);
        if (!miss) return std::nullopt;
        const Point point{share, *miss};
        if (!best_ || std::fabs(point.miss) < std::fabs(best_->miss)) best_ = point;
        return point;
    }

    // The secant of Anderson and Bjorck, which weighs down the end that stays; every fourth cut is
    // in the middle. True once close.
    bool closeIn(const std::optional<Point>& from, const std::optional<Point>& to) {
        if (!from || !to || (from->miss < 0) == (to->miss < 0)) return false;
        Point a = *from, b = *to;
        for (int i = 0; i < kCuts && std::fabs(b.share - a.share) > kNarrowest; ++i) {
            double share = b.share - b.miss * (b.share - a.share) / (b.miss - a.miss);
            const auto [low, high] = std::minmax(a.share, b.share);
            if (i % 4 == 3 || !(share > low && share < high)) share = 0.5 * (low + high);
            const std::optional<Point> c = tryAt(share);
            if (!c) return false;
            if (close()) return true;
            if ((c->miss < 0) != (b.miss < 0)) {
                a = b;
            } else {
                const double weight = 1 - c->miss / b.miss;
                a.miss *= weight > 0 ? weight : 0.5;
            }
            b = *c;
        }
        return false;
    }

    // No change of sign was seen: the least miss about the best point, by golden section. (The miss
    // can still change sign in between.)
    void settle(const Point centre) {
        const double ratio = 0.5 * (std::sqrt(5.0) - 1);
        double low = std::max(centre.share - 1.0 / kScan, 0.0);
        double high = std::min(centre.share + 1.0 / kScan, 1.0);
        const auto size = [&](double share) {
            const std::optional<Point> p = tryAt(share);
            if (!p) return std::numeric_limits<double>::infinity();
            crossed_ = crossed_ || (p->miss < 0) != (centre.miss < 0);
            if (crossed_) crossing_ = *p;
            return std::fabs(p->miss);
        };
        double a = high - ratio * (high - low), b = low + ratio * (high - low);
        double size_a = size(a), size_b = crossed_ ? 0 : size(b);
        for (int i = 0; i < kGoldenCuts && !crossed_; ++i) {
            if (size_a < size_b) {
                high = std::exchange(b, a);
                size_b = size_a;
                a = high - ratio * (high - low);
                size_a = size(a);
            } else {
                low = std::exchange(a, b);
                size_a = size_b;
                b = low + ratio * (high - low);
                size_b = size(b);
            }
        }
        if (crossed_) closeIn(centre, crossing_);
    }

    std::function<std::optional<double>(double)> miss_;
    std::optional<Point> best_;
    bool crossed_ = false;
    Point crossing_;
};

double size(const Misses& misses) {
    double most = 0;
    for (const double m : misses) most = std::max(most, std::fabs(m));
    return most;
}

std::size_t unmet(const Misses& misses) {
    return static_cast<std::size_t>(std::count_if(misses.begin(), misses.end(),
                                                  [](double m) { return std::fabs(m) > kAimMet; }));
}

bool better(const std::optional<Misses>& a, const std::optional<Misses>& b) {
    if (!a || !b) return a.has_value();
    return unmet(*a) != unmet(*b) ? unmet(*a) < unmet(*b) : size(*a) < size(*b);
}

using Matrix = std::vector<std::vector<double>>;

/// slopes[i][j]: change of miss i with share j.
std::optional<Matrix> slopesAt(AimTrials& trials, std::vector<double> shares,
                               const Misses& misses) {
    const std::size_t n = shares.size();
    Matrix slopes(n, std::vector<double>(n));
    // From the last parameter on: its trials fly the least.
    for (std::size_t j = n; j-- > 0;) {
        const double step = shares[j] < 0.5 ? kSlopeStep : -kSlopeStep;
        const double share = std::exchange(shares[j], shares[j] + step);
        const std::optional<Misses> there = trials.misses(shares);
        shares[j] = share;
        if (!there) return std::nullopt;
        for (std::size_t i = 0; i < n; ++i) slopes[i][j] = ((*there)[i] - misses[i]) / step;
    }
    return slopes;
}

/// Of a x = b, by elimination with the greatest pivot; nothing where there is none.
std::optional<std::vector<double>> solveLinear(Matrix a, std::vector<double> b) {
    const std::size_t n = b.size();
    for (std::size_t k = 0; k < n; ++k) {
        std::size_t pivot = k;
        for (std::size_t i = k + 1; i < n; ++i)
            if (std::fabs(a[i][k]) > std::fabs(a[pivot][k])) pivot = i;
        if (!(std::fabs(a[pivot][k]) > 0)) return std::nullopt;
        std::swap(a[k], a[pivot]);
        std::swap(b[k], b[pivot]);
        for (std::size_t i = k + 1; i < n; ++i) {
            const double factor = a[i][k] / a[k][k];
            for (std::size_t j = k; j < n; ++j) a[i][j] -= factor * a[k][j];
            b[i] -= factor * b[k];
        }
    }
    for (std::size_t k = n; k-- > 0;) {
        for (std::size_t j = k + 1; j < n; ++j) b[k] -= a[k][j] * b[j];
        b[k] /= a[k][k];
    }
    return b;
}

/// The shares a part of Newton's step on, within the ranges; only those of `which`, for their
/// misses.
std::optional<std::vector<double>> newtonShares(const Matrix& slopes, const Misses& misses,
                                                const std::vector<std::size_t>& which,
                                                std::vector<double> shares, double part) {
    Matrix a;
    std::vector<double> b;
    for (const std::size_t i : which) {
        a.emplace_back();
        for (const std::size_t j : which) a.back().push_back(slopes[i][j]);
        b.push_back(-misses[i]);
    }
    const auto step = solveLinear(std::move(a), std::move(b));
    if (!step) return std::nullopt;
    for (std::size_t k = 0; k < which.size(); ++k)
        shares[which[k]] = std::clamp(shares[which[k]] + part * (*step)[k], 0.0, 1.0);
    return shares;
}

std::vector<std::size_t> allOf(std::size_t count) {
    std::vector<std::size_t> all(count);
    for (std::size_t i = 0; i < count; ++i) all[i] = i;
    return all;
}

/// Damped Newton from a result, which it betters while it can.
void newton(AimTrials& trials, AimResult& at) {
    for (int step = 0; step < kNewtonSteps && at.misses && size(*at.misses) > kClose; ++step) {
        const auto slopes = slopesAt(trials, at.shares, *at.misses);
        if (!slopes) return;
        bool moved = false;
        double part = 1;
        for (int i = 0; i < kHalvings && !moved; ++i, part *= 0.5) {
            const auto shares =
                newtonShares(*slopes, *at.misses, allOf(at.shares.size()), at.shares, part);
            if (!shares) return;
            const std::optional<Misses> misses = trials.misses(*shares);
            if (!misses || !(size(*misses) < size(*at.misses))) continue;
            at = {*shares, misses};
            moved = true;
        }
        if (!moved) return;
    }
}

/// Each aim by itself, the others held.
void sweep(AimTrials& trials, std::vector<double>& shares) {
    for (std::size_t aim = 0; aim < shares.size(); ++aim) {
        std::vector<double> tried = shares;
        const auto point = LineSearch([&](double share) {
                               tried[aim] = share;
                               return trials.miss(tried, aim);
                           }).run();
        if (point) shares[aim] = point->share;
    }
}

}  // namespace

AimResult searchAims(AimTrials& trials, std::vector<double> shares) {
    AimResult best{shares, std::nullopt};
    for (int round = 0; round < kRounds; ++round) {
        const std::vector<double> before = shares;
        sweep(trials, shares);
        AimResult at{shares, trials.misses(shares)};
        if (round == 0 || better(at.misses, best.misses)) best = at;
        if (shares.size() == 1 || !at.misses) break;
        newton(trials, at);
        if (better(at.misses, best.misses)) best = at;
        if (unmet(*best.misses) == 0 || shares == before) break;
    }
    return best;
}

AimResult polishAims(AimTrials& rough, AimTrials& exact, const AimResult& found) {
    // Only aims that were met are followed; what cannot be reached stays at its nearest.
    std::vector<std::size_t> which;
    if (found.misses)
        for (std::size_t i = 0; i < found.shares.size(); ++i)
            if (std::fabs((*found.misses)[i]) <= kAimMet) which.push_back(i);
    const auto slopes = which.empty() ? std::nullopt : slopesAt(rough, found.shares, *found.misses);
    AimResult best{found.shares, exact.misses(found.shares)};
    const auto worst = [&](const Misses& misses) {
        double most = 0;
        for (const std::size_t i : which) most = std::max(most, std::fabs(misses[i]));
        return most;
    };
    for (int step = 0; slopes && step < kPolishSteps; ++step) {
        if (!best.misses || worst(*best.misses) <= kClose) break;
        const auto shares = newtonShares(*slopes, *best.misses, which, best.shares, 1);
        if (!shares) break;
        const std::optional<Misses> misses = exact.misses(*shares);
        if (!misses || !(worst(*misses) < worst(*best.misses))) break;
        best = {*shares, misses};
    }
    return best;
}

}  // namespace plumbline::fly

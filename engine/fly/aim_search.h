#pragma once
// The search behind aims, as plain numbers: shares of the ranges in, misses out.

#include <optional>
#include <vector>

namespace plumbline::fly {

/// Measured less wanted, m or m/s, of every aim.
using Misses = std::vector<double>;

/// An aim is met within 1 cm or 1 cm/s.
inline constexpr double kAimMet = 1e-2;

/// What can be tried.
class AimTrials {
public:
    virtual ~AimTrials() = default;
    /// One aim's miss with each parameter at a share of its range, 0 at `from`, 1 at `to`; nothing
    /// where the flight does not get there.
    virtual std::optional<double> miss(const std::vector<double>& shares, std::size_t aim) = 0;
    virtual std::optional<Misses> misses(const std::vector<double>& shares) = 0;
};

struct AimResult {
    std::vector<double> shares;
    std::optional<Misses> misses;
};

/// Shares within 0 to 1 for which all misses vanish, or the most of them and the others are small.
///
/// @param shares  what is held while the first aim is looked for; as many as aims
/// @invariant under a change of sign of any miss
AimResult searchAims(AimTrials& trials, std::vector<double> shares);

/// A few steps from a result of `rough` to the same of `exact`, along the slopes of `rough`.
AimResult polishAims(AimTrials& rough, AimTrials& exact, const AimResult& found);

}  // namespace plumbline::fly

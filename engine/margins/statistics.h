#pragma once
// Chances, quantiles and sensitivities of many flights, in memory that does not grow with them.

#include <array>
#include <cstdint>
#include <vector>

namespace plumbline::margins {

/// Inverse of the normal distribution function; u in (0, 1), beyond 1e-12 and 1 - 1e-12 as there.
double normalQuantile(double u);

struct Interval {
    double low = 0, high = 1;
};
/// 95 % confidence interval of a chance that showed `hits` times in `trials`: E. B. Wilson,
/// Probable inference, the law of succession, and statistical inference, J. Am. Stat. Assoc. 22
/// (1927) 209-212.
Interval wilson(std::uint64_t hits, std::uint64_t trials);

/// Quantiles from counts in equal cells about a middle; what is beyond is counted in the end cells.
class Histogram {
public:
    Histogram(double middle, double half_width, double cell);
    void add(double value);
    std::uint64_t count() const { return count_; }
    /// Within half a cell where no value was beyond the ends; the middle without any value.
    double quantile(double share) const;

private:
    double least_, cell_;
    std::vector<std::uint32_t> cells_;
    std::uint64_t count_ = 0;
};

inline constexpr std::size_t kBins = 16;  // chosen: misses 1/256 of a straight line's index
std::size_t binOf(double u);

/// What fell into the equally likely bins of one input.
struct Bins {
    std::array<std::uint64_t, kBins> count{};
    std::array<double, kBins> sum{};
    void add(std::size_t bin, double y) {
        ++count[bin];
        sum[bin] += y;
    }
};

/// First-order sensitivity index from flights that were flown anyway: the variance of the bins'
/// means over the variance of all, less what chance alone would give (the correlation ratio; E.
/// Plischke, E. Borgonovo, C. L. Smith, Global sensitivity measures from given data, Eur. J. Oper.
/// Res. 226 (2013) 536-550).
/// @param sum, sum_of_squares  of all values
/// @return 0..1; 0 where nothing varies
double firstOrder(const Bins& bins, double sum, double sum_of_squares);
/// Three times the standard deviation of the index of an input that does nothing.
double firstOrderNoise(std::uint64_t trials);

}  // namespace plumbline::margins

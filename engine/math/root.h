#pragma once
// A zero between two places where a function has different signs; a peak between two places.

#include <algorithm>
#include <cmath>

namespace plumbline {

/// Where `f` changes its sign between `low` and `high`.
///
/// Method: T. R. Chandrupatla, Advances in Engineering Software 28 (1997) 145-149: inverse
/// quadratic interpolation where the last three places bear it, else a cut in the middle.
/// @param f        double(double), continuous, of different sign at low and high
/// @param f_low, f_high   its values there
/// @param nearest  width of the bracket at which to stop, above zero
/// @return the better end of the last bracket; a zero is within `nearest` of it
template <class F>
double zeroBetween(F&& f, double low, double high, double f_low, double f_high, double nearest) {
    // The last place tried, the end of the bracket across the zero from it, and what the place
    // tried displaced.
    double a = low, b = high, f_a = f_low, f_b = f_high;
    double share = 0.5;
    for (int i = 0; i < 200; ++i) {
        const bool a_is_better = std::fabs(f_a) < std::fabs(f_b);
        const double better = a_is_better ? a : b;
        const double closest = 0.5 * nearest / std::fabs(b - a);
        if (!(closest <= 0.5) || (a_is_better ? f_a : f_b) == 0) return better;
        const double x = a + std::clamp(share, closest, 1 - closest) * (b - a);
        const double f_x = f(x);
        double c = a, f_c = f_a;
        if ((f_x < 0) != (f_a < 0)) {
            c = b;
            f_c = f_b;
            b = a;
            f_b = f_a;
        }
        a = x;
        f_a = f_x;
        const double xi = (a - b) / (c - b), phi = (f_a - f_b) / (f_c - f_b);
        const bool smooth = phi * phi < xi && (1 - phi) * (1 - phi) < 1 - xi;
        share = smooth ? f_a / (f_b - f_a) * f_c / (f_b - f_c) +
                             (c - a) / (b - a) * f_a / (f_c - f_a) * f_b / (f_c - f_b)
                       : 0.5;
    }
    return std::fabs(f_a) < std::fabs(f_b) ? a : b;
}

/// Where `f`, rising to one peak between `low` and `high` and falling after it, is greatest.
///
/// Golden section; within rounding of f the place is known to the root of that only.
/// @param nearest  width of the bracket at which to stop, above zero
template <class F>
double peakBetween(F&& f, double low, double high, double nearest) {
    constexpr double kGolden = 0.6180339887498949;
    double left = high - kGolden * (high - low), right = low + kGolden * (high - low);
    double f_left = f(left), f_right = f(right);
    while (high - low > nearest) {
        if (f_left < f_right) {
            low = left;
            left = right;
            f_left = f_right;
            right = low + kGolden * (high - low);
            f_right = f(right);
        } else {
            high = right;
            right = left;
            f_right = f_left;
            left = high - kGolden * (high - low);
            f_left = f(left);
        }
    }
    return 0.5 * (low + high);
}

}  // namespace plumbline

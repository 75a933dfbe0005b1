#pragma once
// A zero between two places where a function has different signs.

#include <algorithm>
#include <cmath>

namespace plumbline {

/// Where `f` changes its sign between `low` and `high`.
///
/// The secant of Anderson and Bjorck (BIT 13 (1973) 253-264), which weighs down the end that stays;
/// every fourth cut is in the middle, so that no shape of `f` stalls it.
/// @param f        double(double), continuous, of different sign at low and high
/// @param f_low, f_high   its values there
/// @param nearest  width of the bracket at which to stop, above zero
/// @return the last place tried; a zero is within `nearest` of it
template <class F>
double zeroBetween(F&& f, double low, double high, double f_low, double f_high, double nearest) {
    double a = low, b = high, f_a = f_low, f_b = f_high;
    for (int i = 0; i < 200 && std::fabs(b - a) > nearest && f_b != 0; ++i) {
        const auto [from, to] = std::minmax({a, b});
        double c = b - f_b * (b - a) / (f_b - f_a);
        // The secant creeps up on the zero from one side: a shade further, and the bracket closes.
        c += c < b ? -0.4 * nearest : 0.4 * nearest;
        if (i % 4 == 3 || !(c > from && c < to)) c = 0.5 * (from + to);
        const double f_c = f(c);
        if ((f_c < 0) != (f_b < 0)) {
            a = b;
            f_a = f_b;
        } else {
            const double weight = 1 - f_c / f_b;
            f_a *= weight > 0 ? weight : 0.5;
        }
        b = c;
        f_b = f_c;
    }
    return b;
}

}  // namespace plumbline

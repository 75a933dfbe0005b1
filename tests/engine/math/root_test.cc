#include "engine/math/root.h"

#include <gtest/gtest.h>

namespace plumbline {
namespace {

struct Found {
    double place;
    int calls;
};

template <class F>
Found find(F&& f, double low, double high, double nearest) {
    int calls = 0;
    const auto counted = [&](double x) {
        ++calls;
        return f(x);
    };
    const double place = zeroBetween(counted, low, high, f(low), f(high), nearest);
    return {place, calls};
}

TEST(ZeroBetween, FindsKnownZeros) {
    EXPECT_NEAR(find([](double x) { return x * x - 2; }, 0, 2, 1e-12).place, std::sqrt(2), 1e-12);
    EXPECT_NEAR(find([](double x) { return std::cos(x); }, 3, 0, 1e-12).place, std::acos(0), 1e-12);
    EXPECT_NEAR(find([](double x) { return 3 * x - 1; }, 0, 1, 1e-12).place, 1.0 / 3, 1e-12);
}

TEST(ZeroBetween, TakesFewCutsWhereTheFunctionIsSmooth) {
    EXPECT_LE(find([](double x) { return std::exp(x) - 5; }, 0, 4, 1e-10).calls, 10);
}

// Jump, flat end, zero of order nine: a secant alone would need thousands.
TEST(ZeroBetween, NoShapeStallsIt) {
    const Found jump = find([](double x) { return x < 0.3 ? -1e-9 : 5; }, 0, 1, 1e-9);
    EXPECT_NEAR(jump.place, 0.3, 1e-9);
    EXPECT_LE(jump.calls, 130);
    const Found flat = find([](double x) { return std::pow(x - 0.7, 9); }, 0, 1, 1e-9);
    EXPECT_NEAR(flat.place, 0.7, 1e-9);
    EXPECT_LE(flat.calls, 130);
}

TEST(ZeroBetween, ZeroAtAnEndIsThatEnd) {
    EXPECT_EQ(find([](double x) { return x - 1; }, 0, 1, 1e-9).place, 1);
}

// A parabola's place is known to the root of rounding, by one call for each golden cut.
TEST(PeakBetween, FindsTheTopAndCallsOnceForEachCut) {
    int calls = 0;
    const double top = peakBetween(
        [&](double x) {
            ++calls;
            return 3 - (x - 0.4) * (x - 0.4);
        },
        0.0, 1.0, 1e-7);
    EXPECT_NEAR(top, 0.4, 1e-7);
    EXPECT_LE(calls, 36);  // log(1e-7) / log(0.618) + 2
    EXPECT_NEAR(peakBetween([](double x) { return x; }, 0.0, 1.0, 1e-9), 1, 1e-9);
}

}  // namespace
}  // namespace plumbline

// The search behind aims on functions whose roots are known.

#include "engine/fly/aim_search.h"

#include <cmath>
#include <functional>

#include <gtest/gtest.h>

namespace plumbline::fly {
namespace {

using Function = std::function<std::optional<Misses>(const std::vector<double>&)>;

class Known : public AimTrials {
public:
    explicit Known(Function function) : function_(std::move(function)) {}
    std::optional<double> miss(const std::vector<double>& shares, std::size_t aim) override {
        const auto all = misses(shares);
        return all ? std::optional((*all)[aim]) : std::nullopt;
    }
    std::optional<Misses> misses(const std::vector<double>& shares) override {
        ++calls;
        for (const double share : shares) {
            EXPECT_GE(share, 0);
            EXPECT_LE(share, 1);
        }
        return function_(shares);
    }
    int calls = 0;

private:
    Function function_;
};

AimResult searchOne(const std::function<std::optional<double>(double)>& f) {
    Known known([&](const std::vector<double>& s) -> std::optional<Misses> {
        const auto miss = f(s[0]);
        return miss ? std::optional(Misses{*miss}) : std::nullopt;
    });
    AimResult result = searchAims(known, {0.5});
    EXPECT_LT(known.calls, 200);
    return result;
}

TEST(AimSearch, RootsOfOne) {
    EXPECT_NEAR(searchOne([](double u) { return 700 * (u - 0.37); }).shares[0], 0.37, 1e-6);
    EXPECT_NEAR(searchOne([](double u) { return 300 * (std::exp(3 * u) - 5); }).shares[0],
                std::log(5.0) / 3, 1e-6);
    EXPECT_NEAR(searchOne([](double u) { return 50 * std::pow(u - 0.4, 3); }).shares[0], 0.4, 0.02);
    // At the very ends.
    EXPECT_EQ(searchOne([](double u) { return 700 * u; }).shares[0], 0);
    EXPECT_EQ(searchOne([](double u) { return 700 * (u - 1); }).shares[0], 1);
}

TEST(AimSearch, RootsThatTheEndsDoNotShow) {
    // Both ends on one side: roots at 0.3 and 0.62.
    const double found = searchOne([](double u) { return 900 * (u - 0.3) * (u - 0.62); }).shares[0];
    EXPECT_NEAR(found, 0.3, 1e-5);
    // Two roots closer together than the scan's points.
    const AimResult close =
        searchOne([](double u) { return 900 * ((u - 0.53) * (u - 0.53) - 1e-4); });
    EXPECT_NEAR(std::fabs(close.shares[0] - 0.53), 0.01, 1e-5);
    // A root that only touches.
    const AimResult touched = searchOne([](double u) { return 900 * (u - 0.53) * (u - 0.53); });
    EXPECT_NEAR(touched.shares[0], 0.53, 1e-3);
}

TEST(AimSearch, NearestWhereThereIsNone) {
    const AimResult bowl = searchOne([](double u) { return 40 + 200 * (u - 0.41) * (u - 0.41); });
    EXPECT_NEAR(bowl.shares[0], 0.41, 1e-3);
    EXPECT_NEAR((*bowl.misses)[0], 40, 1e-3);
    EXPECT_EQ(searchOne([](double u) { return 40 + 200 * u; }).shares[0], 0);
    EXPECT_EQ(searchOne([](double u) { return -300 + 200 * u; }).shares[0], 1);
    // A jump over nought is no root.
    const AimResult jump = searchOne([](double u) { return u < 0.3 ? -5 - u : 7 + u; });
    EXPECT_NEAR((*jump.misses)[0], -5, 0.01);
}

TEST(AimSearch, HolesAreWalkedRound) {
    const auto f = [](double u) -> std::optional<double> {
        if (u < 0.2) return std::nullopt;
        return 700 * (u - 0.6);
    };
    EXPECT_NEAR(searchOne(f).shares[0], 0.6, 1e-6);
    EXPECT_FALSE(searchOne([](double) { return std::nullopt; }).misses);
}

TEST(AimSearch, TwoThatInteract) {
    const auto curved = [](const std::vector<double>& s) {
        return Misses{800 * (s[0] - 0.5) + 300 * (s[1] - 0.25) * (s[1] + 1),
                      200 * (s[1] - 0.25) - 150 * (s[0] - 0.5)};
    };
    Known known([&](const std::vector<double>& s) { return std::optional(curved(s)); });
    const AimResult result = searchAims(known, {0.1, 0.9});
    EXPECT_NEAR(result.shares[0], 0.5, 1e-5);
    EXPECT_NEAR(result.shares[1], 0.25, 1e-5);
    EXPECT_LT(known.calls, 60);
}

TEST(AimSearch, CircleAndLine) {
    Known known([](const std::vector<double>& s) {
        return std::optional(
            Misses{500 * (s[0] * s[0] + s[1] * s[1] - 0.5), 400 * (s[0] - s[1] - 0.2)});
    });
    const AimResult result = searchAims(known, {0.9, 0.1});
    // x - y = 0.2 and x^2 + y^2 = 0.5: y = (-0.2 + sqrt(0.96)) / 2.
    const double y = 0.5 * (-0.2 + std::sqrt(0.96));
    EXPECT_NEAR(result.shares[0], y + 0.2, 1e-5);
    EXPECT_NEAR(result.shares[1], y, 1e-5);
}

TEST(AimSearch, WhatCanBeMetIsMet) {
    // The first cannot come below 30; the second can for whatever the first is.
    Known known([](const std::vector<double>& s) {
        return std::optional(Misses{30 + 100 * s[0], 90 * (s[1] - 0.4) + 20 * s[0]});
    });
    const AimResult result = searchAims(known, {0.5, 0.5});
    EXPECT_EQ(result.shares[0], 0);
    EXPECT_NEAR(result.shares[1], 0.4, 1e-4);
    EXPECT_NEAR((*result.misses)[1], 0, kAimMet);
}

TEST(AimSearch, SignsDoNotMatter) {
    const auto f = [](double u) { return 300 * (std::exp(3 * u) - 5) + 30 * std::sin(40 * u); };
    EXPECT_EQ(searchOne(f).shares[0], searchOne([&](double u) { return -f(u); }).shares[0]);
}

TEST(AimSearch, PolishFollowsTheExactFunction) {
    const auto f = [](double off) {
        return [off](const std::vector<double>& s) {
            return std::optional(Misses{300 * (std::exp(s[0]) - 1.5) + off,
                                        200 * (s[1] - 0.3) + 40 * s[0] * s[0] - off});
        };
    };
    Known rough(f(0)), exact(f(0.05));
    const AimResult found = searchAims(rough, {0.5, 0.5});
    const AimResult polished = polishAims(rough, exact, found);
    EXPECT_NEAR(polished.shares[0], std::log(1.5 - 0.05 / 300), 1e-6);
    EXPECT_LT(std::fabs((*polished.misses)[1]), 1e-4);
    EXPECT_LE(exact.calls, 4);
}

}  // namespace
}  // namespace plumbline::fly

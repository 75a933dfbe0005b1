#include "viewer/ui/fingers.h"

#include <gtest/gtest.h>

namespace plumbline::ui {
namespace {

constexpr float kLeast = 40;

TEST(Fingers, TapBesideASmallButtonMeansIt) {
    const Targets targets{{{100, 100, 28, 24}, {0, 0, 800, 600}}, {}};
    for (const Place tap : {Place{95, 112}, Place{133, 112}, Place{114, 93}, Place{114, 131}}) {
        const Place meant = meantBy(targets, tap, kLeast);
        EXPECT_TRUE(targets.pressed[0].contains(meant.x, meant.y)) << tap.x << ' ' << tap.y;
    }
    EXPECT_EQ(meantBy(targets, {93, 112}, kLeast), (Place{93, 112}));
    EXPECT_EQ(meantBy(targets, {114, 133}, kLeast), (Place{114, 133}));
}

TEST(Fingers, TheNearerOfTwoIsMeantAndInsideOneItStays) {
    const Targets targets{{{100, 100, 20, 20}, {126, 100, 20, 20}, {0, 0, 800, 600}}, {}};
    EXPECT_LT(meantBy(targets, {122, 110}, kLeast).x, 120);
    EXPECT_GT(meantBy(targets, {124, 110}, kLeast).x, 126);
    EXPECT_EQ(meantBy(targets, {127, 110}, kLeast), (Place{127, 110}));
}

TEST(Fingers, WhatLiesBehindIsNotMeant) {
    const Targets targets{{{0, 0, 800, 600}, {100, 100, 20, 20}}, {}};
    EXPECT_EQ(meantBy(targets, {98, 110}, kLeast), (Place{98, 110}));
}

TEST(Fingers, RowsOfAListKeepTheirOwn) {
    const Targets targets{{{0, 0, 600, 34}, {0, 34, 600, 34}, {0, 0, 800, 600}}, {}};
    EXPECT_EQ(meantBy(targets, {300, 33}, kLeast), (Place{300, 33}));
    EXPECT_EQ(meantBy(targets, {300, 35}, kLeast), (Place{300, 35}));
}

TEST(Fingers, ScrollOnlyWhereAWheelDoes) {
    const Targets targets{{}, {{0, 0, 300, 600}}};
    EXPECT_TRUE(scrolls(targets, {10, 10}));
    EXPECT_FALSE(scrolls(targets, {310, 10}));
}

}  // namespace
}  // namespace plumbline::ui

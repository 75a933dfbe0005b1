#include <cmath>

#include <gtest/gtest.h>

#include "viewer/model/lanes.h"
#include "viewer/model/time_axis.h"

namespace plumbline::model {
namespace {

TEST(TimeAxis, GoesThereAndBack) {
    TimeAxis axis;
    axis.start_s = 30;
    axis.span_s = 120;
    axis.left_px = 84;
    axis.width_px = 1500;
    EXPECT_DOUBLE_EQ(axis.xOf(30), 84);
    EXPECT_DOUBLE_EQ(axis.xOf(150), 1584);
    EXPECT_DOUBLE_EQ(axis.timeOf(84 + 750), 90);
    for (double t_s : {0.0, 31.7, 149.99, 700.0}) {
        EXPECT_NEAR(axis.timeOf(axis.xOf(t_s)), t_s, 1e-9);
    }
}

TEST(TimeAxis, TicksNeverStandCloserThanAsked) {
    TimeAxis axis;
    axis.width_px = 1500;
    for (double span_s = 2; span_s < 40000; span_s *= 1.37) {
        axis.span_s = span_s;
        const double step_s = tickStep(axis, 84);
        EXPECT_GE(step_s / axis.secondsPerPixel(), 84) << span_s;
    }
    axis.span_s = 132;
    EXPECT_DOUBLE_EQ(tickStep(axis, 84), 10);
}

TEST(TimeWindow, ZoomKeepsTheTimeUnderThePointer) {
    TimeWindow window;
    window.start_s = 100;
    window.span_s = 100;
    const TimeWindow near = zoomed(window, 140, 0.5, 700);
    EXPECT_DOUBLE_EQ(near.span_s, 50);
    EXPECT_DOUBLE_EQ((140 - near.start_s) / near.span_s, 0.4);
    const TimeWindow all = zoomed(window, 140, 100, 700);
    EXPECT_DOUBLE_EQ(all.span_s, 700);
    EXPECT_DOUBLE_EQ(all.start_s, 0);
    EXPECT_DOUBLE_EQ(zoomed(window, 140, 1e-9, 700).span_s, kLeastSpan_s);
}

TEST(TimeWindow, FollowsOnlyAsFarAsItMust) {
    TimeWindow window;
    window.span_s = 100;
    EXPECT_DOUBLE_EQ(following(window, 59, 700).start_s, 0) << "still in sight: stands";
    EXPECT_DOUBLE_EQ(following(window, 70, 700).start_s, 10);
    EXPECT_DOUBLE_EQ(following(window, 700, 700).start_s, 600) << "not past the end";
    window.start_s = 300;
    EXPECT_DOUBLE_EQ(following(window, 120, 700).start_s, 120);
}

TEST(TimeWindow, FitsAShortPath) {
    const TimeWindow window = fitted(TimeWindow(), 40, 132);
    EXPECT_DOUBLE_EQ(window.span_s, 40);
    EXPECT_DOUBLE_EQ(window.start_s, 0);
    EXPECT_DOUBLE_EQ(fitted(TimeWindow(), 700, 132).span_s, 132);
}

/// 100 samples a second of a slow wave with one spike of one sample.
void makeWave(std::vector<double>& time_s, std::vector<float>& values) {
    for (int i = 0; i < 10000; ++i) {
        time_s.push_back(i * 0.01);
        values.push_back(i == 4321 ? 9.5F : static_cast<float>(std::sin(i * 0.001)));
    }
}

TEST(Lanes, ASpikeOfOneSampleSurvivesDecimation) {
    std::vector<double> time_s;
    std::vector<float> values;
    makeWave(time_s, values);
    const double bin_s = 0.7;
    const std::vector<Bin> bins = binned(time_s, values, 0, 150, bin_s);
    float high = -10;
    std::int64_t samples = 0;
    for (std::size_t b = 0; b < bins.size(); ++b) {
        if (bins[b].count == 0) continue;
        EXPECT_LE(bins[b].low, bins[b].high);
        if (bins[b].high > high) high = bins[b].high;
        samples += bins[b].count;
    }
    EXPECT_EQ(high, 9.5F);
    EXPECT_EQ(samples, 10000) << "every sample falls into one bin";
    EXPECT_EQ(bins[static_cast<std::size_t>(43.21 / bin_s)].high, 9.5F);
}

TEST(Lanes, BinsDoNotChangeWhenTheWindowMoves) {
    std::vector<double> time_s;
    std::vector<float> values;
    makeWave(time_s, values);
    const std::vector<Bin> here = binned(time_s, values, 10, 60, 0.3);
    const std::vector<Bin> there = binned(time_s, values, 27, 60, 0.3);
    for (std::size_t i = 17; i < 60; ++i) {
        EXPECT_EQ(here[i].low, there[i - 17].low);
        EXPECT_EQ(here[i].high, there[i - 17].high);
    }
}

TEST(Lanes, HoursOfSamplesBinInBlocksToTheSameExtremes) {
    // Two hours at 50 Hz of a value that jumps about (a linear congruence, so that it repeats).
    path::Path path;
    std::uint32_t dice = 1;
    for (int i = 0; i < 360000; ++i) {
        path::Sample sample;
        sample.time_s = i * 0.02 + 0.003;
        dice = dice * 1664525U + 1013904223U;
        sample.position_S_m.z = dice >> 16;
        path.samples.push_back(sample);
    }
    const LaneData lanes = makeLaneData(path);
    for (const double bin_s : {5.0, 1.7, 0.11}) {
        for (const std::int64_t first : {0, 77}) {
            const auto one_by_one = binned(lanes.time_s, lanes.height_m.values, first, 1500, bin_s);
            const auto blocks = binned(lanes.time_s, lanes.height_m, first, 1500, bin_s);
            ASSERT_EQ(one_by_one.size(), blocks.size());
            for (std::size_t i = 0; i < blocks.size(); ++i) {
                ASSERT_EQ(one_by_one[i].count, blocks[i].count);
                ASSERT_EQ(one_by_one[i].low, blocks[i].low);
                ASSERT_EQ(one_by_one[i].high, blocks[i].high);
            }
        }
    }
}

TEST(Lanes, BinsOutsideThePathAreEmpty) {
    std::vector<double> time_s;
    std::vector<float> values;
    makeWave(time_s, values);
    for (const Bin& bin : binned(time_s, values, 5000, 20, 0.3)) EXPECT_EQ(bin.count, 0);
    EXPECT_TRUE(binned(time_s, values, 0, 0, 0.3).empty());
    EXPECT_EQ(binned(std::vector<double>(), std::vector<float>(), 0, 3, 0.3)[1].count, 0);
}

TEST(Lanes, HeldExtremesOnlyEverWiden) {
    path::Path path;
    for (int i = 0; i < 500; ++i) {
        path::Sample sample;
        sample.time_s = i * 0.1;
        sample.position_S_m.z = 100 + 50 * std::sin(i * 0.05);
        // Straight up in body z: -5 g0 along +z reads as +5 g.
        sample.specific_force_B_mps2 = Vec3(0, 0, -kGravity_mps2 * (1 + 4 * std::sin(i * 0.03)));
        path.samples.push_back(sample);
    }
    const LaneData lanes = makeLaneData(path);
    ASSERT_EQ(lanes.load_g.values.size(), 500U);
    for (std::size_t i = 1; i < 500; ++i) {
        EXPECT_GE(lanes.load_g.highest_so_far[i], lanes.load_g.highest_so_far[i - 1]);
        EXPECT_LE(lanes.load_g.lowest_so_far[i], lanes.load_g.lowest_so_far[i - 1]);
        EXPECT_LE(lanes.load_g.values[i], lanes.load_g.highest_so_far[i]);
        EXPECT_GE(lanes.load_g.values[i], lanes.load_g.lowest_so_far[i]);
    }
    EXPECT_NEAR(lanes.load_g.high, 5, 0.01);
    EXPECT_NEAR(lanes.load_g.low, -3, 0.01);
    EXPECT_NEAR(lanes.height_m.high, 150, 0.1);
    EXPECT_EQ(indexAt(lanes.time_s, 10.05), 100U);
    EXPECT_EQ(indexAt(lanes.time_s, -1), 0U);
}

}  // namespace
}  // namespace plumbline::model

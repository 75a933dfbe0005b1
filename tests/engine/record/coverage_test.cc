#include "engine/record/coverage.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/record/read_recording.h"
#include "engine/record/track_path.h"

namespace plumbline::record {
namespace {

TEST(Coverage, HolesPartAStream) {
    std::vector<double> clock_s;
    for (int i = 0; i < 100; ++i)
        if (i < 40 || i >= 60) clock_s.push_back(1000 + 0.1 * i);
    const StreamCoverage stream = coverageOf("Rates", clock_s, 1000);
    ASSERT_EQ(stream.spans.size(), 2u);
    EXPECT_NEAR(stream.spans[0].start_s, 0, 1e-9);
    EXPECT_NEAR(stream.spans[0].stop_s, 3.9, 1e-9);
    EXPECT_NEAR(stream.spans[1].start_s, 6, 1e-9);
    EXPECT_NEAR(stream.spans[1].stop_s, 9.9, 1e-9);
}

TEST(Coverage, AFewLostSamplesAreNoHole) {
    std::vector<double> clock_s;
    for (int i = 0; i < 400; ++i)
        if (i % 50 != 7 && i % 50 != 8) clock_s.push_back(0.005 * i);
    EXPECT_EQ(coverageOf("Forces", clock_s, 0).spans.size(), 1u);
    EXPECT_TRUE(coverageOf("Forces", {}, 0).spans.empty());
}

TEST(Coverage, ATrackTellsItsHoles) {
    std::string csv = "t_s,x_m,y_m,z_m\n";
    for (int i = 0; i < 60; ++i)
        if (i < 20 || i >= 35) csv += std::to_string(i) + "," + std::to_string(10 * i) + ",0,50\n";
    const auto track = readRecording(csv, "a.csv");
    ASSERT_TRUE(track) << describe(track.error());
    ASSERT_EQ(track->streams.size(), 1u);
    EXPECT_EQ(track->streams[0].name, "Places");
    ASSERT_EQ(track->streams[0].spans.size(), 2u);
    EXPECT_NEAR(track->streams[0].spans[0].stop_s, 19, 1e-9);
    EXPECT_NEAR(track->streams[0].spans[1].start_s, 35, 1e-9);
}

TEST(Coverage, NumbersAreThinnedToTheirExtremes) {
    SensorLog sensors;
    for (int i = 0; i < 100000; ++i)
        sensors.rate_I_radps.add(0.005 * i, {std::sin(0.01 * i), 2, i == 70001 ? -9.0 : 0.0});
    const std::vector<StreamCoverage> all = coverageOf({}, sensors, 100);
    ASSERT_EQ(all.size(), 1u);
    const StreamNumbers& numbers = all[0].numbers;
    EXPECT_EQ(numbers.unit, "rad/s");
    ASSERT_EQ(numbers.components, 3);
    EXPECT_LT(numbers.entries.size(), 20000u);
    EXPECT_GT(numbers.entries.size(), 2000u);
    EXPECT_NEAR(numbers.entries.front().time_s, -100, 1e-9);
    // a single sample's peak is not lost
    std::size_t peaks = 0;
    for (const StreamNumbers::Entry& entry : numbers.entries) {
        EXPECT_LE(entry.low[0], entry.high[0]);
        EXPECT_EQ(entry.low[1], 2);
        peaks += entry.low[2] == -9 ? 1 : 0;
    }
    EXPECT_EQ(peaks, 1u);
}

TEST(Coverage, FewNumbersAreKeptAsTheyAre) {
    SensorLog sensors;
    for (int i = 0; i < 5; ++i) sensors.pressure_height_m.add(i, i == 2 ? NAN : 10.0 * i);
    const std::vector<StreamCoverage> all = coverageOf({}, sensors, 0);
    ASSERT_EQ(all.size(), 1u);
    ASSERT_EQ(all[0].numbers.entries.size(), 4u);  // without the one that is none
    EXPECT_EQ(all[0].numbers.entries[2].low[0], 30);
    EXPECT_EQ(all[0].numbers.entries[2].high[0], 30);
    EXPECT_EQ(all[0].numbers.entries[2].time_s, 3);
}

}  // namespace
}  // namespace plumbline::record

#include "engine/record/coverage.h"

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

}  // namespace
}  // namespace plumbline::record

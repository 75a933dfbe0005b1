// Recordings with something odd in them: each opens with the right words, or is refused with them.

#include <gtest/gtest.h>

#include "engine/record/read_recording.h"
#include "tests/engine/record/test_data.h"

namespace plumbline::record {
namespace {

struct Odd {
    const char* file;
    std::size_t samples;  ///< 0: refused
    const char* says;     ///< in its warnings, or in the first reason
};

class OddFiles : public testing::TestWithParam<Odd> {};

TEST_P(OddFiles, AreTakenForWhatTheyAre) {
    const Odd& odd = GetParam();
    const std::string bytes = readTestData(std::string("odd/") + odd.file);
    const auto track = readRecording(bytes, odd.file);
    ASSERT_EQ(track.has_value(), odd.samples > 0);
    const std::string said = track ? describe(track->warnings) : describe(track.error().front());
    EXPECT_NE(said.find(odd.says), std::string::npos) << said;
    if (track) {
        EXPECT_EQ(track->path.samples.size(), odd.samples);
    }
}

// Numbers of points: counted by hand in the files.
INSTANTIATE_TEST_SUITE_P(
    All, OddFiles,
    testing::Values(Odd{"stopped_clock.gpx", 0, "nearly all its fixes have the same time"},
                    Odd{"few_heights.gpx", 2,
                        "few_heights.gpx:6:2: 8 track points without a height"},
                    Odd{"broken_lines.igc", 9, ""}, Odd{"no_heights.nmea", 0, "heights are empty"},
                    Odd{"wrong_checksum.nmea", 6, "1 sentences with a wrong checksum"}));

}  // namespace
}  // namespace plumbline::record

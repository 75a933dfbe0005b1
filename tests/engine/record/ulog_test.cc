#include "engine/record/ulog.h"

#include <algorithm>

#include <gtest/gtest.h>

#include "engine/record/gzip.h"
#include "engine/record/read_recording.h"
#include "tests/engine/record/test_data.h"

namespace plumbline::record {
namespace {

std::string unpacked(const std::string& name) {
    const std::string packed = readTestData("sensors/" + name);
    const auto bytes = unpackGzip({name, packed});
    EXPECT_TRUE(bytes);
    return bytes ? bytes->bytes : std::string();
}

TEST(Ulog, NumbersAreThoseOfAnotherDecoder) {
    // Expected: the same file as pyulog 1.0 turned it into tables.
    const auto log = readUlog({"a.ulg", unpacked("multirotor.ulg.gz")});
    ASSERT_TRUE(log) << describe(log.error());
    const SensorLog& s = log->sensors;
    ASSERT_GT(s.rate_I_radps.size(), 1000u);
    EXPECT_NEAR(s.rate_I_radps.values[0].x, -0.00192, 5e-6);
    EXPECT_NEAR(s.force_I_mps2.values[0].z, -9.6304, 5e-5);
    EXPECT_NEAR(s.field_I.values[0].z, 0.4469, 5e-5);
    EXPECT_NEAR(s.rate_I_radps.clock_s[1] - s.rate_I_radps.clock_s[0], 0.036, 1e-6);
    EXPECT_NEAR(s.force_I_mps2.values[1].y, -0.4878, 5e-5);
    // the first attitude, body to north-east-down
    const Quat ned(0.954591, 0.041479, 0.048175, -0.291060);
    const Vec3 nose = rotate(ned, Vec3(1, 0, 0));
    const Vec3 ours = rotate(s.q_EB.values[0], Vec3(1, 0, 0));
    EXPECT_NEAR(ours.x, nose.y, 3e-6);
    EXPECT_NEAR(ours.y, nose.x, 3e-6);
    EXPECT_NEAR(ours.z, -nose.z, 3e-6);
    EXPECT_EQ(log->warnings.size(), 1u);  // dropouts
}

TEST(Ulog, ALogWithFixesAndAttitudeIsAPath) {
    const std::string packed = readTestData("sensors/on_the_bench.ulg.gz");
    const auto track = readRecording(packed, "bench.ulg.gz");
    ASSERT_TRUE(track) << describe(track.error());
    EXPECT_EQ(track->kind, "ULog");
    EXPECT_TRUE(track->path.known.attitude);
    EXPECT_EQ(track->start_utc.substr(0, 10), "2021-04-21");
    EXPECT_GT(track->path.samples.size(), 300u);
}

TEST(Ulog, AttitudeWithoutAPlaceTurnsWhereItStands) {
    const std::string packed = readTestData("sensors/multirotor.ulg.gz");
    const auto track = readRecording(packed, "a.ulg.gz");
    ASSERT_TRUE(track) << describe(track.error());
    EXPECT_TRUE(track->path.known.attitude);
    EXPECT_FALSE(track->path.known.place);
    EXPECT_TRUE(std::any_of(track->notes.begin(), track->notes.end(), [](const std::string& note) {
        return note.find("no place") != std::string::npos;
    }));
    const auto log = readUlog({"a.ulg", unpackGzip({"a", packed})->bytes});
    const Series<Quat>& q = log->sensors.q_EB;
    for (std::size_t i = 10; i < q.size(); i += 500) {
        const path::Sample at = path::sampleAt(track->path, q.clock_s[i] - q.clock_s.front());
        EXPECT_LT(glm::length(vectorFromRotation(glm::conjugate(q.values[i]) * at.q_SB)), 0.05);
        EXPECT_EQ(at.position_S_m.x, 0);
    }
}

TEST(Ulog, CutAndBrokenFilesGiveWhatIsWhole) {
    const std::string whole = unpacked("on_the_bench.ulg.gz");
    std::size_t read = 0;
    for (std::size_t size = 7; size < whole.size(); size += 997) {
        const auto log = readUlog({"a.ulg", std::string_view(whole).substr(0, size)});
        if (log) ++read;
    }
    EXPECT_GT(read, 100u);
    std::string broken = whole;
    for (std::size_t i = 2000; i < broken.size(); i += 501) broken[i] = static_cast<char>(0xFF);
    const auto log = readUlog({"a.ulg", broken});
    if (log) {
        EXPECT_FALSE(log->warnings.empty());
    }
}

TEST(Gzip, CutFilesGiveWhatIsThere) {
    const std::string packed = readTestData("sensors/unmanned_gnss.csv.gz");
    const auto whole = unpackGzip({"a.gz", packed});
    const auto half = unpackGzip({"a.gz", std::string_view(packed).substr(0, packed.size() / 2)});
    ASSERT_TRUE(whole);
    ASSERT_TRUE(half);
    EXPECT_TRUE(whole->warnings.empty());
    EXPECT_EQ(half->warnings.size(), 1u);
    EXPECT_EQ(whole->bytes.substr(0, half->bytes.size()), half->bytes);
    EXPECT_GT(half->bytes.size(), whole->bytes.size() / 4);
    EXPECT_FALSE(unpackGzip({"a.gz", std::string_view(packed).substr(0, 12)}));
    // two members one after the other
    const auto twice = unpackGzip({"a.gz", packed + packed});
    ASSERT_TRUE(twice);
    EXPECT_EQ(twice->bytes, whole->bytes + whole->bytes);
}

}  // namespace
}  // namespace plumbline::record

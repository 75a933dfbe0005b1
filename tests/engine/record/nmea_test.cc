#include "engine/record/nmea.h"

#include <gtest/gtest.h>

#include "engine/record/read_recording.h"
#include "engine/units/units.h"
#include "tests/engine/record/test_data.h"

namespace plumbline::record {
namespace {

FixLog readFile(const std::string& name) {
    const std::string bytes = readTestData("tracks/" + name);
    Expected<FixLog, Problems> log = readNmea({name, bytes});
    EXPECT_TRUE(log) << describe(log.error());
    return log ? *log : FixLog{};
}

TEST(Nmea, PositionsAreThoseOfAnotherDecoder) {
    // Expected: gpsd's own decoding of the same sentences (test/daemon/*.log.chk of its sources).
    const FixLog log = readFile("receiver_four_systems.nmea");
    EXPECT_EQ(log.clock, Clock::Utc);
    const Fix& first = log.fixes.front();
    EXPECT_NEAR(first.clock_s, 1594507065, 1e-6);  // 2020-07-11T22:37:45Z
    EXPECT_NEAR(first.place.latitude_rad / units::kDegree_rad, 38.110494, 5e-10);
    EXPECT_NEAR(first.place.longitude_rad / units::kDegree_rad, -122.626897, 5e-10);
    EXPECT_NEAR(first.place.elevation_m, 83.1, 1e-9);
    const FixLog fast = readFile("receiver_fast.nmea");
    EXPECT_NEAR(fast.fixes[0].place.latitude_rad / units::kDegree_rad, 41.574965910, 5e-10);
    EXPECT_NEAR(fast.fixes[0].place.longitude_rad / units::kDegree_rad, -93.750571901, 5e-10);
    EXPECT_NEAR(glm::length(fast.fixes[0].velocity_E_mps), 0.076, 5e-4);
    EXPECT_NEAR(fast.fixes[1].clock_s - fast.fixes[0].clock_s, 0.1, 1e-6);
}

TEST(Nmea, TheDayOfASentenceWithoutOneIsThatOfTheOthers) {
    const FixLog log = readFile("receiver_midnight.nmea");
    for (const Fix& fix : log.fixes) {
        EXPECT_GT(fix.clock_s, 1554508800);  // 2019-04-06
        EXPECT_LT(fix.clock_s, 1554595200);
    }
}

TEST(Nmea, TimesGoOnPastMidnight) {
    const std::string text =
        "$GPGGA,235959.00,5000.0,N,00800.0,E,1,8,1,100,M,47,M,,\n"
        "$GPGGA,000000.00,5000.0,N,00800.0,E,1,8,1,100,M,47,M,,\n";
    const auto log = readNmea({"a", text});
    ASSERT_TRUE(log);
    EXPECT_EQ(log->clock, Clock::TimeOfDay);
    EXPECT_EQ(log->fixes[1].clock_s - log->fixes[0].clock_s, 1);
}

TEST(Nmea, WrongChecksumsAreCounted) {
    std::string text = readTestData("tracks/receiver_fast.nmea");
    text.replace(text.find("4134.49795459"), 4, "4135");
    const auto log = readNmea({"a", text});
    ASSERT_TRUE(log);
    ASSERT_EQ(log->warnings.size(), 1u);
    EXPECT_NE(log->warnings[0].what.find("1 sentences with a wrong checksum"), std::string::npos);
    EXPECT_EQ(log->warnings[0].where.line, 1);
}

TEST(Nmea, WhereEveryChecksumIsWrongThatIsTheReason) {
    std::string text = readTestData("tracks/receiver_fast.nmea");
    for (std::size_t at = text.find('*'); at != std::string::npos; at = text.find('*', at + 1))
        text[at + 1] = text[at + 1] == '0' ? '1' : '0';
    const auto track = readRecording(text, "a");
    ASSERT_FALSE(track);
    EXPECT_NE(track.error().front().what.find("right checksum"), std::string::npos);
}

TEST(Nmea, ACutSentenceIsLeftOutAndSaidSo) {
    std::string text = readTestData("tracks/receiver_fast.nmea");
    const std::size_t last = text.rfind("GGA,");
    ASSERT_NE(last, std::string::npos);
    text.resize(last + 14);  // within its time
    const auto log = readNmea({"a", text});
    ASSERT_TRUE(log);
    ASSERT_EQ(log->warnings.size(), 1u);
    EXPECT_NE(log->warnings[0].what.find("ends early"), std::string::npos);
    EXPECT_GT(log->warnings[0].where.line, 1);
}

TEST(Nmea, WithoutAFixThereIsAReason) {
    const auto log = readNmea({"a", "$GPGGA,,,,,,0,,,,M,,M,,*66\n$GPRMC,,V,,,,,,,,,,N*53\n"});
    ASSERT_FALSE(log);
    EXPECT_NE(log.error().front().what.find("no position"), std::string::npos);
}

TEST(Nmea, EveryPrefixIsReadOrRefused) {
    const std::string text = readTestData("tracks/receiver_midnight.nmea");
    for (std::size_t size = 0; size < text.size(); size += 37) {
        const auto track = readRecording(std::string_view(text).substr(0, size), "cut");
        if (!track) {
            EXPECT_FALSE(track.error().front().what.empty());
        }
    }
}

}  // namespace
}  // namespace plumbline::record

#include "engine/record/gpx.h"

#include <gtest/gtest.h>

#include "engine/record/clock_text.h"
#include "engine/record/read_recording.h"
#include "engine/units/units.h"
#include "tests/engine/record/test_data.h"

namespace plumbline::record {
namespace {

Expected<FixLog, Problems> readLog(const std::string& text) { return readGpx({"log.gpx", text}); }

TEST(Gpx, ReadsPointsOfAllSegmentsAndNameSpaces) {
    const auto log = readLog(
        "<?xml version='1.0'?>\n<g:gpx xmlns:g='http://www.topografix.com/GPX/1/1'>\n<g:trk>"
        "<g:trkseg><g:trkpt lat='47.644548' lon='-122.326897'><g:ele>4.46</g:ele>"
        "<g:time>2009-10-17T18:37:26Z</g:time></g:trkpt></g:trkseg>\n<g:trkseg>"
        "<g:trkpt lat='47.644549' lon='-122.326897'><g:ele>4.94</g:ele>"
        "<g:time>2009-10-17T18:37:31.250Z</g:time></g:trkpt></g:trkseg></g:trk></g:gpx>");
    ASSERT_TRUE(log) << describe(log.error());
    ASSERT_EQ(log->fixes.size(), 2u);
    EXPECT_DOUBLE_EQ(log->fixes[0].place.latitude_rad, 47.644548 * units::kDegree_rad);
    EXPECT_DOUBLE_EQ(log->fixes[0].place.longitude_rad, -122.326897 * units::kDegree_rad);
    EXPECT_DOUBLE_EQ(log->fixes[0].place.elevation_m, 4.46);
    EXPECT_DOUBLE_EQ(log->fixes[1].clock_s - log->fixes[0].clock_s, 5.25);
    EXPECT_EQ(log->fixes[1].line, 4);
}

TEST(Gpx, CountsPointsThatCannotBeUsed) {
    const auto log = readLog(
        "<gpx><trk><trkseg>\n"
        "<trkpt lat='1' lon='2'><ele>3</ele><time>2009-10-17T18:37:26Z</time></trkpt>\n"
        "<trkpt lat='undefined' lon='2'><ele>3</ele><time>2009-10-17T18:37:27Z</time></trkpt>\n"
        "<trkpt lat='91' lon='2'><ele>3</ele><time>2009-10-17T18:37:27Z</time></trkpt>\n"
        "<trkpt lat='1' lon='2'><ele/><time>2009-10-17T18:37:28Z</time></trkpt>\n"
        "<trkpt lat='1' lon='2'><ele>3</ele></trkpt>\n"
        "</trkseg></trk></gpx>");
    ASSERT_TRUE(log) << describe(log.error());
    EXPECT_EQ(log->fixes.size(), 1u);
    ASSERT_EQ(log->warnings.size(), 3u);
    EXPECT_EQ(log->warnings[0].where.line, 3);
    EXPECT_EQ(log->warnings[0].what.substr(0, 2), "2 ");
    EXPECT_EQ(log->warnings[1].where.line, 6);
    EXPECT_EQ(log->warnings[2].where.line, 5);
}

TEST(Gpx, SaysWhereABrokenFileBreaks) {
    const auto log = readLog("<gpx>\n<trk>\n<trkseg><trkpt lat='1' lon=");
    ASSERT_FALSE(log);
    EXPECT_EQ(log.error().front().where.line, 3);
}

TEST(Gpx, ExpandsNoEntities) {
    const auto log = readLog(
        "<?xml version='1.0'?><!DOCTYPE gpx [<!ENTITY a 'aaaaaaaaaa'><!ENTITY b '&a;&a;&a;'>]>"
        "<gpx><trk><name>&b;</name></trk></gpx>");
    ASSERT_FALSE(log);
    EXPECT_NE(log.error().front().what.find("no track"), std::string::npos);
}

TEST(Gpx, ReadsARealTrack) {
    const std::string bytes = readTestData("tracks/foot_run.gpx");
    const Expected<ImportedTrack, Problems> track = readRecording(bytes, "foot_run.gpx");
    ASSERT_TRUE(track) << describe(track.error());
    EXPECT_EQ(track->path.samples.size(), 42u);
    EXPECT_EQ(track->path.duration_s(), 41);
    EXPECT_EQ(track->start_utc, "2015-01-19T21:24:20Z");
    for (const path::Sample& sample : track->path.samples)
        EXPECT_LT(glm::length(sample.velocity_S_mps), 8);  // somebody on foot
}

TEST(Gpx, ACutFileGivesWhatStandsBeforeTheCut) {
    const std::string bytes = readTestData("tracks/foot_run.gpx");
    const auto whole = readLog(bytes), half = readLog(bytes.substr(0, bytes.size() / 2));
    ASSERT_TRUE(whole && half);
    EXPECT_GT(half->fixes.size(), whole->fixes.size() / 4);
    EXPECT_LT(half->fixes.size(), whole->fixes.size());
    ASSERT_FALSE(half->warnings.empty());
    EXPECT_NE(half->warnings.front().what.find("broken here"), std::string::npos);
}

// W3C XML Schema Part 2, 3.2.7: fractions and offsets of dateTime.
TEST(ClockText, ReadsIso8601) {
    EXPECT_EQ(parseUtc("1970-01-02T00:00:01Z"), 86401);
    EXPECT_EQ(parseUtc("2000-02-29 12:00:00"), 951825600);
    EXPECT_NEAR(*parseUtc("2015-12-11T15:43:13.994+01:00"), *parseUtc("2015-12-11T14:43:13.994Z"),
                1e-6);
    EXPECT_EQ(parseUtc("2015-12-11T15:43:13-02:30"), *parseUtc("2015-12-11T18:13:13Z"));
    EXPECT_FALSE(parseUtc("2015-02-30T15:43:13Z"));
    EXPECT_FALSE(parseUtc("2015-02-20T25:43:13Z"));
    EXPECT_FALSE(parseUtc("yesterday"));
    EXPECT_FALSE(parseUtc(""));
    EXPECT_EQ(formatUtc(951825600 + 61), "2000-02-29T12:01:01Z");
}

}  // namespace
}  // namespace plumbline::record

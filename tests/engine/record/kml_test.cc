#include "engine/record/kml.h"

#include <gtest/gtest.h>

#include "engine/record/clock_text.h"
#include "engine/record/read_recording.h"
#include "engine/units/units.h"
#include "tests/engine/record/test_data.h"

namespace plumbline::record {
namespace {

Expected<FixLog, Problems> readLog(const std::string& text) { return readKml({"log.kml", text}); }

std::string track(const std::string& inside) {
    return "<?xml version='1.0'?>\n<kml><Document><Folder><Placemark><gx:Track>\n" + inside +
           "</gx:Track></Placemark></Folder></Document></kml>";
}

// Order and pairing as OGC 12-007r2 gives them: longitude, latitude, height; n-th with n-th.
TEST(Kml, PairsTimesAndPlacesHoweverTheyStand) {
    const std::string first = "<when>2010-05-28T02:02:09Z</when>\n",
                      second = "<when>2010-05-28T02:02:35.5Z</when>\n",
                      here = "<gx:coord>-122.207881 37.371915 156.0</gx:coord>\n",
                      there = "<gx:coord>-122.205712 37.373288 152.0</gx:coord>\n",
                      mode = "<altitudeMode>absolute</altitudeMode>\n";
    for (const std::string& inside :
         {mode + first + second + here + there, first + here + second + there + mode}) {
        const auto log = readLog(track(inside));
        ASSERT_TRUE(log) << describe(log.error());
        ASSERT_EQ(log->fixes.size(), 2u);
        EXPECT_DOUBLE_EQ(log->fixes[0].place.longitude_rad, -122.207881 * units::kDegree_rad);
        EXPECT_DOUBLE_EQ(log->fixes[0].place.latitude_rad, 37.371915 * units::kDegree_rad);
        EXPECT_EQ(log->fixes[1].place.elevation_m, 152);
        EXPECT_EQ(log->fixes[0].clock_s, *parseUtc("2010-05-28T02:02:09Z"));
        EXPECT_EQ(log->fixes[1].clock_s - log->fixes[0].clock_s, 26.5);
        EXPECT_TRUE(log->warnings.empty()) << describe(log->warnings);
    }
}

TEST(Kml, SeveralTracksShareWhatIsSaidOfTheirHeights) {
    const auto log = readLog(
        "<kml><Placemark><MultiTrack><altitudeMode>absolute</altitudeMode><Track>"
        "<when>2010-05-28T02:02:09Z</when><coord>8 50 100</coord></Track><Track>"
        "<when>2010-05-28T02:02:12Z</when><coord>8 50 101</coord></Track></MultiTrack>"
        "</Placemark></kml>");
    ASSERT_TRUE(log) << describe(log.error());
    EXPECT_EQ(log->fixes.size(), 2u);
    EXPECT_TRUE(log->warnings.empty()) << describe(log->warnings);
}

TEST(Kml, SaysWhatIsLeftOutOrTakenForGranted) {
    const auto log =
        readLog(track("<when>2010-05-28T02:02:09Z</when><coord>8 50 100</coord>\n"
                      "<when>2010-05-28T02:02:10Z</when><coord/>\n"
                      "<when>2010-05-28T02:02:11Z</when><coord>8 95 100</coord>\n"
                      "<when>2010-05-28T02:02:12Z</when><coord>8 50 nan</coord>\n"
                      "<when>yesterday</when><coord>8 50 100</coord>\n"
                      "<when>2010-05-28T02:02:14Z</when>\n"));
    ASSERT_TRUE(log) << describe(log.error());
    EXPECT_EQ(log->fixes.size(), 1u);
    ASSERT_EQ(log->warnings.size(), 2u);
    EXPECT_EQ(log->warnings[0].what.substr(0, 2), "5 ");
    EXPECT_EQ(log->warnings[0].where.line, 4);
    EXPECT_NE(log->warnings[1].what.find("absolute"), std::string::npos);
}

TEST(Kml, WhatIsOnlyDrawnIsNoRecording) {
    const std::string line =
        "<kml><Placemark><LineString><coordinates>8,50,100 8,51,100</coordinates></LineString>"
        "</Placemark></kml>";
    const auto read = readRecording(line, "line.kml");
    ASSERT_FALSE(read);
    EXPECT_NE(describe(read.error()).find("no recorded track"), std::string::npos);
    const auto cut = readLog("<kml>\n<gx:Track>\n<when>2010");
    ASSERT_FALSE(cut);
    EXPECT_EQ(cut.error().front().where.line, 3);
}

}  // namespace
}  // namespace plumbline::record

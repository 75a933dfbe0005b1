#include <cmath>

#include <gtest/gtest.h>

#include "engine/record/column_names.h"
#include "engine/record/csv_table.h"
#include "engine/record/read_recording.h"
#include "tests/engine/record/test_data.h"

namespace plumbline::record {
namespace {

ImportedTrack import(const std::string& text) {
    Expected<ImportedTrack, Problems> track = readRecording(text, "log.csv");
    EXPECT_TRUE(track) << describe(track.error());
    return track ? *track : ImportedTrack{};
}

TEST(CsvTable, TakesNamesAndUnitsApart) {
    for (const char* header : {"Altitude (ft)", "altitude_ft", "Altitude [ft]", "ALTITUDE ft"}) {
        EXPECT_EQ(columnName(header).words, "altitude") << header;
        EXPECT_EQ(columnName(header).unit, "ft") << header;
    }
    EXPECT_EQ(columnName("speed (furlongs)").unit, "");
    EXPECT_EQ(lengthOf("ft"), 0.3048);  // exact by the yard and pound agreement of 1959
}

TEST(CsvTable, SplitsQuotedCells) {
    CsvRow row;
    row.split("a, \"b, c\" ,\"say \"\"go\"\"\",", ',');
    ASSERT_EQ(row.size(), 4u);
    EXPECT_EQ(row.cell(0), "a");
    EXPECT_EQ(row.cell(1), "b, c");
    EXPECT_EQ(row.cell(2), "say \"go\"");
    EXPECT_EQ(row.cell(3), "");
    EXPECT_EQ(row.column(1), 4);
    row.split("\xC3\xA4,x", ',');  // a two-byte letter is one column
    EXPECT_EQ(row.column(1), 3);
}

TEST(Csv, ReadsAnyOrderAndUnits) {
    const ImportedTrack track = import(
        "logger made in a shed\n"
        "z (ft),note,y_m,time (ms),x [m]\n"
        "0,a,0,22000,0\n100,b,10,22500,20\n200,c,20,23000,40\n");
    ASSERT_EQ(track.path.samples.size(), 3u);
    EXPECT_DOUBLE_EQ(track.path.samples[2].time_s, 1);
    EXPECT_DOUBLE_EQ(track.path.clock_offset_s, 22);
    const Vec3 velocity = track.path.samples[1].velocity_S_mps;
    EXPECT_NEAR(velocity.x, 40, 1e-9);
    EXPECT_NEAR(velocity.y, 20, 1e-9);
    EXPECT_NEAR(velocity.z, 200 * 0.3048, 1e-9);
    EXPECT_TRUE(track.warnings.empty());
    EXPECT_FALSE(track.origin);
}

TEST(Csv, ReadsSemicolonsWithDecimalCommas) {
    const ImportedTrack track = import("time (s);x (m);y (m);z (m)\n0,5;1,25;0;0\n1,5;2,25;0;0\n");
    ASSERT_EQ(track.path.samples.size(), 2u);
    EXPECT_EQ(track.path.samples[1].position_S_m, Vec3(2.25, 0, 0));
}

TEST(Csv, SaysWhichUnitsItTookForGranted) {
    const ImportedTrack track = import("time,lat,lon,alt\n1,50,8,100\n2,50.0001,8,101\n");
    ASSERT_EQ(track.warnings.size(), 3u);  // degrees, metres, seconds
    EXPECT_EQ(track.warnings[0].where.line, 1);
    EXPECT_NE(track.warnings[0].what.find("\"lat\", \"lon\" have no unit"), std::string::npos);
    // A ten-thousandth of a degree north: 11.1 m (a degree of latitude is 111.2 km at 50 deg,
    // WGS 84).
    EXPECT_NEAR(track.path.samples[1].position_S_m.y, 11.123, 0.002);
    EXPECT_NEAR(track.path.samples[1].position_S_m.z, 1, 1e-4);
}

TEST(Csv, KeepsGoodRowsAndNamesBadOnes) {
    const ImportedTrack track = import(
        "time (s),x (m),y (m),z "
        "(m)\n1,0,0,0\n2,1,zero,0\n2,1,0,0\n2,1,0,0\n1.5,1,0,0\n3,2,0,0\n4,2");
    // the row before its time is put in its place, the doubled one is left out
    EXPECT_EQ(track.path.samples.size(), 4u);
    ASSERT_EQ(track.warnings.size(), 4u);
    EXPECT_EQ(track.warnings[0].where.line, 3);
    EXPECT_EQ(track.warnings[0].where.column, 5);
    EXPECT_EQ(track.warnings[1].where.line, 8);  // cut short
    EXPECT_EQ(track.warnings[2].where.line, 5);
    EXPECT_NE(track.warnings[2].what.find("1 fixes with a repeated time"), std::string::npos);
    EXPECT_EQ(track.warnings[3].where.line, 6);
    EXPECT_NE(track.warnings[3].what.find("out of order"), std::string::npos);
}

TEST(Csv, OneTimeFarAheadDoesNotDropWhatFollows) {
    const ImportedTrack track =
        import("time (s),x (m),y (m),z (m)\n1,0,0,0\n2,1,0,0\n9999,2,0,0\n4,3,0,0\n5,4,0,0\n");
    ASSERT_EQ(track.path.samples.size(), 4u);
    EXPECT_EQ(track.path.duration_s(), 4);
}

TEST(Recording, RefusesWhatItDoesNotKnow) {
    for (const std::string& bytes :
         {std::string(),
          std::string("\0\1\2\3\x7F"
                      "ELF",
                      9),
          std::string("dear diary\n1,2,3\n"), std::string("time (s),x (m),y (m),z (m)\n"),
          std::string("<html></html>"),
          std::string("time (s),x (m),y (m),z (m)\na,b,c,d\n1,2\n1,1,1,1\n")}) {
        const auto track = readRecording(bytes, "junk");
        ASSERT_FALSE(track) << bytes;
        EXPECT_EQ(track.error().front().where.file, "junk");
        EXPECT_FALSE(track.error().front().remedy.empty());
    }
}

TEST(Recording, JoinsLogsOfOneFlight) {
    const std::string late =
        "HFDTE150419\nB1200104945333N01132444EA0012300200\n"
        "B1200114945333N01132444EA0012300200\n";
    const std::string early =
        "<gpx><trk><trkseg>\n"
        "<trkpt lat='49.75' lon='11.54'><ele>200</ele><time>2019-04-15T12:00:08Z</time></trkpt>\n"
        "<trkpt lat='49.75' lon='11.54'><ele>200</ele><time>2019-04-15T12:00:09Z</time></trkpt>\n"
        "</trkseg></trk></gpx>";
    const std::vector<NamedBytes> both = {{"b.igc", late}, {"a.gpx", early}};
    const auto track = readRecordings(both);
    ASSERT_TRUE(track) << describe(track.error());
    ASSERT_EQ(track->path.samples.size(), 4u);
    EXPECT_EQ(track->path.duration_s(), 3);
    const std::string own = "time (s),x (m),y (m),z (m)\n1,0,0,0\n2,1,0,0\n";
    const std::vector<NamedBytes> unlike = {{"b.igc", late}, {"c.csv", own}};
    EXPECT_FALSE(readRecordings(unlike));
}

// A circle of 60 m radius at 50 m/s, 3 g: exact values at every fix (FAA-H-8083-25: load factor of
// a turn is the resultant of gravity and centrifugal force).
TEST(TrackPath, FindsVelocityAndLoadOfACircle) {
    const double radius = 60, speed = 50, rate = speed / radius;
    std::string text = "time (s),x (m),y (m),z (m)\n";
    for (int i = 0; i <= 200; ++i) {
        const double t = 0.1 * i;
        text += std::to_string(t) + "," + std::to_string(radius * std::sin(rate * t)) + "," +
                std::to_string(-radius * std::cos(rate * t)) + ",100\n";
    }
    const ImportedTrack track = import(text);
    ASSERT_TRUE(track.path.known.load);
    const double load = std::hypot(1, speed * speed / radius / kGravity_mps2);
    for (std::size_t i = 5; i + 5 < track.path.samples.size(); ++i) {
        const path::Sample& sample = track.path.samples[i];
        const double t = sample.time_s;
        const Vec3 velocity = speed * Vec3(std::cos(rate * t), std::sin(rate * t), 0);
        EXPECT_LT(glm::length(sample.velocity_S_mps - velocity), 0.1);
        EXPECT_NEAR(-sample.specific_force_B_mps2.z / kGravity_mps2, load, 0.1);
        EXPECT_NEAR(sample.specific_force_B_mps2.x / kGravity_mps2, 0, 0.1);
        // Wings level, nose along the velocity, turning left: negative yaw rate in body axes.
        EXPECT_LT(glm::length(rotate(sample.q_SB, Vec3(1, 0, 0)) - velocity / speed), 2e-3);
        EXPECT_NEAR(rotate(sample.q_SB, Vec3(0, 1, 0)).z, 0, 1e-12);
        EXPECT_NEAR(sample.rate_B_radps.z, -rate, 0.01);
    }
}

TEST(TrackPath, HoldsTheHeadingOnAVertical) {
    const ImportedTrack track = import(
        "time (s),x (m),y (m),z (m)\n0,0,0,0\n1,30,0,0\n2,60,0,0\n3,90,0,0\n4,120,0,0\n"
        "30,120,0,9\n31,120,0,39\n32,120,0,69\n33,120,0,99\n34,120,0,129\n");
    const path::Sample& up = track.path.samples[7];
    EXPECT_LT(glm::length(up.velocity_S_mps - Vec3(0, 0, 30)), 1e-9);  // and no fit over the gap
    EXPECT_LT(glm::length(rotate(up.q_SB, Vec3(1, 0, 0)) - Vec3(0, 0, 1)), 1e-9);
    EXPECT_LT(glm::length(rotate(up.q_SB, Vec3(0, 1, 0)) - Vec3(0, -1, 0)), 1e-9);
}

// The receiver measured the velocity by Doppler shift, independently of the positions used here.
TEST(TrackPath, VelocityAgreesWithTheReceiversOwn) {
    const std::string bytes = readTestData("tracks/unmanned_aircraft.csv");
    const ImportedTrack track = import(bytes);
    LineReader lines(bytes);
    lines.next();
    CsvRow row;
    double sum = 0;
    std::size_t i = 0;
    for (; lines.next(); ++i) {
        row.split(lines.line(), ',');
        const Vec3 measured(*csvNumber(row.cell(6), ','), *csvNumber(row.cell(5), ','),
                            -*csvNumber(row.cell(7), ','));
        const Vec3 error = track.path.samples[i].velocity_S_mps - measured;
        sum += glm::dot(error, error);
    }
    ASSERT_EQ(i, track.path.samples.size());
    // One fix a second cannot follow manoeuvres of a small aircraft at 4 g any closer.
    EXPECT_LT(std::sqrt(sum / static_cast<double>(i)), 1.2);
    EXPECT_NEAR(track.path.clock_offset_s, 195.781, 1e-9);
}

}  // namespace
}  // namespace plumbline::record

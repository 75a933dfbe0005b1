// Tables of many makes: layout, units, clocks, streams of different rates.

#include "engine/record/csv_log.h"

#include <gtest/gtest.h>

namespace plumbline::record {
namespace {

FixLog read(const std::string& text, const ColumnMap* map = nullptr) {
    Expected<FixLog, Problems> log = readCsvLog({"log.csv", text}, map);
    EXPECT_TRUE(log) << describe(log.error());
    return log ? *log : FixLog{};
}

bool says(const Problems& problems, const std::string& words) {
    for (const Problem& problem : problems)
        if (describe(problem).find(words) != std::string::npos) return true;
    return false;
}

TEST(CsvLog, StreamsOfDifferentRatesShareATable) {
    // 5 Hz fixes in 10 Hz rows: once as blanks, once repeated
    for (const char* second : {",,", "50,8,100"}) {
        const FixLog log =
            read(std::string("time (s),gx (deg/s),gy (deg/s),gz (deg/s),ax (g),ay (g),"
                             "az (g),lat (deg),lon (deg),alt (m)\n"
                             "0.0,1,2,3,0,0,-1,50,8,100\n0.1,1,2,3,0,0,-1,") +
                 second + "\n0.2,1,2,180,0,0,-1,50.001,8,101\n");
        EXPECT_EQ(log.fixes.size(), 2u) << second;
        ASSERT_EQ(log.sensors.rate_I_radps.size(), 3u);
        EXPECT_NEAR(log.sensors.rate_I_radps.values[2].z, kPi, 1e-12);
        EXPECT_NEAR(log.sensors.force_I_mps2.values[0].z, -9.80665, 1e-12);
        EXPECT_TRUE(log.warnings.empty()) << describe(log.warnings);
    }
}

TEST(CsvLog, UnitsStandInARowOfTheirOwn) {
    const FixLog log = read("# a note\nTime;X;Y;Z\ns;ft;ft;ft\n0;0;0;10\n1;10;0;10\n");
    ASSERT_EQ(log.fixes.size(), 2u);
    EXPECT_NEAR(log.fixes[1].position_S_m.x, 3.048, 1e-12);
    EXPECT_TRUE(log.warnings.empty()) << describe(log.warnings);
}

TEST(CsvLog, DecimalCommasTabsQuotesAndComments) {
    const FixLog log = read(
        "\xEF\xBB\xBF\"time (s)\"\t\"x (m)\"\ty (m)\tz (m)\tnote\n0,5\t\"1,25\"\t0\t0\t\"a\tb\"\n"
        "# a comment\n\n% another\n1,5\t+2,25\t0\t0\t\n");
    ASSERT_EQ(log.fixes.size(), 2u);
    EXPECT_EQ(log.fixes[0].position_S_m.x, 1.25);
    EXPECT_EQ(log.fixes[1].position_S_m.x, 2.25);
    EXPECT_EQ(log.fixes[1].clock_s, 1.5);
    EXPECT_EQ(log.fixes[1].line, 6);
}

TEST(CsvLog, ClocksOfManyKinds) {
    // 2012-10-10T12:34:56.5Z by the calendar: 15623 days after 1970-01-01
    const double expected = 15623 * 86400.0 + 12 * 3600 + 34 * 60 + 56.5;
    for (const char* row : {"utc,x (m),y (m),z (m)\n2012-10-10T12:34:56.5Z",
                            "utc,x (m),y (m),z (m)\n2012-10-10 12:34:56.5",
                            "timestamp (ms),x (m),y (m),z (m)\n1349872496500",
                            "timestamp,x (m),y (m),z (m)\n1349872496500000"}) {
        const std::string text(row);
        const std::string next = text.substr(text.find('\n') + 1);
        const FixLog log = read(text + ",0,0,0\n" + next + ",0,0,0\n" + next + ",0,0,0\n");
        ASSERT_EQ(log.fixes.size(), 3u) << row;
        EXPECT_EQ(log.clock, Clock::Utc) << row;
        EXPECT_NEAR(log.fixes[0].clock_s, expected, 1e-5) << row;
    }
    const FixLog dated = read(
        "Date,Time,x (m),y (m),z (m)\n10.10.2012,12:34:56.5,0,0,0\n2012-10-10,12:34:57,0,0,0\n");
    ASSERT_EQ(dated.fixes.size(), 2u);
    EXPECT_NEAR(dated.fixes[0].clock_s, expected, 1e-5);
}

TEST(CsvLog, MidnightIsNoStepBack) {
    const FixLog log =
        read("time,x (m),y (m),z (m)\n23:59:59,0,0,0\n00:00:00,1,0,0\n00:00:01,2,0,0\n");
    ASSERT_EQ(log.fixes.size(), 3u);
    EXPECT_EQ(log.clock, Clock::TimeOfDay);
    EXPECT_EQ(log.fixes[2].clock_s - log.fixes[0].clock_s, 2);
}

TEST(CsvLog, NumbersTellTheUnitsThatHeadersDoNot) {
    const FixLog log = read(
        "t,gx,gy,gz,ax,ay,az,pressure\n0,100,0,0,0,0,-1000,1013.25\n0.01,200,0,0,0,0,-1000,1013."
        "25\n"
        "0.02,-300,0,0,0,0,-1000,899\n");
    EXPECT_NEAR(log.sensors.rate_I_radps.values[2].x, -300 * kPi / 180, 1e-12);
    EXPECT_NEAR(log.sensors.force_I_mps2.values[0].z, -9.80665, 1e-12);
    ASSERT_EQ(log.sensors.pressure_height_m.size(), 2u);
    EXPECT_NEAR(log.sensors.pressure_height_m.values[0], 0, 0.1);
    // ICAO Doc 7488: 898.76 hPa at 1000 m
    EXPECT_NEAR(log.sensors.pressure_height_m.values[1], 1000, 5);
    EXPECT_TRUE(says(log.warnings, "look like deg/s"));
    EXPECT_TRUE(says(log.warnings, "look like mg"));
    EXPECT_TRUE(says(log.warnings, "look like hPa"));
}

TEST(CsvLog, AttitudesOfBothForms) {
    // North-east-down, nose east, right wing down 90 deg: the canopy looks south.
    const FixLog angles = read("t (s),roll (deg),pitch (deg),yaw (deg)\n0,90,0,90\n1,90,0,90\n");
    ASSERT_EQ(angles.sensors.q_EB.size(), 2u);
    const Vec3 canopy = rotate(angles.sensors.q_EB.values[0], Vec3(0, 0, -1));
    EXPECT_NEAR(canopy.y, -1, 1e-12);
    const double h = std::sqrt(0.5);
    // yaw 90 then roll 90: (cos45 + k sin45)(cos45 + i sin45)
    const std::string q = std::to_string(h * h);
    const FixLog quats =
        read("t (s),q0,q1,q2,q3\n0," + q + "," + q + "," + q + "," + q + "\n1,1,0,0,0\n");
    const Vec3 same = rotate(quats.sensors.q_EB.values[0], Vec3(0, 0, -1));
    EXPECT_NEAR(same.y, -1, 1e-6);
    const Vec3 nose = rotate(quats.sensors.q_EB.values[1], Vec3(1, 0, 0));
    EXPECT_NEAR(nose.y, 1, 1e-12);  // no turn: nose north
}

TEST(CsvLog, AColumnMapSaysWhatRecognitionCannot) {
    const std::string text = "Zeit|A|B|C|y\n0|1|2|3|9\n1|2|2|3|9\n";
    EXPECT_FALSE(readCsvLog({"log.csv", text}));
    const auto map = readColumnMap(
        "separator = \"|\"\n[columns]\n\"Zeit\" = \"time in ms\"\n\"A\" = \"x in ft\"\n"
        "\"B\" = \"y in m\"\n\"C\" = \"z in m\"\n\"y\" = \"ignore\"\n",
        "map.toml");
    ASSERT_TRUE(map) << describe(map.error());
    const FixLog log = read(text, &*map);
    ASSERT_EQ(log.fixes.size(), 2u);
    EXPECT_NEAR(log.fixes[1].position_S_m.x, 0.6096, 1e-12);
    EXPECT_EQ(log.fixes[1].position_S_m.y, 2);
    EXPECT_NEAR(log.fixes[1].clock_s, 0.001, 1e-12);
}

TEST(CsvLog, WhatIsExplainedReadsBackTheSame) {
    const std::string text =
        "t_us;Gyro X (deg/s);Gyro Y (deg/s);Gyro Z (deg/s);\"odd \"\"name\"\"\"\n1000;1;2;3;4\n"
        "2000;1;2;3;4\n";
    const auto layout = findCsvLayout(text);
    ASSERT_TRUE(layout);
    const std::string map_text = explainLayout(*layout, "log.csv");
    EXPECT_NE(map_text.find("\"t_us\" = \"time in us\""), std::string::npos) << map_text;
    EXPECT_NE(map_text.find("\"odd \\\"name\\\"\" = \"ignore\""), std::string::npos) << map_text;
    const auto map = readColumnMap(map_text, "map.toml");
    ASSERT_TRUE(map) << describe(map.error());
    const FixLog direct = read(text), mapped = read(text, &*map);
    EXPECT_EQ(direct.sensors.rate_I_radps.values, mapped.sensors.rate_I_radps.values);
    EXPECT_EQ(direct.sensors.rate_I_radps.clock_s, mapped.sensors.rate_I_radps.clock_s);
}

TEST(CsvLog, AColumnMapSaysHowTheSensorsSit) {
    const auto map = readColumnMap("mounting = \"x right, z down\"\n", "map.toml");
    ASSERT_TRUE(map) << describe(map.error());
    EXPECT_EQ(map->mounting, "x right, z down");
    const auto layout = findCsvLayout("t_s,gx_radps,gy_radps,gz_radps\n1,2,3,4\n");
    ASSERT_TRUE(layout);
    const auto again = readColumnMap(explainLayout(*layout, "log.csv", map->mounting), "map.toml");
    ASSERT_TRUE(again) << describe(again.error());
    EXPECT_EQ(again->mounting, map->mounting) << "what is explained keeps it";
    const auto plain = readColumnMap(explainLayout(*layout, "log.csv"), "map.toml");
    ASSERT_TRUE(plain) << describe(plain.error());
    EXPECT_EQ(plain->mounting, "") << "only shown as something to write";

    const auto wrong = readColumnMap("mounting = \"upside down\"\nother = 1\n", "map.toml");
    ASSERT_FALSE(wrong);
    ASSERT_EQ(wrong.error().size(), 2u);
    EXPECT_EQ(wrong.error()[0].where.line, 1);
    EXPECT_NE(wrong.error()[0].remedy.find("x forward, z down"), std::string::npos);
}

TEST(CsvLog, MistakesInAColumnMapHaveTheirPlace) {
    const auto map = readColumnMap(
        "[columns]\n\"a\" = \"height of love in m\"\n\"b\" = \"x in kt\"\n\"c\" = 3\n", "map.toml");
    ASSERT_FALSE(map);
    ASSERT_EQ(map.error().size(), 3u);
    EXPECT_EQ(map.error()[0].where.line, 2);
    EXPECT_EQ(map.error()[1].where.line, 3);
    EXPECT_EQ(map.error()[2].where.line, 4);
}

TEST(CsvLog, BadInputIsCountedAndNeverFatalForTheRest) {
    const FixLog log = read(
        "time (s),lat (deg),lon (deg),alt (m)\n1,50,8,100\n2,nan,8,100\n3,1e300,8,100\n4,50,8,inf\n"
        "5,50,8,1e9\n6,0,0,0\nx,50,8,100\n7,5O,8,100\n8,50,8,100\n9,50,8,101\n10,50,8,102\n"
        "11,50,8,103\n12,50,8,104\n13,50,8,104\n14,50,8,104\n15,50,8,104\n16,50");
    EXPECT_EQ(log.fixes.size(), 9u);
    EXPECT_TRUE(says(log.warnings, "log.csv:9:3: 1 cells of column \"lat (deg)\""))
        << describe(log.warnings);
    EXPECT_TRUE(says(log.warnings, "log.csv:8:1: 1 rows without a usable time"));
    EXPECT_TRUE(says(log.warnings, "nowhere on earth"));
    EXPECT_TRUE(says(log.warnings, "rows end early"));
}

}  // namespace
}  // namespace plumbline::record

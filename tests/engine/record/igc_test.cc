#include "engine/record/igc.h"

#include <gtest/gtest.h>

#include "engine/record/read_recording.h"
#include "engine/units/units.h"
#include "tests/engine/record/test_data.h"

namespace plumbline::record {
namespace {

FixLog readLog(const std::string& text) {
    const NamedBytes input{"log.igc", text};
    Expected<FixLog, Problems> log = readIgc(input);
    EXPECT_TRUE(log) << describe(log.error());
    return log ? *log : FixLog{};
}

// The example of the FAI/IGC Technical Specification for GNSS Flight Recorders, 2nd ed. with AL8
// (1 Feb 2023), Appendix A, p. 40, as a reference decoder reads it.
TEST(Igc, ReadsTheExampleOfTheSpecification) {
    const FixLog log = readLog(
        "AXXXABC FLIGHT:1\r\nHFDTE160701\r\nI033638FXA3940SIU4143ENL\r\n"
        "B1602405407121N00249342WA002800042105509950\r\n");
    ASSERT_EQ(log.fixes.size(), 1u);
    const Fix& fix = log.fixes[0];
    EXPECT_NEAR(fix.place.latitude_rad, 54.1186833333333 * units::kDegree_rad,
                1e-12 * units::kDegree_rad);
    EXPECT_NEAR(fix.place.longitude_rad, -2.82236666666667 * units::kDegree_rad,
                1e-12 * units::kDegree_rad);
    EXPECT_EQ(fix.place.elevation_m, 421);
    // 2001-07-16 16:02:40 UTC: 11519 days after 1970-01-01.
    EXPECT_EQ(log.clock, Clock::Utc);
    EXPECT_EQ(fix.clock_s, 11519 * 86400.0 + 16 * 3600 + 2 * 60 + 40);
    EXPECT_EQ(fix.line, 4);
}

TEST(Igc, ReadsMoreDigitsAndFractionsOfASecondFromTheAdditions) {
    const FixLog log = readLog(
        "I033637LAD3839LOD4040TDS\n"
        "B1045334945333N01132444EA013570150150257\n");
    ASSERT_EQ(log.fixes.size(), 1u);
    EXPECT_NEAR(log.fixes[0].place.latitude_rad, (49 + 45.33350 / 60) * units::kDegree_rad, 1e-14);
    EXPECT_NEAR(log.fixes[0].place.longitude_rad, (11 + 32.44425 / 60) * units::kDegree_rad, 1e-14);
    EXPECT_EQ(log.clock, Clock::TimeOfDay);
    EXPECT_NEAR(log.fixes[0].clock_s, 10 * 3600 + 45 * 60 + 33.7, 1e-9);
}

TEST(Igc, TakesThePressureAltitudeWhereThereIsNoOther) {
    const FixLog log = readLog(
        "B1200004945333N01132444EA-001200000\n"
        "B1200014945333N01132444EA0012300000\n");
    ASSERT_EQ(log.fixes.size(), 2u);
    EXPECT_EQ(log.fixes[0].place.elevation_m, -12);
    EXPECT_EQ(log.fixes[1].place.elevation_m, 123);
    ASSERT_EQ(log.warnings.size(), 1u);
    EXPECT_NE(log.warnings[0].what.find("pressure"), std::string::npos);
}

TEST(Igc, SaysWhereThereIsNoAltitudeAtAll) {
    const FixLog log = readLog(
        "B1200004945333N01132444EA0000000000\n"
        "B1200014945333N01132444EA0000000000\n");
    ASSERT_EQ(log.warnings.size(), 1u);
    EXPECT_NE(log.warnings[0].what.find("no altitude at all"), std::string::npos);
    // One that is there makes it heights by pressure that are zero somewhere.
    EXPECT_NE(readLog("B1200004945333N01132444EA0000000000\nB1200014945333N01132444EA0000100000\n")
                  .warnings[0]
                  .what.find("heights are pressure altitudes"),
              std::string::npos);
}

TEST(Igc, RunsThroughMidnight) {
    const FixLog log = readLog(
        "HFDTEDATE:311223,01\n"
        "B2359594945333N01132444EA0012300200\n"
        "B0000004945334N01132444EA0012300201\n");
    ASSERT_EQ(log.fixes.size(), 2u);
    EXPECT_EQ(log.fixes[1].clock_s - log.fixes[0].clock_s, 1);
}

TEST(Igc, KeepsGoodLinesAndNamesTheBadOnes) {
    const FixLog log = readLog(
        "B1200004945333N01132444EA0012300200\n"
        "B1200014945333N0113\n"
        "B1200024965333N01132444EA0012300200\n"
        "B1200034945333N01132444EV0012300000\n"
        "B1200044945333N01132444EA0012300200\n"
        "B12000x4945333N01132444EA0012300200\n");
    EXPECT_EQ(log.fixes.size(), 2u);
    ASSERT_EQ(log.warnings.size(), 2u);
    EXPECT_EQ(log.warnings[0].where.line, 2);
    EXPECT_NE(log.warnings[0].what.find("3 B records cannot be read"), std::string::npos);
    EXPECT_NE(log.warnings[1].what.find("1 fixes without a 3-D position"), std::string::npos);
}

TEST(Igc, ReadsARealFlight) {
    const std::string bytes = readTestData("tracks/paraglider.igc");
    const Expected<ImportedTrack, Problems> track = readRecording(bytes, "paraglider.igc");
    ASSERT_TRUE(track) << describe(track.error());
    // Read off the file's first and last line by eye: 08:31:44 to 08:40:42, 723 m to 163 m GNSS
    // altitude, 0.724/60 deg south of the start at 111.15 km a degree: 1341 m, 0.406/60 deg east at
    // 111.41 km times the cosine of 45.82 deg: 525.5 m (WGS 84 lengths of a degree).
    EXPECT_EQ(track->kind, "IGC");
    EXPECT_EQ(track->path.samples.size(), 533u);
    EXPECT_EQ(track->path.duration_s(), 538);
    EXPECT_EQ(track->start_utc, "2019-04-15T08:31:44Z");
    EXPECT_EQ(track->path.clock_offset_s, 8 * 3600 + 31 * 60 + 44);
    EXPECT_EQ(track->path.samples.front().position_S_m, Vec3(0));
    const Vec3 end = track->path.samples.back().position_S_m;
    EXPECT_NEAR(end.z, -560, 1);
    EXPECT_NEAR(end.x, 525.5, 1);
    EXPECT_NEAR(end.y, -1341, 1);
    EXPECT_FALSE(track->path.known.attitude);
    EXPECT_FALSE(track->path.known.bank);
    EXPECT_FALSE(track->path.known.airspeed);
    EXPECT_FALSE(track->path.known.load);
    for (const path::Sample& sample : track->path.samples)
        EXPECT_LT(glm::length(sample.velocity_S_mps), 20);  // a paraglider's speed and wind
}

}  // namespace
}  // namespace plumbline::record

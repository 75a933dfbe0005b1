#include "engine/data/metar.h"

#include <gtest/gtest.h>

#include "engine/units/units.h"

namespace plumbline::data {
namespace {

constexpr double kKnot = 1852.0 / 3600;

Weather read(const char* metar) {
    auto weather = readMetar(metar, {"METAR", 1, 1});
    EXPECT_TRUE(weather.has_value()) << metar << "\n"
                                     << (weather.has_value() ? "" : describe(weather.error()));
    return weather.has_value() ? *weather : Weather();
}

std::string problemsOf(const char* metar) {
    const auto weather = readMetar(metar, {"METAR", 1, 1});
    return weather.has_value() ? "none" : describe(weather.error());
}

TEST(Metar, ReadsAWholeEuropeanOne) {
    const Weather weather = read(
        "METAR COR ZZZZ 271620Z AUTO 25012G22KT 210V290 9999 -SHRA FEW012 SCT045CB BKN080 M02/M05 "
        "Q0998 NOSIG=");
    ASSERT_EQ(weather.wind.size(), 1u);
    EXPECT_EQ(weather.wind[0].height_m, 10);
    EXPECT_NEAR(weather.wind[0].from_rad, 250 * units::kDegree_rad, 1e-14);
    EXPECT_NEAR(weather.wind[0].speed_mps, 12 * kKnot, 1e-14);
    EXPECT_EQ(weather.visibility_m, 10000);
    EXPECT_NEAR(weather.cloud_base_m, 4500 * 0.3048, 1e-9);
    EXPECT_EQ(weather.cloud_cover_frac, 3.5 / 8);
    EXPECT_NEAR(weather.temperature_k, 271.15, 1e-10);
    EXPECT_EQ(weather.qnh_pa, 99800);
}

TEST(Metar, ReadsAWholeAmericanOne) {
    const Weather weather =
        read("SPECI ZZ12 271653Z 00000KT 1 1/2SM BR VV003 19/18 A2992 RMK AO2 SLP132");
    EXPECT_TRUE(weather.wind.empty());
    EXPECT_NEAR(weather.visibility_m, 1.5 * 1609.344, 1e-9);
    EXPECT_NEAR(weather.cloud_base_m, 300 * 0.3048, 1e-9);
    EXPECT_EQ(weather.cloud_cover_frac, 1);
    EXPECT_NEAR(weather.qnh_pa, 101320.8, 0.5);  // 29.92 inHg of 3386.389 Pa
}

TEST(Metar, ReadsEveryKindOfGroup) {
    EXPECT_NEAR(read("36003MPS CAVOK 05/// Q1020").wind[0].speed_mps, 3, 1e-15);
    EXPECT_TRUE(read("VRB03KT CAVOK 05/02 Q1020").wind.empty());
    EXPECT_NEAR(read("270120KT 3000 R24/0600N +TSRA 05/02 Q0980").wind[0].speed_mps, 120 * kKnot,
                1e-12);
    EXPECT_EQ(read("27012KT 3000 05/02 Q0980").visibility_m, 3000);
    EXPECT_EQ(read("27012KT 4000NDV 05/02 Q0980").visibility_m, 4000);
    EXPECT_EQ(read("27012KT 7000 1200NE 05/02 Q0980").visibility_m, 7000);
    EXPECT_NEAR(read("27012KT P6SM SKC 05/02 A3010").visibility_m, 6 * 1609.344, 1e-9);
    EXPECT_NEAR(read("27012KT M1/4SM FG 05/02 A3010").visibility_m, 0.25 * 1609.344, 1e-9);
    EXPECT_NEAR(read("27012KT 9999 FEW020TCU 05/02 Q0980").cloud_base_m, 2000 * 0.3048, 1e-9);
    EXPECT_EQ(read("27012KT 9999 NSC 05/02 Q0980").cloud_cover_frac, 0);
    EXPECT_EQ(read("27012KT 9999 OVC010/// 05/02 Q0980").cloud_cover_frac, 1);
    EXPECT_EQ(read("27012KT //// // ////// 05/02 Q0980").cloud_cover_frac, 0);
}

TEST(Metar, NamesTheColumnOfWhatIsWrong) {
    EXPECT_EQ(problemsOf("ZZZZ 271620Z 25012KT 9999 19X12 Q1016"),
              "METAR:1:27: \"19X12\" is no METAR group that belongs here: correct it or leave it "
              "out\nMETAR:1:33: the METAR has no temperature: add it, such as 19/12\n");
    EXPECT_EQ(problemsOf("37012KT 9999 19/12 Q1016"),
              "METAR:1:1: 37012KT: a direction goes up to 360: correct it\n");
    EXPECT_EQ(problemsOf("VRB15KT 9999 19/12 Q1016"),
              "METAR:1:1: VRB15KT: variable wind of this strength has no direction to plan with: "
              "give the wind by height in a weather file\n");
    EXPECT_EQ(problemsOf("25012 9999 19/12 Q1016"),
              "METAR:1:1: 25012 has no unit: add KT or MPS\n");
    EXPECT_EQ(problemsOf("25012KT 9999 19/12 Q9016"),
              "METAR:1:20: Q9016: no such pressure at sea level: give Q and hectopascals or A and "
              "hundredths of an inch\n");
    EXPECT_EQ(problemsOf("  "),
              "METAR:1:1: the METAR is empty: write it as the airfield sent it\n");
    EXPECT_EQ(problemsOf("ZZZZ 271620Z NIL"),
              "METAR:1:14: the METAR has no wind: add it, such as 25012KT or 00000KT\n"
              "METAR:1:14: the METAR has no temperature: add it, such as 19/12\n"
              "METAR:1:14: the METAR has no pressure: add it, such as Q1016 or A2992\n");
}

TEST(Metar, JunkIsRefused) {
    for (const char* junk : {"\xff\xfe\x01", "/", "G", "KT", "VRBKT", "1/0SM", "R", "FEW", "VV",
                             "M/M", "///", "=", "QQQQQ", "A299", "25012GKT"})
        EXPECT_NE(problemsOf(junk), "none") << junk;
}

}  // namespace
}  // namespace plumbline::data

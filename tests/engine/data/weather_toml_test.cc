#include "engine/data/weather_toml.h"

#include <gtest/gtest.h>

#include "tests/engine/data/file_text.h"

namespace plumbline::data {
namespace {

std::string problemsOf(const std::string& text) {
    const auto weather = readWeather(text, "w");
    return weather.has_value() ? "none" : describe(weather.error());
}

TEST(WeatherToml, ReadsTheSample) {
    const auto weather = readWeather(sampleText("sample.weather.toml"), "s");
    ASSERT_TRUE(weather.has_value()) << describe(weather.error());
    EXPECT_NEAR(weather->temperature_k, 292.15, 1e-10);
    EXPECT_EQ(weather->qnh_pa, 101600);
    EXPECT_EQ(weather->visibility_m, 12000);
    ASSERT_EQ(weather->wind.size(), 3u);
    EXPECT_EQ(weather->wind[2].height_m, 600);
    EXPECT_NEAR(weather->wind[2].speed_mps, 4.63, 1e-12);
    EXPECT_EQ(weather->cloud_base_m, 1500);
    EXPECT_EQ(weather->cloud_cover_frac, 3.5 / 8);
}

TEST(WeatherToml, TakesAMetarInstead) {
    const auto weather = readWeather("metar = \"ZZZZ 271620Z 25012KT CAVOK 19/12 Q1016\"\n", "w");
    ASSERT_TRUE(weather.has_value()) << describe(weather.error());
    EXPECT_EQ(weather->qnh_pa, 101600);
    EXPECT_EQ(weather->name, "ZZZZ 271620Z 25012KT CAVOK 19/12 Q1016");
}

TEST(WeatherToml, SaysWhereWhatAndHow) {
    EXPECT_EQ(problemsOf("temperature = \"19 degC\"\n"),
              "w:1:1: qnh is missing in the file: add it\n");
    EXPECT_EQ(
        problemsOf("temperature = \"19\"\nqnh = \"1016 hPa\"\n"),
        "w:1:18: temperature: 19 has no unit: write a temperature in degC, degF or K, such as "
        "19 degC\n");
    EXPECT_EQ(
        problemsOf("temperature = \"19 degC\"\nqnh = \"1016 hPa\"\n"
                   "[[wind]]\nheight = \"300 m\"\nfrom = \"250 deg\"\nspeed = \"9 kt\"\n"
                   "[[wind]]\nheight = \"10 m\"\nfrom = \"250 deg\"\nspeed = \"5 kt\"\n"),
        "w:8:1: height is not above that of the [[wind]] before: order the layers from low to "
        "high\n");
    EXPECT_EQ(problemsOf("temperature = \"19 degC\"\nqnh = \"1016 hPa\"\n"
                         "[cloud]\nbase = \"900 m\"\ncover = \"scatered\"\n"),
              "w:5:9: cover: \"scatered\" is not known: did you mean scattered?\n");
    // The group that is wrong starts in column 23 of the line.
    EXPECT_EQ(
        problemsOf("metar = \"ZZZZ 271620Z 25O12KT CAVOK 19/12 Q1016\"\n"),
        "w:1:23: \"25O12KT\" is no METAR group that belongs here: correct it or leave it out\n"
        "w:1:43: the METAR has no wind: add it, such as 25012KT or 00000KT\n");
    EXPECT_EQ(problemsOf("qnh = \"1016 hPa\"\nmetar = \"25012KT 19/12 Q1016\"\n"),
              "w:1:1: qnh stands beside metar: keep one of the two\n");
    EXPECT_EQ(problemsOf("metar = 3\n"),
              "w:1:9: metar is a number, not a text: write it in quotes\n");
    EXPECT_EQ(problemsOf(""), "w:1:1: the file is empty: fill it or name another\n");
}

}  // namespace
}  // namespace plumbline::data

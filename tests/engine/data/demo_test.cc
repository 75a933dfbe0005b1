#include <gtest/gtest.h>

#include "engine/data/aircraft_toml.h"
#include "engine/data/site_toml.h"
#include "engine/data/weather_toml.h"
#include "tests/engine/data/file_text.h"

namespace plumbline::data {
namespace {

TEST(Demo, FilesReadWithoutProblems) {
    const auto aircraft = readAircraft(demoText("marrel.aircraft.toml"), "aircraft");
    EXPECT_TRUE(aircraft.has_value()) << describe(aircraft.error());
    const auto site = readSite(demoText("vellmoor.site.toml"), "site");
    EXPECT_TRUE(site.has_value()) << describe(site.error());
    const auto weather = readWeather(demoText("vellmoor.weather.toml"), "weather");
    EXPECT_TRUE(weather.has_value()) << describe(weather.error());
}

}  // namespace
}  // namespace plumbline::data

#include "engine/data/weather_toml.h"

#include <utility>

#include <fmt/format.h>

#include "engine/data/metar.h"
#include "engine/data/table_reader.h"

namespace plumbline::data {
namespace {

using units::Dimension;

void readWind(TableReader& root, Weather& weather) {
    for (TableReader& table : root.tables("wind")) {
        WindLayer layer;
        layer.height_m = table.quantity("height", Dimension::Length, {"0 m", "5000 m"});
        layer.from_rad = table.quantity("from", Dimension::Angle, {"0 deg", "360 deg"});
        layer.speed_mps = table.quantity("speed", Dimension::Speed, {"0 kt", "100 kt"});
        if (!weather.wind.empty() && table.has("height") &&
            !(layer.height_m > weather.wind.back().height_m))
            table.problemAtKey("height", "height is not above that of the [[wind]] before",
                               "order the layers from low to high");
        table.finish();
        weather.wind.push_back(layer);
    }
}

void readCloud(TableReader& table, Weather& weather) {
    weather.cloud_base_m = table.quantity("base", Dimension::Length, {"1 m", "10000 m"});
    if (!table.has("cover"))
        table.text("cover");  // notes that it is missing
    else
        weather.cloud_cover_frac = coverOf(static_cast<CloudCover>(
            table.choice("cover", {"few", "scattered", "broken", "overcast"}, 0)));
    table.finish();
}

/// A METAR stands alone: anything beside it could only contradict it.
void readFromMetar(TableReader& root, const TomlValue& value, Weather& weather) {
    for (const char* key : {"temperature", "qnh", "visibility", "wind", "cloud"}) {
        root.find(key);
        if (root.has(key))
            root.problemAtKey(key, fmt::format("{} stands beside metar", key),
                              "keep one of the two");
    }
    if (value.kind != TomlValue::Kind::Text) {
        root.problemAt(value, fmt::format("metar is {}, not a text", kindName(value.kind)),
                       "write it in quotes");
        return;
    }
    const std::int32_t column = value.text_column > 0 ? value.text_column : value.column;
    auto read = readMetar(value.text, {root.file(), value.line, column});
    if (read) {
        const std::string name = std::move(weather.name);
        weather = std::move(read).value();
        if (!name.empty()) weather.name = name;
        return;
    }
    for (const Problem& problem : read.error()) root.problems().push_back(problem);
}

}  // namespace

Expected<Weather, Problems> readWeather(std::string_view toml_text, const std::string& file) {
    const auto tree = parseToml(toml_text, file);
    if (!tree) return Unexpected(tree.error());
    Problems problems;
    Weather weather;
    TableReader root(*tree, "", file, problems);
    weather.name = root.text("name", false);
    if (const TomlValue* const metar = root.find("metar")) {
        readFromMetar(root, *metar, weather);
    } else {
        weather.temperature_k =
            root.quantity("temperature", Dimension::Temperature, {"-60 degC", "60 degC"});
        weather.qnh_pa = root.quantity("qnh", Dimension::Pressure, {"850 hPa", "1100 hPa"});
        weather.visibility_m = root.quantity("visibility", Dimension::Length, {"0.1 km", "100 km"},
                                             weather.visibility_m);
        readWind(root, weather);
        if (auto table = root.table("cloud", false)) readCloud(*table, weather);
    }
    root.finish();
    if (!problems.empty()) return Unexpected(std::move(problems));
    return weather;
}

}  // namespace plumbline::data

#include "engine/data/spread.h"
#include "engine/data/table_reader.h"

namespace plumbline::data {

Spread readSpread(TableReader& table) {
    using units::Dimension;
    Spread s;
    const auto read = [&table](const char* key, Dimension dimension, QuantityRange range,
                               double& value) {
        value = table.quantity(key, dimension, range, value);
    };
    read("entry_speed", Dimension::Speed, {"0 kt", "40 kt"}, s.entry_speed_mps);
    read("load", Dimension::Load, {"0 g", "3 g"}, s.load_g);
    read("timing", Dimension::Time, {"0 s", "3 s"}, s.timing_s);
    read("heading", Dimension::Angle, {"0 deg", "30 deg"}, s.heading_rad);
    read("along", Dimension::Length, {"0 m", "200 m"}, s.along_m);
    read("across", Dimension::Length, {"0 m", "200 m"}, s.across_m);
    read("height", Dimension::Length, {"0 m", "100 m"}, s.height_m);
    read("wind", Dimension::Speed, {"0 kt", "30 kt"}, s.wind_mps);
    read("temperature", Dimension::TemperatureStep, {"0 K", "20 K"}, s.temperature_k);
    read("mass", Dimension::Mass, {"0 kg", "100 kg"}, s.mass_kg);
    read("power", Dimension::Ratio, {"0 %", "20 %"}, s.power_frac);
    read("roll_rate", Dimension::Ratio, {"0 %", "30 %"}, s.roll_rate_frac);
    read("reaction", Dimension::Time, {"0 s", "2 s"}, s.reaction_s);
    read("left", Dimension::Ratio, {"0 %", "100 %"}, s.left_frac);
    table.finish();
    return s;
}

}  // namespace plumbline::data

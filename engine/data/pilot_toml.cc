#include "engine/data/pilot_toml.h"

#include <utility>

#include "engine/data/table_reader.h"

namespace plumbline::data {

Expected<Pilot, Problems> readPilot(std::string_view toml_text, const std::string& file) {
    using units::Dimension;
    const auto tree = parseToml(toml_text, file);
    if (!tree) return Unexpected(tree.error());
    Problems problems;
    Pilot pilot;
    TableReader root(*tree, "", file, problems);
    const auto optional = [&root](const char* key, Dimension dimension, QuantityRange range,
                                  double& value) {
        value = root.quantity(key, dimension, range, value);
    };
    pilot.name = root.text("name");
    pilot.note = root.text("note", false);
    optional("lowest", Dimension::Length, {"0 m", "3000 m"}, pilot.lowest_m);
    optional("load_max", Dimension::Load, {"1 g", "15 g"}, pilot.load_max_g);
    optional("load_min", Dimension::Load, {"-12 g", "0 g"}, pilot.load_min_g);
    optional("onset", Dimension::LoadRate, {"0.5 g/s", "100 g/s"}, pilot.onset_gps);
    optional("sustained_load", Dimension::Load, {"1.5 g", "12 g"}, pilot.sustained_g);
    optional("sustained_time", Dimension::Time, {"0.5 s", "120 s"}, pilot.sustained_s);
    optional("after_negative", Dimension::Load, {"1 g", "15 g"}, pilot.after_negative_g);
    optional("without_rest", Dimension::Time, {"10 s", "1800 s"}, pilot.without_rest_s);
    optional("wind", Dimension::Speed, {"0 kt", "100 kt"}, pilot.wind_mps);
    optional("crosswind", Dimension::Speed, {"0 kt", "60 kt"}, pilot.crosswind_mps);
    optional("gate_load", Dimension::Load, {"2 g", "12 g"}, pilot.gate_load_g);
    optional("engine_failure", Dimension::Time, {"0 s", "20 s"}, pilot.engine_failure_s);
    for (const auto& [one, other] : {std::pair("sustained_load", "sustained_time"),
                                     std::pair("sustained_time", "sustained_load")})
        if (root.has(one) && !root.has(other))
            root.problemAtKey(one, std::string(one) + " without " + other,
                              std::string("write ") + other + " too");
    if (auto table = root.table("spread", false)) pilot.spread = readSpread(*table);
    root.finish();
    if (!problems.empty()) return Unexpected(std::move(problems));
    return pilot;
}

}  // namespace plumbline::data

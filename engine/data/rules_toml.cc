#include "engine/data/rules_toml.h"

#include <utility>

#include "engine/data/table_reader.h"

namespace plumbline::data {
namespace {

using units::Dimension;

constexpr QuantityRange kDistances{"1 m", "5000 m"};
constexpr QuantityRange kSpeeds{"0 kt", "700 kt"};

RuleBasis readBasis(TableReader& table) {
    RuleBasis basis;
    basis.source = table.text("source");
    basis.verified = table.choice("verified", {"no", "yes"}, 0) == 1;
    return basis;
}

Flight readFlight(TableReader& table) {
    return static_cast<Flight>(table.choice("flight", {"any", "aerobatic", "fly-past"}, 0));
}

DistanceRule readDistance(TableReader& table) {
    DistanceRule rule;
    rule.flight = readFlight(table);
    rule.from_mps = table.quantity("speed_from", Dimension::Speed, kSpeeds, 0);
    rule.to_mps = table.quantity("speed_to", Dimension::Speed, kSpeeds, 0);
    if (table.has("speed_to") && !(rule.to_mps > rule.from_mps))
        table.problemAtKey("speed_to", "speed_to is not above speed_from", "swap or correct them");
    rule.distance_m = table.quantity("least", Dimension::Length, kDistances);
    rule.basis = readBasis(table);
    table.finish();
    return rule;
}

CategoryRule readCategory(TableReader& table) {
    CategoryRule rule;
    rule.name = table.text("name");
    rule.distance_m = table.quantity("least", Dimension::Length, kDistances);
    rule.to_mps = table.quantity("speed_to", Dimension::Speed, kSpeeds, 0);
    rule.basis = readBasis(table);
    table.finish();
    return rule;
}

HeightRule readHeight(TableReader& table) {
    HeightRule rule;
    rule.flight = readFlight(table);
    rule.height_m = table.quantity("least", Dimension::Length, {"0 m", "3000 m"});
    rule.basis = readBasis(table);
    table.finish();
    return rule;
}

ZoneRule readZone(TableReader& table) {
    ZoneRule rule;
    rule.width_m = table.quantity("width", Dimension::Length, {"100 m", "20000 m"});
    rule.depth_m = table.quantity("depth", Dimension::Length, {"100 m", "20000 m"});
    rule.bottom_m = table.quantity("bottom", Dimension::Length, {"0 m", "3000 m"}, 0);
    rule.top_m = table.quantity("top", Dimension::Length, {"50 m", "10000 m"}, 0);
    if (table.has("top") && !(rule.top_m > rule.bottom_m))
        table.problemAtKey("top", "top is not above bottom", "swap or correct them");
    rule.basis = readBasis(table);
    table.finish();
    return rule;
}

}  // namespace

Expected<RuleSet, Problems> readRules(std::string_view toml_text, const std::string& file) {
    const auto tree = parseToml(toml_text, file);
    if (!tree) return Unexpected(tree.error());
    Problems problems;
    RuleSet rules;
    TableReader root(*tree, "", file, problems);
    rules.name = root.text("name");
    rules.edition = root.text("edition");
    rules.remark = root.text("remark");
    if (auto table = root.table("aerobatic", false)) {
        rules.aerobatic_pitch_rad =
            table->quantity("pitch", Dimension::Angle, {"10 deg", "90 deg"});
        rules.aerobatic_bank_rad = table->quantity("bank", Dimension::Angle, {"30 deg", "180 deg"});
        table->finish();
    }
    for (TableReader& table : root.tables("distance"))
        rules.distances.push_back(readDistance(table));
    for (TableReader& table : root.tables("category"))
        rules.categories.push_back(readCategory(table));
    for (TableReader& table : root.tables("height")) rules.heights.push_back(readHeight(table));
    for (TableReader& table : root.tables("zone")) rules.zones.push_back(readZone(table));
    root.finish();
    if (problems.empty() && rules.distances.empty() && rules.categories.empty() &&
        rules.heights.empty() && rules.zones.empty())
        problems.push_back(
            {{file, 0, 0},
             "there is no rule in it",
             "give it at least one [[distance]], [[category]], [[height]] or [[zone]]"});
    if (!problems.empty()) return Unexpected(std::move(problems));
    return rules;
}

}  // namespace plumbline::data

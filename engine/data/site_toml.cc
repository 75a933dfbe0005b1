#include "engine/data/site_toml.h"

#include <utility>

#include <fmt/format.h>

#include "engine/base/number_text.h"
#include "engine/data/table_reader.h"
#include "engine/earth/local_projection.h"

namespace plumbline::data {
namespace {

using units::Dimension;

constexpr QuantityRange kFarOff{"-20000 m", "20000 m"};

void checkOrder(TableReader& table, const char* low, const char* high, double low_m,
                double high_m) {
    if (table.has(low) && table.has(high) && !(low_m < high_m))
        table.problemAtKey(high, fmt::format("{} is not above {}", high, low),
                           "swap or correct them");
}

void readShowCentre(TableReader& table, GeoPoint& centre) {
    centre.latitude_rad = table.quantity("latitude", Dimension::Angle, {"-90 deg", "90 deg"});
    centre.longitude_rad = table.quantity("longitude", Dimension::Angle, {"-180 deg", "180 deg"});
    centre.elevation_m = table.quantity("elevation", Dimension::Length, {"-450 m", "5000 m"});
    table.finish();
}

void readShowLine(TableReader& table, Site& site) {
    site.show_line_bearing_rad = table.quantity("bearing", Dimension::Angle, {"0 deg", "360 deg"});
    site.show_line_offset_m = table.quantity("offset", Dimension::Length, {"0 m", "2000 m"});
    table.finish();
}

void readCrowdLine(TableReader& table, Site& site) {
    site.crowd_line_y_m = table.quantity("y", Dimension::Length, {"-3000 m", "-1 m"});
    site.crowd_x_min_m = table.quantity("x_min", Dimension::Length, {"-5000 m", "5000 m"});
    site.crowd_x_max_m = table.quantity("x_max", Dimension::Length, {"-5000 m", "5000 m"});
    site.reaction_s = table.quantity("reaction", Dimension::Time, {"0 s", "10 s"}, site.reaction_s);
    checkOrder(table, "x_min", "x_max", site.crowd_x_min_m, site.crowd_x_max_m);
    table.finish();
}

Box readBox(TableReader& table) {
    Box box;
    box.x_min_m = table.quantity("x_min", Dimension::Length, kFarOff);
    box.x_max_m = table.quantity("x_max", Dimension::Length, kFarOff);
    box.y_min_m = table.quantity("y_min", Dimension::Length, kFarOff);
    box.y_max_m = table.quantity("y_max", Dimension::Length, kFarOff);
    box.top_m = table.quantity("top", Dimension::Length, {"1 m", "10000 m"});
    checkOrder(table, "x_min", "x_max", box.x_min_m, box.x_max_m);
    checkOrder(table, "y_min", "y_max", box.y_min_m, box.y_max_m);
    table.finish();
    return box;
}

Runway readRunway(TableReader& table, double show_line_bearing_rad) {
    Runway runway;
    runway.centre_S_m.x = table.quantity("x", Dimension::Length, {"-10000 m", "10000 m"}, 0.0);
    runway.centre_S_m.y = table.quantity("y", Dimension::Length, {"-10000 m", "10000 m"}, 0.0);
    runway.bearing_rad =
        table.quantity("bearing", Dimension::Angle, {"0 deg", "360 deg"}, show_line_bearing_rad);
    runway.length_m = table.quantity("length", Dimension::Length, {"50 m", "6000 m"});
    runway.width_m = table.quantity("width", Dimension::Length, {"3 m", "200 m"});
    runway.low_mark = table.text("low_mark", false);
    runway.high_mark = table.text("high_mark", false);
    table.finish();
    return runway;
}

std::vector<Vec3> readOutline(TableReader& table) {
    std::vector<Vec3> outline;
    const TomlValue* const value = table.find("outline");
    if (value == nullptr) {
        table.text("outline");  // notes that it is missing
        return outline;
    }
    if (value->kind != TomlValue::Kind::Array || value->items.size() < 3) {
        table.problemAt(*value, "outline has fewer than three corners",
                        R"(write [["-40 m", "300 m"], ...], x and y of each corner)");
        return outline;
    }
    for (const TomlValue& corner : value->items) {
        if (corner.kind != TomlValue::Kind::Array || corner.items.size() != 2) {
            table.problemAt(corner, "a corner of the outline is no pair",
                            R"(write ["-40 m", "300 m"], its x and y)");
            continue;
        }
        const double x = table.quantityOf(corner.items[0], "x", Dimension::Length, kFarOff);
        const double y = table.quantityOf(corner.items[1], "y", Dimension::Length, kFarOff);
        outline.push_back(Vec3(x, y, 0));
    }
    return outline;
}

/// A place as x and y, or as latitude and longitude.
Vec3 readPlace(TableReader& table, const char* key, const earth::LocalProjection& projection) {
    const TomlValue* const value = table.find(key);
    constexpr const char* kForm =
        R"(write ["-900 m", "700 m"], its x and y, or ["52.05 deg", "9.04 deg"], latitude and longitude)";
    if (value == nullptr) {
        table.text(key);  // notes that it is missing
        return Vec3(0);
    }
    if (value->kind != TomlValue::Kind::Array || value->items.size() != 2) {
        table.problemAt(*value, std::string(key) + " is no pair", kForm);
        return Vec3(0);
    }
    const TomlValue& first = value->items[0];
    if (first.kind == TomlValue::Kind::Text && first.text.find("deg") != std::string::npos) {
        GeoPoint place;
        place.latitude_rad =
            table.quantityOf(first, "latitude", Dimension::Angle, {"-90 deg", "90 deg"});
        place.longitude_rad = table.quantityOf(value->items[1], "longitude", Dimension::Angle,
                                               {"-180 deg", "180 deg"});
        Vec3 place_S_m = projection.toSite(place);
        place_S_m.z = 0;
        return place_S_m;
    }
    const double x = table.quantityOf(first, "x", Dimension::Length, kFarOff);
    const double y = table.quantityOf(value->items[1], "y", Dimension::Length, kFarOff);
    return {x, y, 0};
}

AerialPicture readAerial(TableReader& table, const Site& site) {
    AerialPicture aerial;
    aerial.file = table.text("picture");
    const earth::LocalProjection projection(site.show_centre, site.show_line_bearing_rad);
    aerial.top_left_S_m = readPlace(table, "top_left", projection);
    aerial.top_right_S_m = readPlace(table, "top_right", projection);
    aerial.bottom_left_S_m = readPlace(table, "bottom_left", projection);
    const Vec3 area = glm::cross(aerial.top_right_S_m - aerial.top_left_S_m,
                                 aerial.bottom_left_S_m - aerial.top_left_S_m);
    if (table.has("top_left") && table.has("top_right") && table.has("bottom_left") &&
        area.z > -1) {
        table.problemAtKey("top_left", "the picture's corners lie in a line or mirrored",
                           "seen from above, top_right is right of top_left when bottom_left is "
                           "below it");
    }
    table.finish();
    return aerial;
}

Obstacle readObstacle(TableReader& table) {
    Obstacle obstacle;
    obstacle.name = table.text("name");
    obstacle.top_m = table.quantity("top", Dimension::Length, {"0 m", "1000 m"});
    obstacle.outline_S_m = readOutline(table);
    table.finish();
    return obstacle;
}

FloorArea readFloorArea(TableReader& table) {
    FloorArea area;
    area.name = table.text("name");
    area.floor_m = table.quantity("floor", Dimension::Length, {"0 m", "3000 m"});
    area.outline_S_m = readOutline(table);
    table.finish();
    return area;
}

LandingStrip readStrip(TableReader& table, double show_line_bearing_rad) {
    LandingStrip strip;
    strip.name = table.text("name");
    strip.centre_S_m.x = table.quantity("x", Dimension::Length, kFarOff);
    strip.centre_S_m.y = table.quantity("y", Dimension::Length, kFarOff);
    strip.bearing_rad =
        table.quantity("bearing", Dimension::Angle, {"0 deg", "360 deg"}, show_line_bearing_rad);
    strip.length_m = table.quantity("length", Dimension::Length, {"50 m", "6000 m"});
    table.finish();
    return strip;
}

std::vector<RuleName> readRuleNames(TableReader& root) {
    std::vector<RuleName> names;
    const TomlValue* const value = root.find("rules");
    if (value == nullptr) return names;
    constexpr const char* kForm = R"(write rules = ["NAME.rules.toml", ...])";
    if (value->kind != TomlValue::Kind::Array) {
        root.problemAt(*value, "rules is no list", kForm);
        return names;
    }
    for (const TomlValue& item : value->items) {
        if (item.kind == TomlValue::Kind::Text)
            names.push_back({item.text, {root.file(), item.line, item.column}});
        else
            root.problemAt(item, "this is no name of a rule file", kForm);
    }
    return names;
}

Ribbon readRibbon(TableReader& table) {
    Ribbon ribbon;
    ribbon.name = table.text("name");
    ribbon.x_m = table.quantity("x", Dimension::Length, kFarOff);
    ribbon.y_m = table.quantity("y", Dimension::Length, kFarOff);
    ribbon.height_m = table.quantity("height", Dimension::Length, {"0.5 m", "100 m"});
    ribbon.length_m = table.quantity("length", Dimension::Length, {"2 m", "100 m"});
    table.finish();
    return ribbon;
}

Viewpoint readViewpoint(TableReader& table) {
    Viewpoint viewpoint;
    viewpoint.name = table.text("name");
    viewpoint.eye_S_m.x = table.quantity("x", Dimension::Length, kFarOff);
    viewpoint.eye_S_m.y = table.quantity("y", Dimension::Length, kFarOff);
    constexpr double kStandingEye_m = 1.7;  // chosen: eye height of a standing grown-up
    viewpoint.eye_S_m.z =
        table.quantity("height", Dimension::Length, {"0 m", "500 m"}, kStandingEye_m);
    table.finish();
    return viewpoint;
}

/// What has to fit on a line of a printed sheet.
std::string readBriefWords(TableReader& table, std::string_view key) {
    constexpr std::size_t kMost = 60;
    std::string words = table.text(key, false);
    std::size_t letters = 0;
    for (const char byte : words) letters += (static_cast<unsigned char>(byte) & 0xC0U) != 0x80U;
    if (letters > kMost)
        table.problemAtKey(key, fmt::format("{} has {} letters", key, letters),
                           fmt::format("say it in at most {}", kMost));
    return words;
}

/// Aeronautical mobile bands: very high frequency, and the ultra-high one that air forces use.
/// @source ITU Radio Regulations, article 5: 117.975 to 137 MHz; 225 to 400 MHz common practice
std::string readFrequency(TableReader& table, std::string_view key) {
    std::string words = table.text(key, false);
    if (words.empty()) return words;
    constexpr std::string_view kUnit = " MHz";
    const bool unit = words.size() > kUnit.size() && words.ends_with(kUnit);
    const auto number =
        unit ? parseDouble(std::string_view(words).substr(0, words.size() - kUnit.size()))
             : std::nullopt;
    if (!number || !((*number >= 117.975 && *number <= 137) || (*number >= 225 && *number <= 400)))
        table.problemAtKey(key, fmt::format("{} = \"{}\" is no frequency of aviation", key, words),
                           "write it like \"119.005 MHz\", from 117.975 to 137 or 225 to 400");
    return words;
}

Radio readRadio(TableReader& table) {
    Radio radio;
    radio.frequency = readFrequency(table, "frequency");
    radio.spare_frequency = readFrequency(table, "spare_frequency");
    radio.first_call = readBriefWords(table, "first_call");
    radio.stop_call = readBriefWords(table, "stop_call");
    radio.last_call = readBriefWords(table, "last_call");
    table.finish();
    return radio;
}

Emergency readEmergency(TableReader& table) {
    Emergency emergency;
    emergency.break_off = readBriefWords(table, "break_off");
    emergency.fire_rescue = readBriefWords(table, "fire_rescue");
    emergency.other_field = readBriefWords(table, "other_field");
    emergency.crowd = readBriefWords(table, "crowd");
    table.finish();
    return emergency;
}

}  // namespace

Expected<Site, Problems> readSite(std::string_view toml_text, const std::string& file) {
    const auto tree = parseToml(toml_text, file);
    if (!tree) return Unexpected(tree.error());
    Problems problems;
    Site site;
    TableReader root(*tree, "", file, problems);
    site.name = root.text("name");
    site.note = root.text("note", false);
    site.outlines_file = root.text("outlines", false);
    site.floor_m = root.quantity("floor", Dimension::Length, {"0 m", "3000 m"});
    site.obstacle_clearance_m = root.quantity("obstacle_clearance", Dimension::Length,
                                              {"0 m", "500 m"}, site.obstacle_clearance_m);
    site.rules = readRuleNames(root);
    site.show_time_utc = root.dateTime("show_time");
    if (auto table = root.table("show_centre", true)) readShowCentre(*table, site.show_centre);
    if (auto table = root.table("show_line", true)) readShowLine(*table, site);
    if (auto table = root.table("crowd_line", true)) readCrowdLine(*table, site);
    if (auto table = root.table("box", false)) site.box = readBox(*table);
    if (auto table = root.table("runway", false))
        site.runway = readRunway(*table, site.show_line_bearing_rad);
    if (auto table = root.table("aerial", false)) site.aerial = readAerial(*table, site);
    for (TableReader& table : root.tables("obstacle"))
        site.obstacles.push_back(readObstacle(table));
    for (TableReader& table : root.tables("floor_area"))
        site.floor_areas.push_back(readFloorArea(table));
    for (TableReader& table : root.tables("strip"))
        site.strips.push_back(readStrip(table, site.show_line_bearing_rad));
    for (TableReader& table : root.tables("ribbon")) site.ribbons.push_back(readRibbon(table));
    if (auto table = root.table("radio", false)) site.radio = readRadio(*table);
    if (auto table = root.table("emergency", false)) site.emergency = readEmergency(*table);
    for (TableReader& table : root.tables("viewpoint"))
        site.viewpoints.push_back(readViewpoint(table));
    root.finish();
    if (!problems.empty()) return Unexpected(std::move(problems));
    return site;
}

}  // namespace plumbline::data

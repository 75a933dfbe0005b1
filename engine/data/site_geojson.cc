#include "engine/data/site_geojson.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include "engine/base/nearest_word.h"
#include "engine/base/nesting.h"
#include "engine/earth/local_projection.h"
#include "engine/units/quantity.h"
#include "engine/units/units.h"

namespace plumbline::data {
namespace {

using Json = nlohmann::json;

constexpr std::size_t kLargest_bytes = std::size_t{64} << 20;  // chosen: a whole county's outlines
constexpr double kFarthest_m = 20000;  // chosen: a site that reaches farther is a slip

/// Line and column of a byte.
TextPosition positionOf(std::string_view text, std::size_t byte, const std::string& file) {
    TextPosition at{file, 1, 1};
    for (const char c : text.substr(0, byte)) {
        if (c == '\n') {
            ++at.line;
            at.column = 1;
        } else if ((static_cast<unsigned char>(c) & 0xC0) != 0x80) {
            ++at.column;
        }
    }
    return at;
}

/// Null where there is no such member.
const Json* member(const Json& object, const char* key) {
    if (!object.is_object()) return nullptr;
    const auto found = object.find(key);
    return found == object.end() ? nullptr : &*found;
}

std::string textOf(const Json* value) {
    return value != nullptr && value->is_string() ? value->get<std::string>() : std::string();
}

class OutlineReader {
public:
    OutlineReader(const std::string& file, const Site& site)
        : file_(file), site_(site), projection_(site.show_centre, site.show_line_bearing_rad) {}

    void readFeature(std::size_t number, const Json& feature);
    void problem(std::string what, std::string remedy);

    Site& site() { return site_; }
    Problems& problems() { return problems_; }

private:
    void readObstacle(const Json& properties, const Json* geometry);
    void readBox(const Json& properties, const Json* geometry);
    void readCrowd(const Json* geometry);
    std::vector<Vec3> points(const Json* geometry, bool line_allowed);
    double top(const Json& properties);

    const std::string& file_;
    Site site_;
    earth::LocalProjection projection_;
    std::string feature_;  ///< the one at hand, for problems
    Problems problems_;
};

void OutlineReader::problem(std::string what, std::string remedy) {
    Problem problem;
    problem.where.file = file_;
    problem.what = feature_.empty() ? std::move(what) : fmt::format("{}: {}", feature_, what);
    problem.remedy = std::move(remedy);
    problems_.push_back(std::move(problem));
}

void OutlineReader::readFeature(std::size_t number, const Json& feature) {
    const Json* const properties = member(feature, "properties");
    const std::string name =
        properties == nullptr ? std::string() : textOf(member(*properties, "name"));
    feature_ = name.empty() ? fmt::format("feature {}", number)
                            : fmt::format("feature {} ({})", number, name);
    const std::string kind =
        properties == nullptr ? std::string() : textOf(member(*properties, "kind"));
    if (kind.empty()) return;
    const Json* const geometry = member(feature, "geometry");
    if (kind == "obstacle") return readObstacle(*properties, geometry);
    if (kind == "box") return readBox(*properties, geometry);
    if (kind == "crowd") return readCrowd(geometry);
    const std::string_view near = nearestWord(kind, {"obstacle", "box", "crowd"});
    problem(fmt::format("kind \"{}\" is not known", kind),
            near.empty() ? "write obstacle, box or crowd" : fmt::format("did you mean {}?", near));
}

/// Corners in site axes at the height of show centre; empty after a problem.
std::vector<Vec3> OutlineReader::points(const Json* geometry, bool line_allowed) {
    const std::string type = geometry == nullptr ? "" : textOf(member(*geometry, "type"));
    const Json* list = geometry == nullptr ? nullptr : member(*geometry, "coordinates");
    const bool polygon = type == "Polygon";
    const char* const remedy = line_allowed ? "draw a LineString or a Polygon" : "draw a Polygon";
    if (!polygon && !(line_allowed && type == "LineString")) {
        problem(type.empty() ? "it has no geometry" : fmt::format("it is a {}", type), remedy);
        return {};
    }
    // The first ring is the outer one; later ones are holes.
    if (polygon && list != nullptr && list->is_array() && !list->empty()) list = &list->front();
    std::vector<Vec3> corners;
    if (list != nullptr && list->is_array())
        for (const Json& place : *list) {
            const bool pair = place.is_array() && place.size() >= 2 && place[0].is_number() &&
                              place[1].is_number();
            const double longitude = pair ? place[0].get<double>() : 0;
            const double latitude = pair ? place[1].get<double>() : 0;
            if (!pair || !(std::fabs(longitude) <= 180) || !(std::fabs(latitude) <= 90)) {
                problem(fmt::format("place {} is none", corners.size() + 1),
                        "write [longitude, latitude] in degrees, longitude first");
                return {};
            }
            const earth::GeoPoint at{latitude * units::kDegree_rad, longitude * units::kDegree_rad,
                                     site_.show_centre.elevation_m};
            const double away_m = earth::groundDistance_m(site_.show_centre, at);
            if (away_m > kFarthest_m) {
                problem(fmt::format("place {} is {} km from show centre", corners.size() + 1,
                                    std::lround(away_m / 1000)),
                        "check that longitude comes first, and the show centre");
                return {};
            }
            corners.push_back(projection_.toSite(at));  // on the ground: heights go by properties
        }
    // A ring is closed by its first corner once more.
    if (polygon && corners.size() > 1 && corners.front() == corners.back()) corners.pop_back();
    if (corners.size() >= (polygon ? 3U : 2U)) return corners;
    problem("it has too few corners", remedy);
    return {};
}

double OutlineReader::top(const Json& properties) {
    const Json* const value = member(properties, "top");
    const char* const remedy = R"(write "top": "12 m", above show centre)";
    if (value == nullptr || !value->is_string()) {
        problem("its top is missing or has no unit", remedy);
        return 0;
    }
    const auto height = units::parseQuantity(value->get<std::string>(), units::Dimension::Length);
    if (!height) {
        problem("top: " + height.error().what, height.error().remedy);
        return 0;
    }
    if (!(*height >= 0 && *height <= 10000)) {
        problem("its top is out of range", "give 0 m to 10000 m above show centre");
        return 0;
    }
    return *height;
}

void OutlineReader::readObstacle(const Json& properties, const Json* geometry) {
    Obstacle obstacle;
    obstacle.name = textOf(member(properties, "name"));
    if (obstacle.name.empty()) problem("an obstacle has no name", R"(give properties a "name")");
    obstacle.top_m = top(properties);
    obstacle.outline_S_m = points(geometry, false);
    site_.obstacles.push_back(std::move(obstacle));
}

void OutlineReader::readBox(const Json& properties, const Json* geometry) {
    Box box;
    box.top_m = top(properties);
    const std::vector<Vec3> corners = points(geometry, false);
    if (corners.empty()) return;
    box.x_min_m = box.x_max_m = corners[0].x;
    box.y_min_m = box.y_max_m = corners[0].y;
    for (const Vec3& corner : corners) {
        box.x_min_m = std::min(box.x_min_m, corner.x);
        box.x_max_m = std::max(box.x_max_m, corner.x);
        box.y_min_m = std::min(box.y_min_m, corner.y);
        box.y_max_m = std::max(box.y_max_m, corner.y);
    }
    site_.box = box;
}

void OutlineReader::readCrowd(const Json* geometry) {
    const std::vector<Vec3> corners = points(geometry, true);
    if (corners.empty()) return;
    site_.crowd_line_y_m = corners[0].y;
    site_.crowd_x_min_m = site_.crowd_x_max_m = corners[0].x;
    for (const Vec3& corner : corners) {
        site_.crowd_line_y_m = std::max(site_.crowd_line_y_m, corner.y);
        site_.crowd_x_min_m = std::min(site_.crowd_x_min_m, corner.x);
        site_.crowd_x_max_m = std::max(site_.crowd_x_max_m, corner.x);
    }
    if (site_.crowd_line_y_m >= 0)
        problem("the crowd reaches the show line or stands beyond it",
                "check the show line's bearing: y points away from the crowd");
}

}  // namespace

Problems readSiteOutlines(std::string_view geojson_text, const std::string& file, Site& site) {
    const auto refused = [&](std::size_t byte, std::string what, std::string remedy) {
        Problem problem;
        problem.where = positionOf(geojson_text, std::min(byte, geojson_text.size()), file);
        problem.what = std::move(what);
        problem.remedy = std::move(remedy);
        return Problems{std::move(problem)};
    };
    if (geojson_text.size() > kLargest_bytes)
        return refused(0, "the file is larger than 64 MB", "save only what lies about the site");
    if (const std::size_t deep = nestedDeeper(geojson_text); deep != std::string_view::npos)
        return refused(deep, fmt::format("brackets lie deeper than {} in one another", kDeepest),
                       "save it again from the map program");
    OutlineReader reader(file, site);
    Json json;
    try {
        json = Json::parse(geojson_text);
    } catch (const Json::exception& error) {
        const auto* const parse_error = dynamic_cast<const Json::parse_error*>(&error);
        const std::size_t byte =
            parse_error == nullptr || parse_error->byte == 0 ? 0 : parse_error->byte - 1;
        return refused(byte, "this is not JSON",
                       "save it again from the map program or correct it here");
    }
    const Json* const features = member(json, "features");
    if (textOf(member(json, "type")) != "FeatureCollection" || features == nullptr ||
        !features->is_array()) {
        reader.problem("this is no GeoJSON feature collection",
                       R"(it starts with {"type": "FeatureCollection", "features": [...]})");
        return std::move(reader.problems());
    }
    for (std::size_t i = 0; i < features->size(); ++i) reader.readFeature(i + 1, (*features)[i]);
    if (reader.problems().empty()) site = std::move(reader.site());
    return std::move(reader.problems());
}

}  // namespace plumbline::data

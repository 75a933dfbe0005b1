#include "engine/data/site_geojson.h"

#include <cmath>

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "engine/base/number_text.h"
#include "engine/data/site_toml.h"
#include "tests/engine/data/file_text.h"

namespace plumbline::data {
namespace {

Site sampleSite() {
    auto site = readSite(sampleText("sample.site.toml"), "s");
    EXPECT_TRUE(site.has_value());
    return *site;
}

/// [longitude, latitude] of a place in site axes near show centre, by radii of curvature: good to
/// millimetres within a kilometre.
std::string place(double x_m, double y_m) {
    const Site site = sampleSite();
    const double lat = site.show_centre.latitude_rad, bearing = site.show_line_bearing_rad;
    const double a = 6378137, e2 = 0.00669437999014132;  // WGS 84, NGA.STND.0036
    const double W2 = 1 - e2 * std::sin(lat) * std::sin(lat);
    const double N = a / std::sqrt(W2) + 120, M = a * (1 - e2) / std::pow(W2, 1.5) + 120;
    const double east = std::sin(bearing) * x_m - std::cos(bearing) * y_m;
    const double north = std::cos(bearing) * x_m + std::sin(bearing) * y_m;
    const double deg = 180 / 3.14159265358979323846;
    return fmt::format(
        "[{}, {}]",
        formatDouble((site.show_centre.longitude_rad + east / (N * std::cos(lat))) * deg),
        formatDouble((lat + north / M) * deg));
}

std::string polygon(double x0, double y0, double x1, double y1) {
    return fmt::format(R"({{"type": "Polygon", "coordinates": [[{}, {}, {}, {}, {}]]}})",
                       place(x0, y0), place(x1, y0), place(x1, y1), place(x0, y1), place(x0, y0));
}

std::string collection(const std::string& properties, const std::string& geometry) {
    return fmt::format(
        R"({{"type": "FeatureCollection", "features": [{{"type": "Feature", "properties": {}, "geometry": {}}}]}})",
        properties, geometry);
}

std::string problemsOf(const std::string& text) {
    Site site = sampleSite();
    return describe(readSiteOutlines(text, "o", site));
}

TEST(SiteGeojson, ProjectsOutlinesOntoSiteAxes) {
    Site site = sampleSite();
    const Problems problems =
        readSiteOutlines(collection(R"({"kind": "obstacle", "name": "barn", "top": "30 ft"})",
                                    polygon(-300, 200, -260, 220)),
                         "o", site);
    ASSERT_TRUE(problems.empty()) << describe(problems);
    ASSERT_EQ(site.obstacles.size(), 3u);
    const Obstacle& barn = site.obstacles[2];
    EXPECT_NEAR(barn.top_m, 9.144, 1e-12);
    ASSERT_EQ(barn.outline_S_m.size(), 4u);  // the closing corner is not kept
    EXPECT_NEAR(glm::distance(barn.outline_S_m[0], Vec3(-300, 200, 0)), 0, 0.05);
    EXPECT_NEAR(glm::distance(barn.outline_S_m[2], Vec3(-260, 220, 0)), 0, 0.05);
}

TEST(SiteGeojson, TakesBoxAndCrowd) {
    Site site = sampleSite();
    ASSERT_TRUE(readSiteOutlines(
                    collection(R"({"kind": "box", "top": "1000 m"})", polygon(-500, -50, 500, 600)),
                    "o", site)
                    .empty());
    EXPECT_NEAR(site.box->x_min_m, -500, 0.1);
    EXPECT_NEAR(site.box->y_max_m, 600, 0.1);
    EXPECT_EQ(site.box->top_m, 1000);
    ASSERT_TRUE(readSiteOutlines(
                    collection(R"({"kind": "crowd"})",
                               fmt::format(R"({{"type": "LineString", "coordinates": [{}, {}]}})",
                                           place(-200, -180), place(250, -175))),
                    "o", site)
                    .empty());
    EXPECT_NEAR(site.crowd_line_y_m, -175, 0.02);  // the point nearest the show line
    EXPECT_NEAR(site.crowd_x_min_m, -200, 0.02);
    EXPECT_NEAR(site.crowd_x_max_m, 250, 0.02);
}

TEST(SiteGeojson, PassesOverWhatHasNoKind) {
    EXPECT_EQ(problemsOf(collection(R"({"name": "a road"})", "null")), "");
    EXPECT_EQ(problemsOf(collection("null", "null")), "");
}

TEST(SiteGeojson, SaysWhatIsWrongAndLeavesTheSite) {
    EXPECT_EQ(problemsOf("{\n  \"type\": oops}"),
              "o:2:11: this is not JSON: save it again from the map program or correct it here\n");
    EXPECT_EQ(problemsOf("[1, 2]"),
              "o: this is no GeoJSON feature collection: it starts with {\"type\": "
              "\"FeatureCollection\", \"features\": [...]}\n");
    EXPECT_EQ(problemsOf(collection(R"({"kind": "obstackle", "name": "barn"})", "null")),
              "o: feature 1 (barn): kind \"obstackle\" is not known: did you mean obstacle?\n");
    EXPECT_EQ(
        problemsOf(collection(R"({"kind": "obstacle", "name": "barn", "top": 12})", "null")),
        "o: feature 1 (barn): its top is missing or has no unit: write \"top\": \"12 m\", above "
        "show centre\no: feature 1 (barn): it has no geometry: draw a Polygon\n");
    // Latitude first: 55.4 degrees of arc away, 6160 km on a sphere of 6371 km.
    const std::string swapped = problemsOf(collection(
        R"({"kind": "crowd"})", R"({"type": "LineString", "coordinates": [[52.05, 9.05]]})"));
    EXPECT_EQ(swapped.substr(0, 26), "o: feature 1: place 1 is 6") << swapped;
    EXPECT_NE(swapped.find("check that longitude comes first"), std::string::npos);
    EXPECT_EQ(problemsOf(collection(R"({"kind": "crowd"})",
                                    R"({"type": "LineString", "coordinates": [["a", 9.05]]})")),
              "o: feature 1: place 1 is none: write [longitude, latitude] in degrees, longitude "
              "first\n");
    Site site = sampleSite();
    EXPECT_FALSE(readSiteOutlines(
                     collection(R"({"kind": "box", "top": "1 kt"})", polygon(-500, -50, 500, 600)),
                     "o", site)
                     .empty());
    EXPECT_EQ(site.box->x_min_m, -900);
    for (const char* junk : {"", "\xff\xfe", "{", "null", "{\"type\": \"FeatureCollection\"}",
                             "{\"type\": \"FeatureCollection\", \"features\": [1, null, {}]} x"})
        EXPECT_NE(problemsOf(junk), "") << junk;
}

TEST(SiteOutlines, BracketsWithoutEndAreRefusedWithTheirPlace) {
    Site site = sampleSite();
    const Problems problems = readSiteOutlines("\n" + std::string(100000, '['), "map.json", site);
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].where.line, 2);
    EXPECT_EQ(problems[0].where.column, 101);
    EXPECT_FALSE(problems[0].remedy.empty());
    const Problems large = readSiteOutlines(std::string((64U << 20U) + 1, ' '), "map.json", site);
    ASSERT_EQ(large.size(), 1u);
    EXPECT_NE(large[0].what.find("64 MB"), std::string::npos);
}

}  // namespace
}  // namespace plumbline::data

#include "engine/data/site_toml.h"

#include <cmath>

#include <gtest/gtest.h>

#include "engine/units/units.h"
#include "tests/engine/data/file_text.h"

namespace plumbline::data {
namespace {

const std::string& sample() {
    static const std::string text = sampleText("sample.site.toml");
    return text;
}

std::string problemsWith(const std::string& from, const std::string& to) {
    const auto site = readSite(with(sample(), from, to), "s");
    return site.has_value() ? "none" : describe(site.error());
}

TEST(SiteToml, LaysAnAerialPictureByPlaceOrByCoordinates) {
    const std::string by_place =
        "[aerial]\npicture = \"field.jpg\"\n"
        "top_left = [\"-900 m\", \"700 m\"]\n"
        "top_right = [\"900 m\", \"700 m\"]\n"
        "bottom_left = [\"-900 m\", \"-500 m\"]\n";
    const auto site = readSite(with(sample(), "[runway]", by_place + "[runway]"), "s");
    ASSERT_TRUE(site.has_value()) << describe(site.error());
    ASSERT_TRUE(site->aerial.has_value());
    EXPECT_EQ(site->aerial->file, "field.jpg");
    EXPECT_EQ(site->aerial->bottom_left_S_m, Vec3(-900, -500, 0));
    // A minute of latitude north of show centre is 1855 m there (WGS 84 at 52 deg: 111.27 km a
    // degree); the show line runs on 70 deg, so north is 70 deg anticlockwise from +x.
    const std::string north = with(by_place, "top_left = [\"-900 m\", \"700 m\"]",
                                   "top_left = [\"52.0666667 deg\", \"9.05 deg\"]");
    const auto geodetic = readSite(with(sample(), "[runway]", north + "[runway]"), "s");
    ASSERT_TRUE(geodetic.has_value()) << describe(geodetic.error());
    EXPECT_NEAR(geodetic->aerial->top_left_S_m.x, 1854.5 * std::cos(70 * units::kDegree_rad), 2);
    EXPECT_NEAR(geodetic->aerial->top_left_S_m.y, 1854.5 * std::sin(70 * units::kDegree_rad), 2);
    const auto problems = [&](const std::string& from, const std::string& to) {
        const auto wrong =
            readSite(with(sample(), "[runway]", with(by_place, from, to) + "[runway]"), "s");
        return wrong.has_value() ? "none" : describe(wrong.error());
    };
    EXPECT_NE(problems("top_right = [\"900 m\"", "top_right = [\"-2000 m\"").find("mirrored"),
              std::string::npos);
    EXPECT_NE(problems("[\"-900 m\", \"700 m\"]", "[\"-900 m\"]").find("no pair"),
              std::string::npos);
    EXPECT_NE(problems("picture = \"field.jpg\"\n", ""), "none");
}

TEST(SiteToml, ReadsTheSample) {
    const auto site = readSite(sample(), "s");
    ASSERT_TRUE(site.has_value()) << describe(site.error());
    EXPECT_EQ(site->name, "Vellmoor");
    EXPECT_EQ(site->floor_m, 10);
    EXPECT_EQ(site->show_time_utc, "2026-06-27T16:30:00Z");
    EXPECT_NEAR(site->show_centre.latitude_rad, 52.05 * units::kDegree_rad, 1e-14);
    EXPECT_EQ(site->show_centre.elevation_m, 120);
    EXPECT_NEAR(site->show_line_bearing_rad, 70 * units::kDegree_rad, 1e-14);
    EXPECT_EQ(site->crowd_line_y_m, -150);
    ASSERT_TRUE(site->box.has_value());
    EXPECT_EQ(site->box->top_m, 1100);
    ASSERT_TRUE(site->runway.has_value());
    EXPECT_EQ(site->runway->centre_S_m, Vec3(0));
    EXPECT_NEAR(site->runway->bearing_rad, 70 * units::kDegree_rad, 1e-14);  // the show line's
    EXPECT_EQ(site->runway->high_mark, "25");
    ASSERT_EQ(site->obstacles.size(), 2u);
    EXPECT_EQ(site->obstacles[0].outline_S_m.size(), 4u);
    EXPECT_EQ(site->obstacles[1].outline_S_m[0], Vec3(618, 398, 0));
    ASSERT_EQ(site->viewpoints.size(), 1u);
    EXPECT_EQ(site->viewpoints[0].eye_S_m, Vec3(0, -170, 3));
}

TEST(SiteToml, ReadsRibbons) {
    const std::string ribbon =
        "[[ribbon]]\nname = \"first\"\nx = \"-60 m\"\ny = \"0 m\"\nheight = \"20 ft\"\n"
        "length = \"12 m\"\n[[viewpoint]]";
    const auto site = readSite(with(sample(), "[[viewpoint]]", ribbon), "s");
    ASSERT_TRUE(site.has_value()) << describe(site.error());
    ASSERT_EQ(site->ribbons.size(), 1u);
    EXPECT_EQ(site->ribbons[0].name, "first");
    EXPECT_EQ(site->ribbons[0].x_m, -60);
    EXPECT_NEAR(site->ribbons[0].height_m, 6.096, 1e-12);
    EXPECT_EQ(site->ribbons[0].length_m, 12);
}

TEST(SiteToml, SaysWhereWhatAndHow) {
    EXPECT_EQ(problemsWith("floor = \"10 m\"\n", ""),
              "s:1:1: floor is missing in the file: add it\n");
    EXPECT_EQ(problemsWith("2026-06-27T16:30:00Z", "2026-06-27"),
              "s:8:13: show_time: \"2026-06-27\" is no date and time with a zone: write date, time "
              "and zone, such as 2026-06-27T16:30:00Z\n");
    EXPECT_EQ(problemsWith("\"52.05 deg\"", "\"152.05 deg\""),
              "s:11:12: latitude is 152.05 deg, which is out of range: give -90 deg to 90 deg\n");
    EXPECT_EQ(problemsWith("x_max = \"350 m\"", "x_max = \"-360 m\""),
              "s:22:1: x_max is not above x_min: swap or correct them\n");
    EXPECT_EQ(problemsWith("[[obstacle]]", "[obstacles]"),
              "s:37:2: obstacles is not known in the file: did you mean obstacle?\n");
    EXPECT_EQ(
        problemsWith("[[viewpoint]]", "[[view]]"),
        "s:47:3: view is not known in the file: known here: name, note, outlines, floor, "
        "obstacle_clearance, rules, show_time, show_centre, show_line, crowd_line, box, runway, "
        "aerial, obstacle, floor_area, strip, ribbon, radio, emergency or viewpoint\n");
    EXPECT_EQ(
        problemsWith(", [\"618 m\", \"402 m\"]", ", [\"618 m\"]"),
        "s:45:72: a corner of the outline is no pair: write [\"-40 m\", \"300 m\"], its x and "
        "y\n");
    EXPECT_EQ(problemsWith("[\"618 m\", \"398 m\"]", "[\"618 m\", \"398 kt\"]"),
              "s:45:27: y: 398 kt is a speed, not a length: write a length in m, ft, km, cm or NM, "
              "such as 398 m\n");
}

TEST(SiteToml, ReadsFloorAreasStripsAndTheNamesOfRules) {
    const std::string more =
        "[[floor_area]]\nname = \"road\"\nfloor = \"100 m\"\n"
        "outline = [[\"0 m\", \"300 m\"], [\"400 m\", \"300 m\"], [\"400 m\", \"330 m\"]]\n"
        "[[strip]]\nname = \"meadow\"\nx = \"900 m\"\ny = \"400 m\"\nbearing = \"160 deg\"\n"
        "length = \"500 m\"\n";
    std::string text = with(sample(), "[runway]", more + "[runway]");
    text = with(text, "floor = \"10 m\"",
                "floor = \"10 m\"\nobstacle_clearance = \"30 m\"\nrules = [\"own-template\"]");
    const auto site = readSite(text, "s");
    ASSERT_TRUE(site.has_value()) << describe(site.error());
    ASSERT_EQ(site->floor_areas.size(), 1U);
    EXPECT_EQ(site->floor_areas[0].floor_m, 100);
    EXPECT_EQ(site->floor_areas[0].outline_S_m[2], Vec3(400, 330, 0));
    ASSERT_EQ(site->strips.size(), 1U);
    EXPECT_EQ(site->strips[0].centre_S_m, Vec3(900, 400, 0));
    EXPECT_NEAR(site->strips[0].bearing_rad, 160 * units::kDegree_rad, 1e-12);
    EXPECT_EQ(site->obstacle_clearance_m, 30);
    ASSERT_EQ(site->rules.size(), 1U);
    EXPECT_EQ(site->rules[0].name, "own-template");
    EXPECT_GT(site->rules[0].where.line, 0);
    EXPECT_NE(problemsWith("floor = \"10 m\"", "floor = \"10 m\"\nrules = \"own\"").find("no list"),
              std::string::npos);
}

TEST(SiteToml, ReadsWhatIsBriefedOnRadioAndEmergencies) {
    const auto read = [](const std::string& tables) {
        return readSite(sample() + "\n" + tables, "s");
    };
    const auto site = read(
        "[radio]\nfrequency = \"119.005 MHz\"\nstop_call = \"Stop, stop, stop\"\n"
        "[emergency]\nbreak_off = \"climb ahead\"\ncrowd = \"stewards\"\n");
    ASSERT_TRUE(site.has_value()) << describe(site.error());
    EXPECT_EQ(site->radio.frequency, "119.005 MHz");
    EXPECT_EQ(site->radio.spare_frequency, "");
    EXPECT_EQ(site->radio.stop_call, "Stop, stop, stop");
    EXPECT_EQ(site->emergency.break_off, "climb ahead");
    const auto problem = [&](const std::string& tables) {
        const auto wrong = read(tables);
        return wrong.has_value() ? "none" : describe(wrong.error());
    };
    // The band ends at 137 MHz (ITU Radio Regulations, article 5).
    EXPECT_EQ(problem("[radio]\nfrequency = \"137 MHz\""), "none");
    EXPECT_NE(problem("[radio]\nfrequency = \"137.005 MHz\"").find("no frequency of aviation"),
              std::string::npos);
    EXPECT_NE(problem("[radio]\nfrequency = \"119.005\"").find("119.005 MHz"), std::string::npos);
    EXPECT_NE(problem("[radio]\nfirst_call = \"" + std::string(61, 'x') + "\"").find("61 letters"),
              std::string::npos);
    EXPECT_EQ(problem("[emergency]\ncrowd = \"" + std::string(60, 'x') + "\""), "none");
    EXPECT_NE(problem("[emergency]\nbreakoff = \"x\"").find("break_off"), std::string::npos);
}

}  // namespace
}  // namespace plumbline::data

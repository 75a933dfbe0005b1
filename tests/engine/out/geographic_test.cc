// KML and GPX: read back by pugixml and by the importer, places against GeographicLib's geodesics.
#include <cmath>
#include <sstream>

#include <GeographicLib/Geodesic.hpp>
#include <gtest/gtest.h>
#include <pugixml.hpp>

#include "engine/out/export.h"
#include "engine/out/gpx.h"
#include "engine/out/kml.h"
#include "engine/record/read_recording.h"
#include "tests/engine/out/made_flight.h"

namespace plumbline::out {
namespace {

struct Place {
    double longitude_deg = 0, latitude_deg = 0, height_m = 0;
};

std::vector<Place> placesOf(const char* coordinates) {
    std::vector<Place> places;
    std::istringstream in(coordinates);
    char comma = 0;
    Place p;
    while (in >> p.longitude_deg >> comma >> p.latitude_deg >> comma >> p.height_m)
        places.push_back(p);
    return places;
}

pugi::xml_document parsed(const std::string& text) {
    pugi::xml_document document;
    const auto result = document.load_string(text.c_str());
    EXPECT_TRUE(result) << result.description();
    return document;
}

/// Of a point x along the show line, y away from the crowd: two geodesics from show centre.
void expectAt(const Place& place, const Vec3& p_S, const Flight& flight) {
    const auto& geodesic = GeographicLib::Geodesic::WGS84();
    const double distance_m = std::hypot(p_S.x, p_S.y);
    const double azimuth_deg = 70 - std::atan2(p_S.y, p_S.x) * 180 / kPi;
    double latitude_deg = 0, longitude_deg = 0;
    geodesic.Direct(52.05, 9.05, azimuth_deg, distance_m, latitude_deg, longitude_deg);
    // A kilometre out, plane and geodesic differ by less than a hundredth of a millimetre.
    EXPECT_NEAR(place.latitude_deg, latitude_deg, 1e-7);
    EXPECT_NEAR(place.longitude_deg, longitude_deg, 1e-7);
    EXPECT_NEAR(place.height_m, flight.origin->elevation_m + p_S.z, 0.01);
}

TEST(FlightKml, FiguresBeginAndEndWhereTheyAreFlown) {
    const Flight flight = test::madeFlight();
    const pugi::xml_document document = parsed(flightKml(flight, units::DisplayUnits::Aviation));
    const pugi::xml_node folder = document.child("kml").child("Document").child("Folder");
    EXPECT_STREQ(folder.child_value("name"), "Figures");
    double start_s = 0;
    int count = 0;
    for (const pugi::xml_node& placemark : folder.children("Placemark")) {
        const pugi::xml_node line = placemark.child("LineString");
        EXPECT_STREQ(line.child_value("altitudeMode"), "absolute");
        const std::vector<Place> places = placesOf(line.child_value("coordinates"));
        ASSERT_GT(places.size(), 10u);
        EXPECT_LT(places.size(), 500u);
        expectAt(places.front(), test::placeAt(start_s), flight);
        expectAt(places.back(), test::placeAt(start_s + 10), flight);
        start_s += 10;
        ++count;
    }
    EXPECT_EQ(count, 2);
    const pugi::xml_node second =
        folder.children("Placemark").begin()->next_sibling("Placemark").child("TimeSpan");
    EXPECT_STREQ(second.child_value("begin"), "2026-06-27T16:30:10Z");
    EXPECT_STREQ(second.child_value("end"), "2026-06-27T16:30:20Z");
}

TEST(FlightKml, ThinnedLinesStayNearThePath) {
    const Flight flight = test::madeFlight();
    const pugi::xml_document document = parsed(flightKml(flight, units::DisplayUnits::Aviation));
    const auto places =
        placesOf(document.select_node("//LineString/coordinates").node().child_value());
    // In the plane of the circle a chord's middle is the farthest from it.
    double farthest_m = 0;
    for (std::size_t i = 1; i < places.size(); ++i) {
        double east_m = 0, between_m = 0;
        const auto& g = GeographicLib::Geodesic::WGS84();
        g.Inverse(places[i - 1].latitude_deg, places[i - 1].longitude_deg, places[i].latitude_deg,
                  places[i].longitude_deg, between_m);
        east_m = std::hypot(between_m, places[i].height_m - places[i - 1].height_m);
        const double half = east_m / 2;
        farthest_m =
            std::max(farthest_m,
                     test::kRadius_m - std::sqrt(test::kRadius_m * test::kRadius_m - half * half));
    }
    EXPECT_LT(farthest_m, kKmlBound_m + 0.02);  // rounding of both ends
    EXPECT_GT(farthest_m, kKmlBound_m / 2);
}

TEST(FlightKml, TextIsEscapedAndOtherScriptsStay) {
    auto path = test::madePath();
    path->figures[0].name =
        "Loop <\"1\" & 2> \xC3\x9C"
        "berschlag \xD8\xAF\xD9\x88\xD8\xB1 \xE5\xAE\x99\x01";
    path->figures[1].name = "cut \xC3";
    Flight flight = test::madeFlight(path);
    flight.title = "A & B";
    const std::string wanted =
        "Loop <\"1\" & 2> \xC3\x9C"
        "berschlag \xD8\xAF\xD9\x88\xD8\xB1 \xE5\xAE\x99";
    const pugi::xml_document kml = parsed(flightKml(flight, units::DisplayUnits::Metric));
    EXPECT_EQ(kml.select_node("//Placemark/name").node().child_value(), wanted);
    EXPECT_STREQ(kml.select_node("//Document/name").node().child_value(), "A & B");
    const pugi::xml_document gpx = parsed(flightGpx(flight, 10));
    EXPECT_EQ(gpx.select_node("//wpt/name").node().child_value(), wanted);
    EXPECT_STREQ(gpx.select_node("//wpt[2]/name").node().child_value(), "cut \xEF\xBF\xBD");
}

TEST(FlightKml, WithoutADayThereAreNoTimes) {
    Flight flight = test::madeFlight();
    flight.start_utc_s.reset();
    const pugi::xml_document kml = parsed(flightKml(flight, units::DisplayUnits::Aviation));
    EXPECT_FALSE(kml.select_node("//TimeSpan"));
    EXPECT_FALSE(parsed(flightGpx(flight, 10)).select_node("//time"));
}

TEST(FlightGpx, TheImporterReadsTheFlightBack) {
    const Flight flight = test::madeFlight();
    const std::string text = flightGpx(flight, 10);
    const Expected<record::ImportedTrack, Problems> track = record::readRecording(text, "made.gpx");
    ASSERT_TRUE(track) << describe(track.error());
    EXPECT_TRUE(track->warnings.empty()) << describe(track->warnings);
    EXPECT_EQ(track->start_utc, "2026-06-27T16:30:00Z");
    const std::vector<path::Sample>& samples = track->path.samples;
    ASSERT_EQ(samples.size(), 201u);
    // East and north of the first place.
    const double bearing_rad = 70 * kPi / 180;
    for (const path::Sample& sample : samples) {
        const Vec3 moved = test::placeAt(sample.time_s) - test::placeAt(0);
        const Vec3 wanted(moved.x * std::sin(bearing_rad), moved.x * std::cos(bearing_rad),
                          moved.z);
        // Seven decimals of a degree are a centimetre.
        ASSERT_LT(glm::length(sample.position_S_m - wanted), 0.02) << sample.time_s;
    }
    EXPECT_NEAR(samples.back().time_s, 20, 1e-3);
}

TEST(FlightGpx, WaypointsStandWhereFiguresBegin) {
    const Flight flight = test::madeFlight();
    const pugi::xml_document gpx = parsed(flightGpx(flight, 10));
    const pugi::xml_node second = gpx.select_node("//wpt[2]").node();
    EXPECT_STREQ(second.child_value("name"), "Second");
    EXPECT_STREQ(second.child_value("time"), "2026-06-27T16:30:10Z");
    expectAt({second.attribute("lon").as_double(), second.attribute("lat").as_double(),
              std::stod(second.child_value("ele"))},
             test::placeAt(10), flight);
}

TEST(Exported, WhatIsNotKnownIsRefusedWithARemedy) {
    Flight flight = test::madeFlight();
    flight.origin.reset();
    for (const Format format : {Format::Gpx, Format::Kml}) {
        const auto made = exported(flight, format, "a.gpx", units::DisplayUnits::Aviation);
        ASSERT_FALSE(made);
        EXPECT_NE(made.error().remedy.find("--site"), std::string::npos);
    }
    EXPECT_TRUE(exported(flight, Format::Glb, "a.glb", units::DisplayUnits::Aviation));
    auto path = test::madePath();
    path->known.place = false;
    const Flight placeless = test::madeFlight(path);
    EXPECT_FALSE(exported(placeless, Format::Glb, "a.glb", units::DisplayUnits::Aviation));
    EXPECT_TRUE(exported(placeless, Format::Csv, "a.csv", units::DisplayUnits::Aviation));
}

TEST(Exported, TheEndingTellsTheFormat) {
    EXPECT_EQ(*formatOf("a.b.GLB"), Format::Glb);
    EXPECT_EQ(*formatOf("x/a.kml"), Format::Kml);
    for (const char* wrong : {"a.gltf", "kml", "", "a.kmz", "a.glb/b"})
        EXPECT_FALSE(formatOf(wrong));
}

TEST(Flight, ARecordingBeginsAtItsClocksFraction) {
    record::ImportedTrack track;
    track.start_utc = "2026-06-27T23:59:59Z";
    track.path.clock_offset_s = 86399.25;
    EXPECT_EQ(*startOf(track), 1782604799.25);
    track.start_utc.clear();
    EXPECT_FALSE(startOf(track));
}

}  // namespace
}  // namespace plumbline::out

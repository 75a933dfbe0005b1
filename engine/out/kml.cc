#include "engine/out/kml.h"

#include <algorithm>
#include <cmath>

#include "engine/base/number_text.h"
#include "engine/out/ground_marks.h"
#include "engine/out/places.h"
#include "engine/out/thin.h"
#include "engine/out/xml_text.h"
#include "engine/units/units.h"

namespace plumbline::out {

namespace {

// Colours are alpha, blue, green, red. chosen: neighbours differ in lightness too
constexpr const char* kStyles =
    "<Style id=\"figure0\"><LineStyle><color>ff29b8fa</color><width>3</width></LineStyle></Style>\n"
    "<Style id=\"figure1\"><LineStyle><color>ff8a3a2e</color><width>3</width></LineStyle></Style>\n"
    "<Style id=\"moment\"><IconStyle><color>ffffffff</color><scale>0.5</scale></IconStyle>"
    "<LabelStyle><scale>0</scale></LabelStyle></Style>\n"
    "<Style id=\"show\"><LineStyle><color>ffffffff</color><width>2</width></LineStyle></Style>\n"
    "<Style id=\"crowd\"><LineStyle><color>ff3030e0</color><width>4</width></LineStyle></Style>\n"
    "<Style id=\"area\"><LineStyle><color>c0ffffff</color><width>1</width></LineStyle>"
    "<PolyStyle><fill>0</fill></PolyStyle></Style>\n"
    "<Style id=\"paved\"><LineStyle><color>ffb0b0b0</color></LineStyle>"
    "<PolyStyle><color>80707070</color></PolyStyle></Style>\n"
    "<Style id=\"obstacle\"><LineStyle><color>ff3060ff</color></LineStyle>"
    "<PolyStyle><color>804080ff</color></PolyStyle></Style>\n";

const char* styleOf(GroundMark::Kind kind) {
    switch (kind) {
        case GroundMark::Kind::ShowLine:
            return "#show";
        case GroundMark::Kind::CrowdLine:
            return "#crowd";
        case GroundMark::Kind::Box:
            return "#area";
        case GroundMark::Kind::Runway:
        case GroundMark::Kind::Strip:
            return "#paved";
        case GroundMark::Kind::Obstacle:
            return "#obstacle";
    }
    return "";
}

class Writer {
public:
    Writer(const Flight& flight, units::DisplayUnits units)
        : flight_(flight), path_(*flight.path), units_(units), places_(flight) {}

    std::string write() {
        out_ =
            "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
            "<kml xmlns=\"http://www.opengis.net/kml/2.2\">\n<Document>\n<name>" +
            xmlText(flight_.title) + "</name>\n<open>1</open>\n<description>" +
            xmlText(aboutFlight(flight_)) + "</description>\n";
        writeLookAt();
        out_ += kStyles;
        writeFigures();
        writeMoments();
        if (flight_.site) writeGround(*flight_.site);
        return out_ + "</Document>\n</kml>\n";
    }

private:
    /// From behind the crowd to show centre, or from the south to a recording's first place.
    void writeLookAt() {
        const data::GeoPoint& centre = *flight_.origin;
        // y points away from the crowd, 90 deg to the left of the show line.
        double heading_rad = path_.show_line_bearing_rad - kPi / 2;
        heading_rad -= 2 * kPi * std::floor(heading_rad / (2 * kPi));
        // chosen: shows a box of a usual size from a usual seat
        out_ += "<LookAt><longitude>" + degreesText(centre.longitude_rad) +
                "</longitude><latitude>" + degreesText(centre.latitude_rad) +
                "</latitude><altitude>" + metresText(centre.elevation_m) + "</altitude><heading>" +
                formatFixed(heading_rad / units::kDegree_rad, 1) +
                "</heading><tilt>70</tilt><range>1800</range>"
                "<altitudeMode>absolute</altitudeMode></LookAt>\n";
    }

    void writeTimes(double start_s, double stop_s) {
        if (!flight_.start_utc_s) return;
        out_ += "<TimeSpan><begin>" + utcText(*flight_.start_utc_s + start_s) + "</begin><end>" +
                utcText(*flight_.start_utc_s + stop_s) + "</end></TimeSpan>";
    }

    void writeFigures() {
        out_ += "<Folder><name>Figures</name>\n";
        if (path_.figures.empty())
            writeFigure({flight_.title, 0, path_.duration_s()}, 0);
        else
            for (std::size_t i = 0; i < path_.figures.size(); ++i)
                writeFigure(path_.figures[i], static_cast<int>(i % 2));
        out_ += "</Folder>\n";
    }

    /// With both its ends, so that the line goes on in the next one.
    std::vector<path::Sample> samplesOf(const path::Figure& figure) const {
        std::vector<path::Sample> samples{path::sampleAt(path_, figure.start_s)};
        auto next = std::upper_bound(
            path_.samples.begin(), path_.samples.end(), figure.start_s,
            [](double time_s, const path::Sample& sample) { return time_s < sample.time_s; });
        for (; next != path_.samples.end() && next->time_s < figure.stop_s; ++next)
            samples.push_back(*next);
        samples.push_back(path::sampleAt(path_, figure.stop_s));
        return samples;
    }

    void writeFigure(const path::Figure& figure, int style) {
        const std::vector<path::Sample> samples = samplesOf(figure);
        double lowest_m = samples.front().position_S_m.z, highest_m = lowest_m;
        for (const path::Sample& sample : samples) {
            lowest_m = std::min(lowest_m, sample.position_S_m.z);
            highest_m = std::max(highest_m, sample.position_S_m.z);
        }
        out_ += "<Placemark><name>" + xmlText(figure.name) + "</name><description>" +
                units::formatTime(figure.start_s) + " to " + units::formatTime(figure.stop_s) +
                ", heights above " + (flight_.site ? "show centre " : "the first place ") +
                units::formatHeight(lowest_m, units_) + " to " +
                units::formatHeight(highest_m, units_);
        if (path_.known.airspeed)
            out_ += ", entry speed " + units::formatSpeed(samples.front().airspeed_mps, units_);
        out_ += "</description>";
        writeTimes(figure.start_s, figure.stop_s);
        out_ += "<styleUrl>#figure" + std::to_string(style) +
                "</styleUrl><LineString><altitudeMode>absolute</altitudeMode><coordinates>\n";
        for (const std::size_t i : thinned(samples.size(), [&](std::size_t a, std::size_t b) {
                 return straight(samples, a, b);
             }))
            out_ += places_.lonLatHeight(samples[i].position_S_m) + "\n";
        out_ += "</coordinates></LineString></Placemark>\n";
    }

    static bool straight(const std::vector<path::Sample>& samples, std::size_t a, std::size_t b) {
        const Vec3 from = samples[a].position_S_m;
        const Vec3 way = samples[b].position_S_m - from;
        const double way2 = glm::dot(way, way);
        for (std::size_t i = a + 1; i < b; ++i) {
            const Vec3 at = samples[i].position_S_m - from;
            const double u = way2 > 0 ? std::clamp(glm::dot(at, way) / way2, 0.0, 1.0) : 0;
            if (glm::length(at - u * way) > kKmlBound_m) return false;
        }
        return true;
    }

    void writeMoments() {
        if (!flight_.start_utc_s) return;
        out_ += "<Folder><name>Second by second</name>\n";
        for (double time_s = 0; time_s <= path_.duration_s(); time_s += 1) {
            out_ += "<Placemark><name>" + units::formatTime(time_s) + "</name>";
            writeTimes(time_s, std::min(time_s + 1, path_.duration_s()));
            out_ +=
                "<styleUrl>#moment</styleUrl><Point><altitudeMode>absolute</altitudeMode>"
                "<coordinates>" +
                places_.lonLatHeight(path::sampleAt(path_, time_s).position_S_m) +
                "</coordinates></Point></Placemark>\n";
        }
        out_ += "</Folder>\n";
    }

    void writeGround(const data::Site& site) {
        out_ += "<Folder><name>" + xmlText(site.name) + "</name>";
        if (!site.note.empty()) out_ += "<description>" + xmlText(site.note) + "</description>";
        out_ += "\n";
        for (const GroundMark& mark : groundMarks(site)) {
            out_ += "<Placemark><name>" + xmlText(mark.name) + "</name><styleUrl>" +
                    styleOf(mark.kind) + "</styleUrl>";
            mark.line() ? writeLine(mark) : writeArea(mark);
            out_ += "</Placemark>\n";
        }
        out_ += "</Folder>\n";
    }

    void writeLine(const GroundMark& mark) {
        out_ +=
            "<LineString><tessellate>1</tessellate><altitudeMode>clampToGround</altitudeMode>"
            "<coordinates>";
        for (const Vec3& point_S_m : mark.points_S_m) out_ += places_.lonLatHeight(point_S_m) + " ";
        out_ += "</coordinates></LineString>";
    }

    void writeArea(const GroundMark& mark) {
        const bool stands = mark.kind == GroundMark::Kind::Obstacle;
        out_ += stands ? "<Polygon><extrude>1</extrude><altitudeMode>absolute</altitudeMode>"
                       : "<Polygon><tessellate>1</tessellate>"
                         "<altitudeMode>clampToGround</altitudeMode>";
        out_ += "<outerBoundaryIs><LinearRing><coordinates>";
        std::vector<Vec3> ring_S_m = mark.points_S_m;
        ring_S_m.push_back(ring_S_m.front());
        for (Vec3 point_S_m : ring_S_m) {
            if (stands) point_S_m.z = mark.top_m;
            out_ += places_.lonLatHeight(point_S_m) + " ";
        }
        out_ += "</coordinates></LinearRing></outerBoundaryIs></Polygon>";
    }

    const Flight& flight_;
    const path::Path& path_;
    const units::DisplayUnits units_;
    const Places places_;
    std::string out_;
};

}  // namespace

std::string flightKml(const Flight& flight, units::DisplayUnits units) {
    return Writer(flight, units).write();
}

}  // namespace plumbline::out

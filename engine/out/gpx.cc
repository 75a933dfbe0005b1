#include "engine/out/gpx.h"

#include "engine/out/places.h"
#include "engine/out/xml_text.h"
#include "engine/units/units.h"

namespace plumbline::out {

namespace {

/// An element of type wptType, without what comes behind <ele> and <time>.
void openPoint(std::string& out, const char* element, const Flight& flight, const Places& places,
               const path::Sample& sample) {
    const data::GeoPoint place = places.at(sample.position_S_m);
    out += "<";
    out += element;
    out += " lat=\"" + degreesText(place.latitude_rad) + "\" lon=\"" +
           degreesText(place.longitude_rad) + "\"><ele>" + metresText(place.elevation_m) + "</ele>";
    if (flight.start_utc_s)
        out += "<time>" + utcText(*flight.start_utc_s + sample.time_s) + "</time>";
}

}  // namespace

std::string flightGpx(const Flight& flight, double most_hz) {
    const path::Path& path = *flight.path;
    const Places places(flight);
    const std::string title = xmlText(flight.title);
    std::string out =
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<gpx version=\"1.1\" creator=\"Plumbline\" xmlns=\"http://www.topografix.com/GPX/1/1\">\n"
        "<metadata><name>" +
        title + "</name><desc>" + xmlText(aboutFlight(flight)) + "</desc>";
    if (flight.start_utc_s) out += "<time>" + utcText(*flight.start_utc_s) + "</time>";
    out += "</metadata>\n";
    for (const path::Figure& figure : path.figures) {
        openPoint(out, "wpt", flight, places, path::sampleAt(path, figure.start_s));
        out += "<name>" + xmlText(figure.name) + "</name><desc>begins at " +
               units::formatTime(figure.start_s) + "</desc></wpt>\n";
    }
    out += "<trk><name>" + title + "</name><trkseg>\n";
    // A hair less, so that rounded times of a regular rate keep it.
    const double least_step_s = (1 - 1e-6) / most_hz;
    double last_s = -1;
    for (std::size_t i = 0; i < path.samples.size(); ++i) {
        const path::Sample& sample = path.samples[i];
        if (i > 0 && sample.time_s - last_s < least_step_s) continue;
        last_s = sample.time_s;
        openPoint(out, "trkpt", flight, places, sample);
        out += "</trkpt>\n";
    }
    return out + "</trkseg></trk>\n</gpx>\n";
}

}  // namespace plumbline::out

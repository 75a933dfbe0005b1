#include "engine/out/export.h"

#include <algorithm>
#include <array>

#include "engine/out/flight_glb.h"
#include "engine/out/gpx.h"
#include "engine/out/kml.h"
#include "engine/out/path_csv.h"

namespace plumbline::out {

Expected<Format, Problem> formatOf(const std::string& file) {
    constexpr std::array<std::pair<std::string_view, Format>, 4> kEndings{{{".csv", Format::Csv},
                                                                           {".glb", Format::Glb},
                                                                           {".kml", Format::Kml},
                                                                           {".gpx", Format::Gpx}}};
    std::string ending = file.size() < 4 ? std::string() : file.substr(file.size() - 4);
    for (char& c : ending)
        if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
    for (const auto& [known, format] : kEndings)
        if (ending == known) return format;
    Problem problem;
    problem.where.file = file;
    problem.what = "the name's ending tells the format, and this one tells none";
    problem.remedy = "end it in .glb, .kml, .gpx or .csv";
    return Unexpected(std::move(problem));
}

Expected<Exported, Problem> exported(const Flight& flight, Format format, const std::string& file,
                                     units::DisplayUnits units, double gpx_hz) {
    Problem problem;
    problem.where.file = file;
    const path::Path& path = *flight.path;
    const bool geographic = format == Format::Kml || format == Format::Gpx;
    if (format != Format::Csv && !path.known.place) {
        problem.what = "this recording does not tell where the aircraft was";
        problem.remedy = "export it as .csv";
        return Unexpected(std::move(problem));
    }
    if (geographic && !flight.origin) {
        problem.what = "this recording is in metres, without latitude and longitude";
        problem.remedy =
            "give the site whose axes it is in by --site, or export it as .glb or .csv";
        return Unexpected(std::move(problem));
    }
    Exported out;
    if (geographic && !flight.start_utc_s)
        out.remarks.push_back("the day is not known, so there are no times in it");
    switch (format) {
        case Format::Csv:
            out.bytes = pathCsv(path);
            break;
        case Format::Kml:
            out.bytes = flightKml(flight, units);
            break;
        case Format::Gpx:
            out.bytes = flightGpx(flight, gpx_hz);
            break;
        case Format::Glb: {
            const auto shown = std::count_if(
                path.samples.begin(), path.samples.end(),
                [&path](const path::Sample& at) { return path::attitudeShown(path, at); });
            if (shown < std::ssize(path.samples))
                out.remarks.push_back(std::string(shown == 0 ? "the attitude is not known"
                                                             : "the attitude is not always known") +
                                      ": a plain mark flies in the aircraft's place");
            Expected<std::string, std::string> bytes = flightGlb(flight);
            if (bytes) {
                out.bytes = std::move(*bytes);
                break;
            }
            problem.where.file = flight.model.file;
            problem.what = "this aircraft model cannot be used: " + bytes.error();
            problem.remedy =
                "export it again as binary glTF 2.0 (.glb) with plain triangles, or "
                "take \"model\" out of the aircraft file for the built-in one";
            return Unexpected(std::move(problem));
        }
    }
    return out;
}

}  // namespace plumbline::out

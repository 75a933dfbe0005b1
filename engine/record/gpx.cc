#include "engine/record/gpx.h"

#include <algorithm>

#include <pugixml.hpp>

#include "engine/base/number_text.h"
#include "engine/record/clock_text.h"
#include "engine/record/text_lines.h"
#include "engine/record/xml_nodes.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

/// Points that cannot be used, by reason, with the first of each.
struct LeftOut {
    std::string why;
    std::int32_t count = 0;
    std::ptrdiff_t first_offset = -1;

    void add(const pugi::xml_node& node) {
        if (count++ == 0) first_offset = node.offset_debug();
    }
};

struct PointReader {
    LeftOut no_place{"without a usable lat and lon"};
    LeftOut no_time{"without a usable time"};
    LeftOut no_height{"without a height"};

    std::optional<Fix> read(const pugi::xml_node& point) {
        const auto latitude_deg = parseDouble(trimmed(point.attribute("lat").value()));
        const auto longitude_deg = parseDouble(trimmed(point.attribute("lon").value()));
        const auto clock_s = parseUtc(childNamed(point, "time").child_value());
        const auto height_m = parseDouble(trimmed(childNamed(point, "ele").child_value()));
        if (!latitude_deg || !longitude_deg || *latitude_deg < -90 || *latitude_deg > 90 ||
            *longitude_deg < -180 || *longitude_deg > 180) {
            no_place.add(point);
        } else if (!clock_s) {
            no_time.add(point);
        } else if (!height_m) {
            no_height.add(point);
        } else {
            Fix fix;
            fix.clock_s = *clock_s;
            fix.place = {*latitude_deg * units::kDegree_rad, *longitude_deg * units::kDegree_rad,
                         *height_m};
            return fix;
        }
        return std::nullopt;
    }
};

}  // namespace

bool looksLikeGpx(std::string_view bytes) { return rootIs(bytes, "gpx"); }

Expected<FixLog, Problems> readGpx(const NamedBytes& input) {
    pugi::xml_document document;
    const pugi::xml_parse_result parsed =
        document.load_buffer(input.bytes.data(), input.bytes.size());
    const Problem broken =
        problem(positionOf(input, parsed.offset),
                std::string("this GPX file is broken here (") + parsed.description() + ")",
                "copy it again from the recorder: it may have been cut short");
    FixLog log;
    log.kind = "GPX";
    log.file = input.file;
    log.clock = Clock::Utc;
    PointReader reader;
    LineCounter lines(input.bytes);
    for (const pugi::xml_node& track : childNamed(document, "gpx").children()) {
        if (localName(track) != "trk") continue;
        for (const pugi::xml_node& segment : track.children()) {
            if (localName(segment) != "trkseg") continue;
            for (const pugi::xml_node& point : segment.children()) {
                if (localName(point) != "trkpt") continue;
                std::optional<Fix> fix = reader.read(point);
                if (!fix) continue;
                fix->line = lines.lineAt(point.offset_debug());
                log.fixes.push_back(*fix);
            }
        }
    }
    for (const LeftOut* left_out : {&reader.no_place, &reader.no_time, &reader.no_height}) {
        if (left_out->count == 0) continue;
        log.warnings.push_back(problem(positionOf(input, left_out->first_offset),
                                       std::to_string(left_out->count) + " track points " +
                                           left_out->why + " left out, the first here",
                                       "expect gaps there"));
    }
    if (!parsed) {
        // What stands before the break still counts.
        if (log.fixes.size() < 2) return failure(broken, log.warnings);
        log.warnings.insert(log.warnings.begin(), broken);
    }
    if (!log.fixes.empty()) return log;
    const std::int32_t points =
        reader.no_place.count + reader.no_time.count + reader.no_height.count;
    const bool other = childNamed(childNamed(document, "gpx"), "rte") ||
                       childNamed(childNamed(document, "gpx"), "wpt");
    const std::string reason =
        points > 0 ? "none of the " + std::to_string(points) +
                         " track points of this GPX file has a place, a height and a time"
        : other ? "this GPX file holds waypoints or a route, no track"
                : "this GPX file has no track";
    return failure(problem({input.file, 0, 0}, reason,
                           "export it from the recorder as a track, with heights and times"),
                   log.warnings);
}

}  // namespace plumbline::record

#include "engine/record/kml.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <vector>

#include <pugixml.hpp>

#include "engine/base/number_text.h"
#include "engine/record/clock_text.h"
#include "engine/record/text_lines.h"
#include "engine/record/xml_nodes.h"
#include "engine/units/units.h"

namespace plumbline::record {

namespace {

/// "longitude latitude height", in degrees and metres.
std::optional<earth::GeoPoint> placeOf(std::string_view text) {
    std::array<double, 3> numbers{};
    text = trimmed(text);
    for (double& number : numbers) {
        const std::size_t end = std::min(text.find_first_of(" \t\r\n"), text.size());
        const std::optional<double> read = parseDouble(text.substr(0, end));
        if (!read || !std::isfinite(*read)) return std::nullopt;
        number = *read;
        text = trimmed(text.substr(end));
    }
    const auto [longitude_deg, latitude_deg, height_m] = numbers;
    if (!text.empty() || std::abs(latitude_deg) > 90 || std::abs(longitude_deg) > 180)
        return std::nullopt;
    return earth::GeoPoint{latitude_deg * units::kDegree_rad, longitude_deg * units::kDegree_rad,
                           height_m};
}

/// Goes through the whole document; tracks stand at any depth.
class Tracks : public pugi::xml_tree_walker {
public:
    Tracks(const NamedBytes& input, FixLog& log) : input_(input), log_(log), lines_(input.bytes) {}

    bool for_each(pugi::xml_node& node) override {
        if (localName(node) == "Track") readTrack(node);
        return true;
    }

    std::int32_t tracks() const { return tracks_; }

    void warn() {
        if (left_out_ > 0)
            log_.warnings.push_back(problem(
                {input_.file, left_out_line_, 1},
                std::to_string(left_out_) +
                    " points without a usable place, height or time left out, the first here",
                "expect gaps there"));
        if (from_ground_line_ > 0)
            log_.warnings.push_back(problem({input_.file, from_ground_line_, 1},
                                            "this track does not say that its heights are absolute",
                                            "they are taken as above mean sea level"));
    }

private:
    void readTrack(const pugi::xml_node& track) {
        ++tracks_;
        const std::int32_t line = lines_.lineAt(track.offset_debug());
        pugi::xml_node mode = childNamed(track, "altitudeMode");
        if (!mode) mode = childNamed(track.parent(), "altitudeMode");  // of a <MultiTrack>
        if (trimmed(mode.child_value()) != "absolute" && from_ground_line_ == 0)
            from_ground_line_ = line;
        // The n-th <when> belongs to the n-th <coord>, however the two are interleaved.
        std::vector<pugi::xml_node> whens, coords;
        for (const pugi::xml_node& child : track.children()) {
            if (localName(child) == "when") whens.push_back(child);
            if (localName(child) == "coord") coords.push_back(child);
        }
        for (std::size_t i = 0; i < std::max(whens.size(), coords.size()); ++i) {
            const bool both = i < whens.size() && i < coords.size();
            const std::int32_t at =
                lines_.lineAt((i < coords.size() ? coords : whens)[i].offset_debug());
            const auto clock_s = both ? parseUtc(whens[i].child_value()) : std::nullopt;
            const auto place = both ? placeOf(coords[i].child_value()) : std::nullopt;
            if (!clock_s || !place) {
                if (left_out_++ == 0) left_out_line_ = at;
                continue;
            }
            Fix fix;
            fix.clock_s = *clock_s;
            fix.place = *place;
            fix.line = at;
            log_.fixes.push_back(fix);
        }
    }

    const NamedBytes& input_;
    FixLog& log_;
    LineCounter lines_;
    std::int32_t tracks_ = 0, left_out_ = 0, left_out_line_ = 0, from_ground_line_ = 0;
};

}  // namespace

bool looksLikeKml(std::string_view bytes) { return rootIs(bytes, "kml"); }

Expected<FixLog, Problems> readKml(const NamedBytes& input) {
    pugi::xml_document document;
    const pugi::xml_parse_result parsed =
        document.load_buffer(input.bytes.data(), input.bytes.size());
    FixLog log;
    log.kind = "KML";
    log.file = input.file;
    log.clock = Clock::Utc;
    Tracks tracks(input, log);
    document.traverse(tracks);
    tracks.warn();
    if (!parsed) {
        const Problem broken =
            problem(positionOf(input, parsed.offset),
                    std::string("this KML file is broken here (") + parsed.description() + ")",
                    "save it again: it may have been cut short");
        if (log.fixes.size() < 2) return failure(broken, log.warnings);
        log.warnings.insert(log.warnings.begin(), broken);
    }
    if (!log.fixes.empty()) return log;
    if (tracks.tracks() == 0)
        return failure(problem({input.file, 0, 0},
                               "this KML file holds things to draw, no recorded track with times",
                               "give the recorder's own file, or a GPX track"));
    return failure(problem({input.file, 0, 0},
                           "the tracks of this KML file have no point with a place, a height and a "
                           "time",
                           "give the recorder's own file"),
                   log.warnings);
}

}  // namespace plumbline::record

#include "engine/out/flight.h"

#include <cmath>
#include <filesystem>
#include <utility>

#include "engine/earth/utc_time.h"
#include "engine/record/in_site.h"

namespace plumbline::out {

std::string modelFileOf(const load::Workspace& workspace) {
    if (workspace.aircraft.model_file.empty()) return {};
    // It lies beside the aircraft's own file.
    const std::filesystem::path aircraft_file =
        workspace.routine_path.parent_path() / workspace.routine.aircraft_file;
    return (aircraft_file.parent_path() / workspace.aircraft.model_file).string();
}

Flight flightOf(const load::Workspace& workspace, std::shared_ptr<const path::Path> path) {
    Flight flight;
    flight.path = std::move(path);
    flight.title = workspace.routine.name;
    flight.site = workspace.site;
    flight.origin = workspace.site.show_centre;
    flight.start_utc_s = earth::parseUtc(workspace.site.show_time_utc);
    flight.model = {modelFileOf(workspace), workspace.aircraft.model_nose,
                    workspace.aircraft.model_up, workspace.aircraft.geometry.span_m};
    return flight;
}

std::optional<double> startOf(const record::ImportedTrack& track) {
    const std::optional<double> whole_s = earth::parseUtc(track.start_utc);
    if (!whole_s) return std::nullopt;
    // The clock counts from midnight and has the fractions.
    return 86400 * std::floor(*whole_s / 86400) + track.path.clock_offset_s;
}

Flight flightOf(record::ImportedTrack track, const std::optional<data::Site>& site,
                const std::string& title) {
    Flight flight;
    flight.title = title;
    flight.start_utc_s = startOf(track);
    flight.site = site;
    // One in metres is taken to be in the site's axes.
    flight.origin = site ? std::optional(site->show_centre) : track.origin;
    flight.path = std::make_shared<path::Path>(site ? record::inSite(std::move(track), *site)
                                                    : std::move(track.path));
    return flight;
}

}  // namespace plumbline::out

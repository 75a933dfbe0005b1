// plumbline sighting: the workshop's sheet for the wing-tip sighting frame.

#include "engine/sheets/sighting.h"

#include <cstdio>

#include "engine/cli/commands.h"
#include "engine/cli/logs.h"
#include "engine/cli/sheets.h"
#include "engine/fly/world.h"
#include "engine/page/font_files.h"
#include "engine/record/in_site.h"
#include "engine/sheets/wording.h"
#include "engine/units/units.h"

namespace plumbline::cli {

namespace {

constexpr double kMiddle_m = 200;  // chosen: where verticals are, for the day's wind

/// Of the flight, or nothing where it has no such verticals.
Expected<std::optional<review::ZeroLift>, Problems> zeroLiftIn(
    const std::vector<std::string>& names, const load::Workspace& workspace) {
    Expected<Logs, Problems> logs = openLogs(names);
    if (!logs) return Unexpected(std::move(logs).error());
    Expected<record::ImportedTrack, Problems> track =
        record::readRecordings(logs->named(), wishesOf("sighting"));
    if (!track) return Unexpected(std::move(track).error());
    const path::Path flight = record::inSite(std::move(*track), workspace.site);
    const earth::SiteAir air(workspace.site.show_centre.elevation_m,
                             workspace.weather.temperature_k, workspace.weather.qnh_pa);
    const Vec3 wind = fly::windOf(workspace.weather, workspace.site).at(kMiddle_m);
    return review::zeroLiftOf(flight, workspace.aircraft, air, wind);
}

}  // namespace

int runSighting(const Arguments& arguments) {
    OptionParser parser(
        "sighting",
        "Writes a 1:1 sheet for the workshop: angles and lengths of the sighting frame on the wing "
        "tips, from the aircraft of a routine; with --flight by the zero-lift axis that a flight's "
        "verticals tell.",
        "plumbline sighting evening.routine.toml --flight morning.csv -o frame.pdf");
    RoutineOptions options;
    SheetOptions sheets;
    std::vector<std::string> flight;
    std::string output;
    parser.app()
        .add_option("ROUTINE", options.routine, "its aircraft, site and weather are used; demo")
        ->required();
    parser.app()
        .add_option("--flight", flight, "recordings of one flight by this aircraft")
        ->type_name("LOG")
        ->expected(1, 100);
    parser.app()
        .add_option("-o,--output", output, "the sheet, as PDF")
        ->type_name("FILE")
        ->required();
    addPaperOptions(parser.app(), sheets);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    const Expected<load::Workspace, Problems> workspace = loadRoutine(options);
    if (!workspace) return refuse(workspace.error());
    const Expected<page::Fonts, Problems> fonts = page::openFonts(sheets.fonts);
    if (!fonts) return refuse(fonts.error());
    std::optional<review::ZeroLift> told;
    if (!flight.empty()) {
        const auto found = zeroLiftIn(flight, *workspace);
        if (!found) return refuse(found.error());
        if (!*found)
            return refuse(
                flight.front(),
                "it has no vertical without load from which the zero-lift axis could be told",
                "give a flight with attitude, loads and steady verticals, or leave --flight "
                "out");
        told = *found;
        if (const int refused = refuseOverwriting(output, flight)) return refused;
    }
    const auto pdf = sheets::sightingPdf(workspace->aircraft, told, "plan " + workspace->revision(),
                                         {paperOf(sheets), &*fonts});
    if (!pdf) return refuse(output, "the page cannot be made: " + pdf.error(), "report this");
    if (const int failed = writeResult(output, *pdf)) return failed;
    if (told)
        std::fprintf(
            output == "-" ? stderr : stdout,
            "zero-lift incidence %s deg, from %d verticals; the aircraft file has %s deg\n",
            sheets::within(told->aoa_rad / units::kDegree_rad,
                           2 * told->sigma_rad / units::kDegree_rad, 1)
                .c_str(),
            told->verticals,
            sheets::number(workspace->aircraft.aero.zero_lift_aoa_rad / units::kDegree_rad, 1)
                .c_str());
    return kDone;
}

}  // namespace plumbline::cli

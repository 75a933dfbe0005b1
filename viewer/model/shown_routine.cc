#include "viewer/model/shown_routine.h"

#include <algorithm>
#include <array>
#include <utility>

#include "engine/check/check.h"
#include "engine/margins/look.h"
#include "engine/out/flight.h"
#include "viewer/model/picture_file.h"

namespace plumbline::model {
namespace {

constexpr double kDraftLook_hz = 5;  // chosen: heights within a decimetre (see margins/look)

std::shared_ptr<const data::Aircraft> placedAircraft(const load::Workspace& workspace) {
    auto aircraft = std::make_shared<data::Aircraft>(workspace.aircraft);
    aircraft->model_file = out::modelFileOf(workspace);
    return aircraft;
}

std::shared_ptr<const scene::World> worldOf(Shown& shown, std::uint64_t revision) {
    const data::Site& site = shown.workspace->site;
    std::shared_ptr<const scene::GroundPicture> aerial;
    if (site.aerial) {
        std::string reason;
        aerial = readAerial(*site.aerial, reason);
        if (!aerial) {
            shown.remarks.push_back("The aerial picture " + site.aerial->file +
                                    " cannot be used (" + reason +
                                    "): the ground shown is invented");
        }
    }
    return scene::makeWorld(site, shown.workspace->weather, revision, aerial);
}

}  // namespace

/// "2026-06-27T17:40:00Z" -> "27 June 17:40 UTC"; empty for anything else.
std::string dayAndTime(const std::string& utc) {
    constexpr std::array<const char*, 12> kMonths{"January",   "February", "March",    "April",
                                                  "May",       "June",     "July",     "August",
                                                  "September", "October",  "November", "December"};
    if (utc.size() < 17 || utc[4] != '-' || utc[7] != '-' || utc[10] != 'T') return {};
    if (utc.back() != 'Z') return {};
    const int month = (utc[5] - '0') * 10 + (utc[6] - '0');
    if (month < 1 || month > 12) return {};
    std::string day = utc.substr(8, 2);
    if (day[0] == '0') day.erase(0, 1);
    return day + ' ' + kMonths[static_cast<std::size_t>(month - 1)] + ' ' + utc.substr(11, 5) +
           " UTC";
}

void fillFromPath(Shown& shown) {
    shown.lanes = makeLaneData(shown.path());
    shown.outline = makeOutline(shown.path(), shown.workspace ? &shown.workspace->routine : nullptr,
                                shown.findings);
}

namespace {

/// All that does not need checks.
std::shared_ptr<Shown> makeShown(variant::Flown flown, std::shared_ptr<const path::Path> path,
                                 std::uint64_t revision, const Shown* before) {
    auto shown = std::make_shared<Shown>();
    shown->revision = revision;
    shown->variant = std::move(flown.label);
    shown->remarks = std::move(flown.remarks);
    shown->raised_m = flown.raised_m;
    shown->solution = std::move(flown.solution);
    const auto workspace = std::make_shared<const load::Workspace>(std::move(flown.workspace));
    shown->workspace = workspace;
    shown->title = workspace->routine.name;
    shown->subject = season::aboutRoutine(shown->title);
    if (!workspace->routine.music_file.empty()) {
        shown->music_file = workspace->routine_path.parent_path() / workspace->routine.music_file;
        shown->music_start_s = workspace->routine.music_start_s;
    }
    shown->place = workspace->site.name;
    shown->when = dayAndTime(workspace->site.show_time_utc);
    shown->source.path = std::move(path);
    shown->source.aircraft = before ? before->source.aircraft : placedAircraft(*workspace);
    shown->source.world = before ? before->source.world : worldOf(*shown, revision);
    shown->source.glide =
        before ? before->source.glide
               : std::make_shared<const check::Glide>(workspace->aircraft, workspace->site,
                                                      workspace->weather, workspace->pilot);
    shown->source.shape = scene::makeShape(shown->path());
    shown->source.slot_s = workspace->routine.slot_s;
    double wind_mps = 0;
    if (!workspace->weather.wind.empty()) {
        const data::WindLayer& low = workspace->weather.wind.front();
        wind_mps = low.speed_mps;
        // Bearings run clockwise from north, angles in site axes the other way from +x.
        shown->wind_to_rad = workspace->site.show_line_bearing_rad - (low.from_rad + kPi);
    }
    shown->wind_mps = wind_mps;
    return shown;
}

/// By how much a figure begins later than before; 0 for one that is not in both.
double laterBy_s(const path::Path& path, const path::Path& before, const std::string& figure) {
    const auto startOf = [&figure](const path::Path& in) -> const path::Figure* {
        const auto found = std::find_if(in.figures.begin(), in.figures.end(),
                                        [&](const path::Figure& f) { return f.name == figure; });
        return found == in.figures.end() ? nullptr : &*found;
    };
    const path::Figure* now = startOf(path);
    const path::Figure* was = startOf(before);
    return now && was ? now->start_s - was->start_s : 0;
}

}  // namespace

std::shared_ptr<Shown> showRoutine(variant::Flown flown, std::shared_ptr<const path::Path> path,
                                   std::uint64_t revision, const Shown* before) {
    auto shown = makeShown(std::move(flown), std::move(path), revision, before);
    const load::Workspace& workspace = *shown->workspace;
    shown->findings = check::checkRoutine(workspace.aircraft, workspace.site, workspace.weather,
                                          workspace.routine, shown->path(), shown->solution.notes(),
                                          workspace.pilot, workspace.rules);
    auto gates = std::make_shared<const std::vector<check::Gate>>(check::gatesOf(
        workspace.aircraft, workspace.site, workspace.pilot, shown->solution, shown->path()));
    check::addFindings(shown->findings, check::checkGates(*gates, shown->path()));
    shown->source.gates = std::move(gates);
    shown->reaches = check::reachAlong(*shown->source.glide, shown->path(), check::kReachEvery_s);
    if (shown->reaches.front().strip.empty()) shown->reaches.clear();
    fillFromPath(*shown);
    return shown;
}

std::shared_ptr<Shown> draftRoutine(variant::Flown flown, std::shared_ptr<const path::Path> path,
                                    std::uint64_t revision, const Shown* before) {
    auto shown = makeShown(std::move(flown), std::move(path), revision, before);
    shown->draft = true;
    // A draft's own samples are too few for the checks; these cost two milliseconds.
    const load::Workspace& workspace = *shown->workspace;
    shown->findings =
        check::checkRoutine(workspace.aircraft, workspace.site, workspace.weather,
                            workspace.routine, margins::lookAt(shown->solution, kDraftLook_hz),
                            shown->solution.notes(), workspace.pilot, workspace.rules);
    if (before != nullptr) {
        shown->reaches = before->reaches;
        std::vector<check::Finding> of_gates;
        for (const check::Finding& finding : before->findings) {
            if (finding.kind != "gate") continue;
            of_gates.push_back(finding);
            of_gates.back().time_s += laterBy_s(shown->path(), before->path(), finding.figure);
        }
        check::addFindings(shown->findings, std::move(of_gates));
        if (before->source.gates) {
            auto gates = std::make_shared<std::vector<check::Gate>>(*before->source.gates);
            for (check::Gate& gate : *gates) {
                gate.time_s += laterBy_s(shown->path(), before->path(), gate.figure);
            }
            shown->source.gates = std::move(gates);
        }
    }
    fillFromPath(*shown);
    return shown;
}

}  // namespace plumbline::model

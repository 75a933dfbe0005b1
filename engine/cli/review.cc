// plumbline review: a recorded flight against its plan.

#include "engine/review/review.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include <nlohmann/json.hpp>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/commands.h"
#include "engine/cli/logs.h"
#include "engine/cli/options.h"
#include "engine/cli/table.h"
#include "engine/record/in_site.h"
#include "engine/review/load_book.h"
#include "engine/units/units.h"

namespace plumbline::cli {

namespace {

constexpr double kPlanRate_hz = 50;
constexpr std::size_t kWorst = 3;
using Json = nlohmann::ordered_json;

std::string degrees(double angle_rad) { return formatFixed(angle_rad / units::kDegree_rad, 1); }

/// "+- 0.8", or that it is not known.
std::string doubt(double sigma_rad) {
    return sigma_rad > 0 ? "+- " + degrees(2 * sigma_rad) : "not told";
}

std::string signedSeconds(double time_s) {
    return (time_s > 0 ? "+" : "") + formatFixed(time_s, 1) + " s";
}

void printFigures(const review::Review& review, units::DisplayUnits units) {
    std::vector<std::vector<std::string>> rows = {
        {"figure", "at", "late", "lowest", "planned", "entry", "planned", "loads", "planned"}};
    const auto loads = [](double least, double most) {
        return formatFixed(least, 1) + ".." + formatFixed(most, 1) + " g";
    };
    for (const review::FigureReview& f : review.figures)
        rows.push_back(
            {f.name + (f.out_of_order ? " (out of order)" : ""), units::formatTime(f.start_s),
             signedSeconds(f.late_s), units::formatHeight(f.lowest_m.flown, units),
             units::formatHeight(f.lowest_m.planned, units),
             units::formatSpeed(f.entry_mps.flown, units),
             units::formatSpeed(f.entry_mps.planned, units), loads(f.least_g.flown, f.most_g.flown),
             loads(f.least_g.planned, f.most_g.planned)});
    printTable(stdout, rows);
    for (const std::string& name : review.missing)
        std::printf("%s: not found in the flight\n", name.c_str());
    std::puts("");
}

void printLines(const review::Review& review) {
    if (review.lines.empty()) return;
    std::vector<std::vector<std::string>> rows = {{"line, in degrees", "off", "95 in 100 within",
                                                   "to canopy", "to right", "steady", "points"}};
    for (const review::Review::Line& line : review.lines) {
        const review::LineMeasure& m = line.measure;
        rows.push_back({line.figure + ": " + line.name, degrees(m.off_rad), doubt(m.sigma_rad),
                        degrees(m.pitch_rad), degrees(m.yaw_rad), degrees(m.steady_rad),
                        formatFixed(review::pointsFor(m.off_rad), 1)});
    }
    printTable(stdout, rows);
    std::puts(
        "Attitude of the zero-lift axis; points of ten, 1 for each 5 deg (BAeA judging notes, CIVA "
        "criteria).\n");
}

void printRest(const review::Review& review, units::DisplayUnits units) {
    for (const review::SlideReview& slide : review.slides)
        std::printf("%s: slide of %s (planned %s), %s tail first at most (planned %s)\n",
                    slide.figure.c_str(), units::formatHeight(slide.way_m.flown, units).c_str(),
                    units::formatHeight(slide.way_m.planned, units).c_str(),
                    units::formatSpeed(slide.fastest_mps.flown, units).c_str(),
                    units::formatSpeed(slide.fastest_mps.planned, units).c_str());
    for (const std::string& note : review.notes) std::printf("%s\n", note.c_str());
    if (review.remarks.empty()) {
        std::puts("nothing to mend that this recording can show");
        return;
    }
    std::puts("most worth mending:");
    for (std::size_t i = 0; i < std::min(kWorst, review.remarks.size()); ++i) {
        const review::Remark& remark = review.remarks[i];
        std::printf("  %s  %s: %s\n", units::formatTime(remark.time_s).c_str(),
                    remark.figure.c_str(), remark.words.c_str());
    }
}

void printCrewSheet(const review::CrewSheet& sheet, const review::LoadBook& book,
                    const path::Known& known, units::DisplayUnits units) {
    std::printf("for the crew: %s flown", units::formatTime(sheet.flown_s).c_str());
    if (known.airspeed) {
        std::printf(", fastest %s", units::formatSpeed(sheet.fastest_mps, units).c_str());
        if (sheet.beyond_never_exceed_s > 0)
            std::printf(" (beyond VNE for %s s)",
                        formatFixed(sheet.beyond_never_exceed_s, 1).c_str());
    }
    if (known.power)
        std::printf(", full power for %s", units::formatTime(sheet.full_power_s).c_str());
    if (known.fuel) std::printf(", fuel used %s kg", formatFixed(sheet.fuel_kg, 0).c_str());
    std::puts("");
    if (!known.load) return;
    std::printf("loads: %s to %s g, quickest gain %s g/s", formatFixed(book.least_g, 1).c_str(),
                formatFixed(book.most_g, 1).c_str(), formatFixed(book.quickest_gps, 0).c_str());
    if (!book.push_pulls.empty()) std::printf(", push then pull %zu times", book.push_pulls.size());
    std::printf("; cycles by range (rainflow, ASTM E1049):");
    for (const review::Cycle& cycle : book.cycles)
        std::printf(" %s g: %s", formatFixed(cycle.range, 0).c_str(),
                    formatFixed(cycle.count, 1).c_str());
    std::puts("");
}

void printPieces(const std::vector<review::Piece>& pieces) {
    for (const review::Piece& piece : pieces)
        std::printf("  %s  %s\n", units::formatTime(piece.start_s).c_str(),
                    review::wordsOf(piece).c_str());
}

Json jsonOf(const review::Beside& beside) {
    return {{"flown", beside.flown}, {"planned", beside.planned}};
}

Json jsonOf(const review::CrewSheet& sheet, const path::Known& known) {
    Json json = {{"flown_s", sheet.flown_s}, {"fastest_back_mps", sheet.fastest_back_mps}};
    if (known.airspeed) {
        json["fastest_calibrated_mps"] = sheet.fastest_mps;
        json["beyond_never_exceed_s"] = sheet.beyond_never_exceed_s;
        json["overspeed_s"] = sheet.overspeed_s;
    }
    if (known.power) json["full_power_s"] = sheet.full_power_s;
    if (known.fuel) json["fuel_kg"] = sheet.fuel_kg;
    return json;
}

Json jsonOf(const review::LoadBook& book) {
    Json levels = Json::array(), cycles = Json::array(), exposures = Json::array();
    for (const review::LoadLevel& level : book.levels)
        levels.push_back(
            {{"load_g", level.load_g}, {"beyond_s", level.beyond_s}, {"times", level.times}});
    for (const review::Cycle& cycle : book.cycles)
        cycles.push_back(
            {{"range_g", cycle.range}, {"mean_g", cycle.mean}, {"count", cycle.count}});
    for (const review::PushPull& p : book.push_pulls)
        exposures.push_back({{"time_s", p.time_s}, {"least_g", p.least_g}, {"most_g", p.most_g}});
    return {{"most_g", book.most_g},
            {"least_g", book.least_g},
            {"quickest_gain_gps", book.quickest_gps},
            {"levels", levels},
            {"push_then_pull", exposures},
            {"cycles", cycles}};
}

void printJson(const review::Review& review, const std::string& plan,
               const review::CrewSheet& sheet, const review::LoadBook& book,
               const path::Known& known) {
    Json figures = Json::array(), lines = Json::array(), rolls = Json::array(),
         slides = Json::array(), remarks = Json::array();
    for (const review::FigureReview& f : review.figures)
        figures.push_back({{"figure", f.name},
                           {"out_of_order", f.out_of_order},
                           {"start_s", f.start_s},
                           {"stop_s", f.stop_s},
                           {"planned_start_s", f.planned_start_s},
                           {"late_s", f.late_s},
                           {"lowest_m", jsonOf(f.lowest_m)},
                           {"highest_m", jsonOf(f.highest_m)},
                           {"entry_mps", jsonOf(f.entry_mps)},
                           {"most_g", jsonOf(f.most_g)},
                           {"least_g", jsonOf(f.least_g)},
                           {"from_crowd_line_m", jsonOf(f.nearest_y_m)},
                           {"place_sigma_m", f.place_sigma_m}});
    for (const review::Review::Line& line : review.lines) {
        const review::LineMeasure& m = line.measure;
        lines.push_back({{"figure", line.figure},
                         {"line", line.name},
                         {"start_s", m.start_s},
                         {"stop_s", m.stop_s},
                         {"true_deg", m.climb_rad / units::kDegree_rad},
                         {"off_deg", m.off_rad / units::kDegree_rad},
                         {m.vertical() ? "along_show_line_deg" : "steeper_deg",
                          m.along_rad / units::kDegree_rad},
                         {m.vertical() ? "towards_crowd_deg" : "to_right_deg",
                          m.across_rad / units::kDegree_rad},
                         {"pitch_deg", m.pitch_rad / units::kDegree_rad},
                         {"yaw_deg", m.yaw_rad / units::kDegree_rad},
                         {"steady_deg", m.steady_rad / units::kDegree_rad},
                         {"path_deg", m.path_rad / units::kDegree_rad},
                         {"sigma_deg", m.sigma_rad / units::kDegree_rad},
                         {"before_roll_m", m.before_roll_m},
                         {"after_roll_m", m.after_roll_m},
                         {"points", review::pointsFor(m.off_rad)}});
    }
    for (const review::Review::RolledLine& roll : review.rolls)
        rolls.push_back({{"figure", roll.figure},
                         {"line", roll.name},
                         {"start_s", roll.measure.start_s},
                         {"flown_deg", roll.measure.angle_rad / units::kDegree_rad},
                         {"planned_deg", roll.measure.planned_rad / units::kDegree_rad},
                         {"rate_degps", roll.measure.rate_radps / units::kDegree_rad}});
    for (const review::SlideReview& slide : review.slides)
        slides.push_back({{"figure", slide.figure},
                          {"start_s", slide.start_s},
                          {"way_m", jsonOf(slide.way_m)},
                          {"fastest_mps", jsonOf(slide.fastest_mps)}});
    for (const review::Remark& remark : review.remarks)
        remarks.push_back({{"weight", remark.weight},
                           {"time_s", remark.time_s},
                           {"figure", remark.figure},
                           {"what", remark.words}});
    const Json report = {{"plan", plan},
                         {"figures", figures},
                         {"missing", review.missing},
                         {"lines", lines},
                         {"rolls", rolls},
                         {"slides", slides},
                         {"crew", jsonOf(sheet, known)},
                         {"loads", known.load ? jsonOf(book) : Json()},
                         {"to_mend", remarks},
                         {"notes", review.notes},
                         {"caution", check::caution()}};
    std::printf("%s\n", report.dump(2, ' ', false, Json::error_handler_t::replace).c_str());
}

/// Without a plan: what was flown, piece by piece.
int tellPieces(const std::string& name, const path::Path& path, bool json) {
    const std::vector<review::Piece> pieces = review::piecesOf(path);
    if (pieces.empty())
        return refuse(name, "this recording does not tell the attitude, and figures are told by it",
                      "give it the log with rates and accelerations, or with attitude");
    if (!json) {
        printPieces(pieces);
        std::puts("give --plan ROUTINE to measure it against its plan");
        return kDone;
    }
    Json list = Json::array();
    for (const review::Piece& piece : pieces)
        list.push_back({{"start_s", piece.start_s},
                        {"stop_s", piece.stop_s},
                        {"motion", review::motionWord(piece.motion)},
                        {"what", review::wordsOf(piece)}});
    const Json report = {{"pieces", list}, {"caution", check::caution()}};
    std::printf("%s\n", report.dump(2).c_str());
    return kDone;
}

}  // namespace

int runReview(const Arguments& arguments) {
    OptionParser parser(
        "review",
        "Finds a routine's figures in a recorded flight and measures them: lines, rolls, slides, "
        "heights, speeds, loads, times; and what is most worth mending.",
        "plumbline review morning.csv --plan evening.routine.toml");
    std::vector<std::string> names;
    RoutineOptions plan;
    bool json = false;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    parser.app()
        .add_option("LOG", names, "recordings of one flight, or the path CSV that import wrote")
        ->required();
    parser.app()
        .add_option("--plan", plan.routine,
                    "the routine that was to be flown; demo: the built-in one")
        ->type_name("ROUTINE");
    addVariantOptions(parser.app(), plan.variant);
    parser.app().add_flag("--json", json, "everything measured as JSON, SI units and degrees");
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    Expected<Logs, Problems> logs = openLogs(names);
    if (!logs) return refuse(logs.error());
    Expected<record::ImportedTrack, Problems> track =
        record::readRecordings(logs->named(), wishesOf("review"));
    if (!track) return refuse(track.error());
    if (plan.routine.empty()) return tellPieces(names.front(), track->path, json);
    const Expected<variant::Flown, Problems> flown = flyRoutine(plan, units);
    if (!flown) return refuse(flown.error());
    const load::Workspace& workspace = flown->workspace;
    printProblems(track->warnings);
    printRemarks(plan.routine, flown->remarks);
    const path::Path flight = record::inSite(std::move(*track), workspace.site);
    const path::Path planned = flown->solution.samplePath(kPlanRate_hz);
    const review::Review review =
        review::reviewFlight(flight, planned, workspace.aircraft, workspace.site);
    const earth::SiteAir air(workspace.site.show_centre.elevation_m,
                             workspace.weather.temperature_k, workspace.weather.qnh_pa);
    const review::CrewSheet sheet = review::crewSheetOf(flight, workspace.aircraft.limits, air);
    const review::LoadBook book = review::loadBookOf(flight);
    if (json) {
        printJson(review, workspace.routine.name, sheet, book, flight.known);
    } else {
        printFigures(review, units);
        printLines(review);
        printRest(review, units);
        printCrewSheet(sheet, book, flight.known, units);
        std::puts(check::caution());
    }
    return !review.remarks.empty() && review.remarks.front().weight >= 1 ? kDoneWithFindings
                                                                         : kDone;
}

}  // namespace plumbline::cli

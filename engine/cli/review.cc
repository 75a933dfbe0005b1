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

void printPieces(const std::vector<review::Piece>& pieces) {
    for (const review::Piece& piece : pieces)
        std::printf("  %s  %s\n", units::formatTime(piece.start_s).c_str(),
                    review::wordsOf(piece).c_str());
}

Json jsonOf(const review::Beside& beside) {
    return {{"flown", beside.flown}, {"planned", beside.planned}};
}

void printJson(const review::Review& review, const std::string& plan) {
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
    const Json report = {
        {"plan", plan},       {"figures", figures},    {"missing", review.missing},
        {"lines", lines},     {"rolls", rolls},        {"slides", slides},
        {"to_mend", remarks}, {"notes", review.notes}, {"caution", check::caution()}};
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
    if (json) {
        printJson(review, workspace.routine.name);
    } else {
        printFigures(review, units);
        printLines(review);
        printRest(review, units);
        std::puts(check::caution());
    }
    return !review.remarks.empty() && review.remarks.front().weight >= 1 ? kDoneWithFindings
                                                                         : kDone;
}

}  // namespace plumbline::cli

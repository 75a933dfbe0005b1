// plumbline review: a recorded flight against its plan.

#include "engine/review/review.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <span>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/commands.h"
#include "engine/cli/logs.h"
#include "engine/cli/options.h"
#include "engine/cli/sheets.h"
#include "engine/cli/table.h"
#include "engine/record/in_site.h"
#include "engine/review/alone.h"
#include "engine/review/line_words.h"
#include "engine/review/load_book.h"
#include "engine/review/review_json.h"
#include "engine/review/tops.h"
#include "engine/units/measured.h"
#include "engine/units/units.h"

namespace plumbline::cli {

namespace {

constexpr std::size_t kWorst = 3;

std::string degrees(double angle_rad) { return formatFixed(angle_rad / units::kDegree_rad, 1); }

/// "2.1 +- 0.8"; without a doubt that is told the number alone.
std::string measured(double value, double sigma, int decimals, bool with_plus = false) {
    return measuredText(value, 2 * sigma, {decimals, with_plus, Signs::Plain});
}
std::string knownDegrees(double angle_rad, double sigma_rad) {
    return measured(angle_rad / units::kDegree_rad, sigma_rad / units::kDegree_rad, 1);
}
std::string knownHeight(double height_m, double sigma_m, units::DisplayUnits units) {
    return units::measuredHeight(height_m, 2 * sigma_m, units, Signs::Plain).joined();
}
std::string knownSpeed(double speed_mps, double sigma_mps, units::DisplayUnits units) {
    return units::measuredSpeed(speed_mps, 2 * sigma_mps, units, Signs::Plain).joined();
}

void printFigures(const review::Review& review, units::DisplayUnits units) {
    std::vector<std::vector<std::string>> rows = {
        {"figure", "at", "late", "lowest", "planned", "entry", "planned", "loads", "planned"}};
    const auto loads = [](double least, double least_sigma, double most, double most_sigma) {
        return measured(least, least_sigma, 1) + " to " + measured(most, most_sigma, 1) + " g";
    };
    for (const review::FigureReview& f : review.figures)
        rows.push_back({f.name + (f.out_of_order ? " (out of order)" : ""),
                        units::formatTime(f.start_s),
                        measured(f.late_s, f.late_sigma_s, 1, true) + " s",
                        knownHeight(f.lowest_m.flown, f.place_sigma_m, units),
                        units::formatHeight(f.lowest_m.planned, units),
                        knownSpeed(f.entry_mps.flown, f.entry_sigma_mps, units),
                        units::formatSpeed(f.entry_mps.planned, units),
                        loads(f.least_g.flown, f.least_sigma_g, f.most_g.flown, f.most_sigma_g),
                        loads(f.least_g.planned, 0, f.most_g.planned, 0)});
    if (rows.size() > 1) printTable(stdout, rows);
    for (const std::string& name : review.missing)
        if (!review.unlike_plan && std::find(review.beyond_part.begin(), review.beyond_part.end(),
                                             name) == review.beyond_part.end())
            std::printf("%s: not found in the flight\n", name.c_str());
    std::puts("");
}

void printLines(const review::Review& review) {
    if (review.lines.empty()) return;
    std::vector<std::vector<std::string>> rows = {{"line, in degrees", "off", "to canopy",
                                                   "to right", "steady", "points", "judge sees",
                                                   "crowd sees", "before, after its roll"}};
    const auto seen = [](const std::optional<review::Seen>& s) {
        if (!s) return std::string();
        std::string words = knownDegrees(s->from_vertical_rad, s->sigma_rad);
        if (s->true_from_vertical_rad > 0)
            words += " (true " + degrees(s->true_from_vertical_rad) + ")";
        return words;
    };
    const auto aroundRolls = [](const review::Review::Line& line) {
        const review::LineMeasure& m = line.measure;
        if (m.before_roll_m + m.after_roll_m <= 0) return std::string();
        std::string words = measured(m.before_roll_m, m.beside_roll_sigma_m, 0) + ", " +
                            measured(m.after_roll_m, m.beside_roll_sigma_m, 0) + " m";
        if (line.planned_before_roll_m + line.planned_after_roll_m > 0)
            words += " (planned " + formatFixed(line.planned_before_roll_m, 0) + ", " +
                     formatFixed(line.planned_after_roll_m, 0) + ")";
        return words;
    };
    for (const review::Review::Line& line : review.lines) {
        const review::LineMeasure& m = line.measure;
        rows.push_back({line.figure + ": " + line.name, knownDegrees(m.off_rad, m.sigma_rad),
                        knownDegrees(m.pitch_rad, m.sigma_rad),
                        knownDegrees(m.yaw_rad, m.sigma_rad),
                        knownDegrees(m.steady_rad, m.steady_sigma_rad),
                        review::deductionText(m, review.points_for_5_deg), seen(line.from_judge),
                        seen(line.from_crowd), aroundRolls(line)});
    }
    printTable(stdout, rows);
    std::printf(
        "Attitude of the zero-lift axis; points of ten, %s; +- holds 95 in 100.\nAs seen: from the "
        "vertical in the "
        "eye's picture; true: how a true line would look from there.\n\n",
        review::deductionWords(review.points_for_5_deg).c_str());
}

void printArcs(const review::Review& review) {
    const auto percent = [](double share, double sigma) {
        return measured(100 * share, 100 * sigma, 0) + " %";
    };
    std::vector<std::vector<std::string>> rows = {
        {"half loops and more", "radius", "planned", "unround", "planned", "as seen"}};
    for (const review::Review::Arc& arc : review.arcs)
        rows.push_back(
            {arc.figure + ": " + arc.name,
             measured(arc.flown.radius_m, arc.flown.radius_sigma_m, 0) + " m",
             formatFixed(arc.planned.radius_m, 0) + " m",
             percent(arc.flown.unround, arc.flown.unround_sigma), percent(arc.planned.unround, 0),
             arc.flown.seen_unround ? percent(*arc.flown.seen_unround, arc.flown.seen_sigma)
                                    : "not from the side"});
    if (rows.size() > 1) {
        printTable(stdout, rows);
        std::puts(
            "Unround: greatest less least radius, of the radius; as seen from the judge's seat, "
            "else "
            "from the crowd line.\n");
    }
    for (const review::Review::Pivot& pivot : review.pivots)
        std::printf(
            "%s: pivot goes %s half spans aside over the ground, wind included (planned %s)\n",
            pivot.figure.c_str(), measured(pivot.half_spans.flown, pivot.sigma, 1).c_str(),
            formatFixed(pivot.half_spans.planned, 1).c_str());
}

void printRest(const review::Review& review, units::DisplayUnits units) {
    for (const review::Review::Turning& t : review.turnings) {
        std::printf("%s: %s of %s turns", t.figure.c_str(), review::motionWord(t.motion),
                    measured(t.flown.turns, t.flown.turns_sigma, 1).c_str());
        if (review.with_plan) std::printf(" (planned %s)", formatFixed(t.planned.turns, 1).c_str());
        if (t.too_far_rad)
            std::printf(", stopped %s deg %s",
                        knownDegrees(std::fabs(*t.too_far_rad), t.flown.heading_sigma_rad).c_str(),
                        *t.too_far_rad < 0 ? "short" : "too far");
        const bool gained = t.flown.height_lost_m < 0;
        std::printf(
            ", %s of height %s",
            knownHeight(std::fabs(t.flown.height_lost_m), t.flown.height_sigma_m, units).c_str(),
            gained ? "gained" : "lost");
        if (review.with_plan)
            std::printf(" (planned %s)",
                        units::formatHeight(t.planned.height_lost_m, units).c_str());
        std::puts("");
    }
    for (const review::TopReview& top : review.tops)
        std::printf("%s: top at %s (planned %s), gate %s\n", top.figure.c_str(),
                    knownHeight(top.height_m.flown, top.sigma_m, units).c_str(),
                    units::formatHeight(top.height_m.planned, units).c_str(),
                    units::formatHeight(top.gate_m, units).c_str());
    for (const review::SlideReview& slide : review.slides)
        std::printf("%s: slide of %s (planned %s), %s tail first at most (planned %s)\n",
                    slide.figure.c_str(),
                    knownHeight(slide.way_m.flown, slide.way_sigma_m, units).c_str(),
                    units::formatHeight(slide.way_m.planned, units).c_str(),
                    knownSpeed(slide.fastest_mps.flown, slide.fastest_sigma_mps, units).c_str(),
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
        std::printf(", fastest %s",
                    knownSpeed(sheet.fastest_mps, sheet.fastest_sigma_mps, units).c_str());
        if (sheet.beyond_never_exceed_s > 0)
            std::printf(" (beyond VNE for %s s)",
                        measured(sheet.beyond_never_exceed_s, sheet.beyond_never_exceed_sigma_s, 1)
                            .c_str());
    }
    if (known.power)
        std::printf(", full power for %s", units::formatTime(sheet.full_power_s).c_str());
    if (known.fuel) std::printf(", fuel used %s kg", formatFixed(sheet.fuel_kg, 0).c_str());
    std::puts("");
    if (!known.load) return;
    std::printf("loads: %s to %s g, quickest gain %s g/s",
                measured(book.least_g, book.least_sigma_g, 1).c_str(),
                measured(book.most_g, book.most_sigma_g, 1).c_str(),
                measured(book.quickest_gps, book.quickest_sigma_gps, 0).c_str());
    if (!book.push_pulls.empty()) std::printf(", push then pull %zu times", book.push_pulls.size());
    std::printf("; cycles by range (rainflow, ASTM E1049):");
    for (const review::Cycle& cycle : book.cycles)
        std::printf(" %s g: %s", formatFixed(cycle.range, 0).c_str(),
                    formatFixed(cycle.count, 1).c_str());
    std::puts("");
}

void printPieces(std::span<const review::Piece> pieces) {
    for (const review::Piece& piece : pieces)
        std::printf("  %s  %s\n", units::formatTime(piece.start_s).c_str(),
                    review::wordsOf(piece).c_str());
}

/// Without a plan: what was flown, figure by figure and piece by piece.
int tellPieces(const std::string& name, const path::Path& path, bool json) {
    const std::vector<review::Piece> pieces = review::piecesOf(path);
    if (pieces.empty())
        return refuse(name, "this recording does not tell the attitude, and figures are told by it",
                      "give it the log with rates and accelerations, or with attitude");
    const review::Review review = review::reviewAlone(path, 0, 0, {}, review::shelfFigures());
    if (!json) {
        std::size_t next = 0;
        for (const review::FigureReview& figure : review.figures) {
            const auto before = [&](const review::Piece& p) { return p.start_s < figure.start_s; };
            const auto inside = [&](const review::Piece& p) { return p.start_s < figure.stop_s; };
            std::size_t end = next;
            while (end < pieces.size() && before(pieces[end])) ++end;
            printPieces({pieces.data() + next, end - next});
            std::printf("%s  %s\n", units::formatTime(figure.start_s).c_str(), figure.name.c_str());
            for (next = end; end < pieces.size() && inside(pieces[end]);) ++end;
            printPieces({pieces.data() + next, end - next});
            next = end;
        }
        printPieces({pieces.data() + next, pieces.size() - next});
        if (review.figures.empty())
            std::puts("no figures: level flight, turns, climbs and descents only");
        std::puts("give --plan ROUTINE to measure it against its plan");
        return kDone;
    }
    std::printf("%s\n", review::piecesJson(review.figures, pieces).c_str());
    return kDone;
}

std::vector<std::string_view> logBytes(const Logs& logs) {
    std::vector<std::string_view> bytes;
    for (const system::MappedFile& file : logs.files) bytes.push_back(file.bytes());
    return bytes;
}

}  // namespace

int runReview(const Arguments& arguments) {
    OptionParser parser(
        "review",
        "Finds a routine's figures in a recorded flight and measures them: lines, rolls, slides, "
        "heights, speeds, loads, times; and what is most worth mending.",
        "plumbline review morning.csv --plan evening.routine.toml -o debrief");
    std::vector<std::string> names;
    RoutineOptions plan;
    SheetOptions sheets;
    bool json = false;
    double points_for_5_deg = review::kUsualPoints;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    parser.app()
        .add_option("LOG", names, "recordings of one flight, or the path CSV that import wrote")
        ->required();
    parser.app()
        .add_option("--plan", plan.routine,
                    "the routine that was to be flown; demo: the built-in one")
        ->type_name("ROUTINE");
    addVariantOptions(parser.app(), plan.variant);
    parser.app()
        .add_option(
            "--points-for-5-deg", points_for_5_deg,
            "points of ten taken off for each 5 deg that a line, a roll or a spin is off: 1 "
            "by the BAeA judging notes after the CIVA criteria, 0.5 by a British gliding "
            "guide; default 1")
        ->check(CLI::Range(0.1, 5.0))
        ->type_name("POINTS");
    parser.app().add_flag("--json", json, "everything measured as JSON, SI units and degrees");
    addSheetOptions(parser.app(), sheets);
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    if (!sheets.folder.empty() && plan.routine.empty())
        return refuse("-o", "a debrief is of a flight against its plan", "add --plan ROUTINE");

    Expected<Logs, Problems> logs = openLogs(names);
    if (!logs) return refuse(logs.error());
    Fingerprint log;
    if (!sheets.folder.empty())
        for (const system::MappedFile& file : logs->files) log.add(file.bytes());
    Expected<record::ImportedTrack, Problems> track =
        record::readRecordings(logs->named(), wishesOf("review"));
    if (!track) return refuse(track.error());
    if (plan.routine.empty()) return tellPieces(names.front(), track->path, json);
    const Expected<variant::Flown, Problems> flown = flyRoutine(plan, units);
    if (!flown) return refuse(flown.error());
    const load::Workspace& workspace = flown->workspace;
    printProblems(track->warnings);
    printRemarks(plan.routine, flown->remarks);
    const std::string start_utc = track->start_utc;
    const std::vector<std::string> notes = track->notes;
    const path::Path flight = record::inSite(std::move(*track), workspace.site);
    const path::Path planned = flown->solution.samplePath(review::kPlanRate_hz);
    review::Review review =
        review::reviewFlight(flight, planned, workspace.aircraft, workspace.site, points_for_5_deg);
    review::addTops(review, flight, planned,
                    check::gatesOf(workspace.aircraft, workspace.site, workspace.pilot,
                                   flown->solution, planned));
    if (!sheets.folder.empty())
        if (const int failed = writeSortie(sheets, {flight, planned, *flown, review, start_utc, log,
                                                    notes, units, logBytes(*logs)}))
            return failed;
    const earth::SiteAir air(workspace.site.show_centre.elevation_m,
                             workspace.weather.temperature_k, workspace.weather.qnh_pa);
    const review::CrewSheet sheet = review::crewSheetOf(flight, workspace.aircraft.limits, air);
    const review::LoadBook book = review::loadBookOf(flight);
    if (json) {
        std::printf(
            "%s\n",
            review::reviewJson(review, workspace.routine.name, sheet, book, flight.known).c_str());
    } else {
        printFigures(review, units);
        printLines(review);
        printArcs(review);
        printRest(review, units);
        printCrewSheet(sheet, book, flight.known, units);
        std::puts(check::caution());
    }
    return !review.remarks.empty() && review.remarks.front().weight >= 1 ? kDoneWithFindings
                                                                         : kDone;
}

}  // namespace plumbline::cli

#include "viewer/model/flight_review.h"

#include <algorithm>
#include <cmath>

#include "engine/base/measured_text.h"
#include "engine/base/number_text.h"
#include "engine/review/alone.h"
#include "engine/review/line_words.h"
#include "engine/review/tops.h"
#include "engine/units/units.h"
#include "viewer/model/document.h"

namespace plumbline::model {
namespace {

/// @param told  false: what it may be off only sets the digits
std::string angleWords(double angle_rad, double within_rad, bool told = true) {
    return (told ? measuredText : valueText)(angle_rad / units::kDegree_rad,
                                             within_rad / units::kDegree_rad, {1}) +
           "\u00B0";
}

void replaceAll(std::string& text, const std::string& from, const std::string& to) {
    for (std::size_t at = text.find(from); at != std::string::npos;
         at = text.find(from, at + to.size())) {
        text.replace(at, from.size(), to);
    }
}

std::string withCapital(std::string words) {
    if (!words.empty() && words[0] >= 'a' && words[0] <= 'z')
        words[0] = static_cast<char>(words[0] - 'a' + 'A');
    return words;
}

/// The flight's figures as rows of the sheet, in the order flown; without any, one of the whole.
std::vector<OutlineRow> rowsOf(const review::Review& review, const Shown& shown) {
    std::vector<OutlineRow> rows;
    for (const review::FigureReview& figure : review.figures) {
        OutlineRow row;
        row.name = figure.name;
        row.start_s = figure.start_s;
        row.stop_s = figure.stop_s;
        rows.push_back(std::move(row));
    }
    if (rows.empty()) {
        OutlineRow row;
        row.name = shown.title;
        row.stop_s = shown.path().duration_s();
        rows.push_back(std::move(row));
    }
    return rows;
}

/// The row that a moment belongs to.
std::int32_t rowOf(const std::vector<OutlineRow>& rows, const std::string& figure, double time_s) {
    std::int32_t found = -1;
    for (std::size_t i = 0; i < rows.size(); ++i) {
        if (rows[i].name != figure) continue;
        const bool inside = time_s >= rows[i].start_s - 0.01 && time_s <= rows[i].stop_s + 0.01;
        if (found < 0 || inside) found = static_cast<std::int32_t>(i);
    }
    return found;
}

/// What is to be mended as findings in the order of time: lane, keys and sheet take them from
/// there. What was not flown has no moment in the flight.
void fillFindings(const FlightReview& review, Shown& shown) {
    for (const ToMend& one : review.to_mend) {
        const bool missing = std::find(review.result.missing.begin(), review.result.missing.end(),
                                       one.figure) != review.result.missing.end() &&
                             rowOf(shown.outline, one.figure, one.time_s) < 0;
        if (missing) continue;
        check::Finding finding;
        finding.grade = one.weight >= 1 ? check::Grade::Tight : check::Grade::Note;
        finding.kind = withCapital(one.fault.substr(0, one.fault.find(", ")));
        finding.what = one.where.empty() ? one.fault : one.where + ": " + one.fault;
        finding.figure = one.figure;
        finding.time_s = one.time_s;
        shown.findings.push_back(std::move(finding));
    }
    std::stable_sort(
        shown.findings.begin(), shown.findings.end(),
        [](const check::Finding& a, const check::Finding& b) { return a.time_s < b.time_s; });
    for (std::size_t i = 0; i < shown.findings.size(); ++i) {
        std::int32_t row = rowOf(shown.outline, shown.findings[i].figure, shown.findings[i].time_s);
        if (row < 0) row = rowAt(shown.outline, shown.findings[i].time_s);
        if (row >= 0) {
            shown.outline[static_cast<std::size_t>(row)].findings.push_back(
                static_cast<std::int32_t>(i));
        }
    }
    for (OutlineRow& row : shown.outline) {
        std::stable_sort(row.findings.begin(), row.findings.end(),
                         [&](std::int32_t a, std::int32_t b) {
                             return shown.findings[static_cast<std::size_t>(a)].grade >
                                    shown.findings[static_cast<std::size_t>(b)].grade;
                         });
    }
}

/// Each line with its angle, what else is to be mended with its words.
std::vector<scene::PathNote> notesOf(const FlightReview& review) {
    std::vector<scene::PathNote> notes;
    for (const review::Review::Line& line : review.result.lines) {
        const review::LineMeasure& m = line.measure;
        const double climb_rad = m.vertical() ? 90 * units::kDegree_rad - m.off_rad
                                              : std::abs(m.climb_rad + m.along_rad);
        scene::PathNote note;
        note.time_s = 0.5 * (m.start_s + m.stop_s);
        note.text = std::string(m.climb_rad > 0 ? "Up " : "Down ") +
                    angleWords(climb_rad, within(m.sigma_rad));
        note.quiet = sureEnough(m) ? lineSide(m) : "not sure enough to judge";
        notes.push_back(std::move(note));
    }
    for (const ToMend& one : review.to_mend) {
        const bool line = std::any_of(
            review.result.lines.begin(), review.result.lines.end(),
            [&](const review::Review::Line& l) { return l.measure.start_s == one.time_s; });
        const bool flown = std::any_of(review.result.figures.begin(), review.result.figures.end(),
                                       [&](const review::FigureReview& f) {
                                           return f.name == one.figure &&
                                                  one.time_s >= f.start_s - 0.01 &&
                                                  one.time_s <= f.stop_s + 0.01;
                                       });
        const bool rolled = one.fault.find("roll") != std::string::npos;
        if ((line && !rolled) || !flown) continue;
        notes.push_back({one.time_s, withCapital(one.fault), ""});
    }
    std::stable_sort(notes.begin(), notes.end(),
                     [](const auto& a, const auto& b) { return a.time_s < b.time_s; });
    return notes;
}

std::vector<scene::Together> togetherByFigure(const review::Review& review) {
    std::vector<scene::Together> pairs;
    for (const review::FigureReview& figure : review.figures) {
        pairs.push_back({figure.start_s, figure.planned_start_s});
    }
    return pairs;
}

/// The plan's height at the flight's own times, for the lane behind it.
Series plannedHeight(const scene::Ghost& ghost, const std::vector<double>& time_s) {
    std::vector<double> values;
    values.reserve(time_s.size());
    for (const double t : time_s) {
        values.push_back(path::sampleAt(*ghost.path, scene::ghostTime(ghost, t)).position_S_m.z);
    }
    return seriesOf(values);
}

void takeGhost(Shown& shown, std::shared_ptr<const scene::Ghost> ghost) {
    shown.lanes.apart_m = makeApartSeries(*ghost, shown.lanes.time_s);
    shown.lanes.planned_height_m = plannedHeight(*ghost, shown.lanes.time_s);
    shown.source.ghost = std::move(ghost);
}

/// Against the plan kept in step by figure, whichever way it is shown.
void fillRows(FlightReview& review, std::size_t own_figures) {
    for (std::size_t i = 0; i < review.result.figures.size(); ++i) {
        const review::FigureReview& figure = review.result.figures[i];
        RowReview row;
        row.figure = static_cast<int>(i);
        if (review.by_figure) {
            for (double t = figure.start_s; t <= figure.stop_s; t += scene::kApartStep_s) {
                const auto apart_m = static_cast<double>(scene::keptApart(*review.by_figure, t));
                if (std::isfinite(apart_m)) row.off_m = std::max(row.off_m, apart_m);
            }
        }
        review.rows.push_back(row);
    }
    if (own_figures > 0) review.rows.assign(own_figures, RowReview());
    if (review.rows.empty()) review.rows.emplace_back();
}

}  // namespace

ToMend toMend(const review::Remark& remark) {
    ToMend out;
    out.time_s = remark.time_s;
    out.weight = remark.weight;
    out.figure = remark.figure;
    out.advice = remark.advice;
    replaceAll(out.advice, " deg", "\u00B0");
    // "line up 250 m: 3.1 deg off the vertical (+- 0.8): too far towards the wheels"
    std::vector<std::string> parts;
    std::string rest = remark.words;
    for (std::size_t at = rest.find(": "); at != std::string::npos; at = rest.find(": ")) {
        parts.push_back(rest.substr(0, at));
        rest.erase(0, at + 2);
    }
    parts.push_back(rest);
    for (std::string& part : parts) {
        replaceAll(part, "+- ", "\u00B1");
        replaceAll(part, " deg", "\u00B0");
    }
    if (parts.size() > 1) {
        out.where = parts.front();
        parts.erase(parts.begin());
    }
    for (const std::string& part : parts) out.fault += (out.fault.empty() ? "" : ", ") + part;
    return out;
}

std::string lineName(const review::Review::Line& line) {
    const double climb_rad = line.measure.climb_rad;
    const std::string way = climb_rad > 0 ? "up" : "down";
    if (line.measure.vertical()) return line.figure + " " + way;
    return line.figure + ", " + formatFixed(std::abs(climb_rad) / units::kDegree_rad, 0) +
           "\u00B0 " + way;
}

std::string lineSide(const review::LineMeasure& m) {
    const double within_rad = within(m.sigma_rad);
    if (m.off_rad < std::max(within_rad, 0.1 * units::kDegree_rad)) return {};
    const auto say = [&](double angle_rad, const char* over, const char* under) {
        return angleWords(std::abs(angle_rad), within_rad, false) + (angle_rad > 0 ? over : under);
    };
    if (!m.vertical()) {
        return std::abs(m.along_rad) >= std::abs(m.across_rad)
                   ? say(m.along_rad, " too high", " too low")
                   : say(m.across_rad, " to the right", " to the left");
    }
    if (!review::ownAxesTell(m)) {
        return std::abs(m.along_rad) >= std::abs(m.across_rad)
                   ? say(m.along_rad, " to crowd right", " to crowd left")
                   : say(m.across_rad, " towards the crowd", " away from the crowd");
    }
    return std::abs(m.pitch_rad) >= std::abs(m.yaw_rad)
               ? say(m.pitch_rad, " towards canopy", " towards wheels")
               : say(m.yaw_rad, " to the right", " to the left");
}

std::string judgeSees(const FlightReview& review, double time_s) {
    for (const review::Review::Line& line : review.result.lines) {
        if (!line.from_judge || time_s < line.measure.start_s || time_s > line.measure.stop_s)
            continue;
        const review::Seen& seen = *line.from_judge;
        const std::string angle =
            angleWords(kPi / 2 - seen.from_vertical_rad, within(seen.sigma_rad), false);
        if (line.measure.vertical()) return "Judge sees " + angle;
        return "Judge sees " + angle + ", true " +
               angleWords(kPi / 2 - seen.true_from_vertical_rad, within(seen.sigma_rad), false);
    }
    return {};
}

double within(double sigma) { return 2 * sigma; }

bool sureEnough(const review::LineMeasure& measure) {
    constexpr double kHalfAPoint_rad =
        2.5 * units::kDegree_rad;  // chosen: published are 5 deg a point
    return within(measure.sigma_rad) <= kHalfAPoint_rad;
}

void reviewShown(Shown& shown, std::shared_ptr<const Shown> plan) {
    auto review = std::make_shared<FlightReview>();
    review->plan = std::move(plan);
    const data::Site& site = shown.source.world->site;
    if (review->plan) {
        const load::Workspace& workspace = *review->plan->workspace;
        review->result = review::reviewFlight(shown.path(), review->plan->path(),
                                              workspace.aircraft, workspace.site);
        if (review->plan->source.gates)
            review::addTops(review->result, shown.path(), review->plan->path(),
                            *review->plan->source.gates);
        const auto planned = review->plan->source.path;
        std::vector<scene::Together> together = togetherByFigure(review->result);
        // Where no figure was told, as near as the two can be.
        review->by_figure = together.empty()
                                ? scene::makeGhost(shown.path(), planned)
                                : scene::makeGhostInStep(shown.path(), planned, together);
        if (together.size() > 1) together.resize(1);
        review->by_time = scene::makeGhostInStep(shown.path(), planned, together);
        takeGhost(shown, review->by_figure);
        shown.beside = review->plan->title;
    } else {
        const bool told = shown.path().known.attitude;
        review->result =
            review::reviewAlone(shown.path(), 0, 0, site,
                                told ? review::shelfFigures() : std::vector<review::KnownFigure>());
    }
    for (const review::Remark& remark : review->result.remarks) {
        review->to_mend.push_back(toMend(remark));
    }
    // A path of the program's own that names its figures keeps them.
    const std::size_t own = review->plan ? 0 : shown.path().figures.size();
    fillRows(*review, own);
    if (own == 0) shown.outline = rowsOf(review->result, shown);
    fillFindings(*review, shown);
    shown.source.notes = std::make_shared<const std::vector<scene::PathNote>>(notesOf(*review));
    shown.review = std::move(review);
}

std::shared_ptr<const Shown> setByTime(const Shown& shown, bool by_time) {
    auto out = std::make_shared<Shown>(shown);
    auto review = std::make_shared<FlightReview>(*shown.review);
    review->by_time_now = by_time;
    takeGhost(*out, by_time ? review->by_time : review->by_figure);
    out->review = std::move(review);
    return out;
}

}  // namespace plumbline::model

#include "engine/sheets/crew.h"

#include "engine/base/number_text.h"
#include "engine/page/table.h"
#include "engine/sheets/furniture.h"
#include "engine/sheets/wording.h"
#include "engine/units/measured.h"

namespace plumbline::sheets {

using page::Align;
using page::Document;
using page::Table;
using page::Weight;

namespace {

struct Line {
    std::string what, value, limit, when;
    bool beyond = false;
};

std::string at(double time_s) { return "at " + units::formatTime(time_s); }

std::vector<Line> peaksOf(const Sortie& sortie, const review::CrewSheet& sheet,
                          const review::LoadBook& book) {
    const data::AircraftLimits& limits = sortie.workspace->aircraft.limits;
    const path::Known& known = sortie.flight->known;
    const auto speed = [&](double mps, double sigma_mps = 0) {
        return units::measuredSpeed(mps, 2 * sigma_mps, sortie.units, Signs::Typeset).joined();
    };
    const auto load = [](double g, double sigma_g) {
        return units::measuredLoad(g, 2 * sigma_g, Signs::Typeset).joined();
    };
    const std::string unknown = "not in the recording";
    std::vector<Line> lines;
    lines.push_back({"Recorded", units::formatTime(sheet.flown_s), "", "", false});
    if (known.load) {
        lines.push_back({"Greatest load", load(book.most_g, book.most_sigma_g),
                         number(limits.load_max_g, 1, true) + " g", at(book.most_s),
                         limits.load_max_g != 0 && book.most_g > limits.load_max_g});
        lines.push_back({"Least load", load(book.least_g, book.least_sigma_g),
                         number(limits.load_min_g, 1, true) + " g", at(book.least_s),
                         limits.load_min_g != 0 && book.least_g < limits.load_min_g});
        lines.push_back({"Quickest gain of load",
                         within(book.quickest_gps, 2 * book.quickest_sigma_gps, 0) + " g/s", "",
                         at(book.quickest_s), false});
        lines.push_back(
            {"Push then pull", std::to_string(book.push_pulls.size()) + " times", "", "", false});
    } else {
        lines.push_back({"Loads", unknown, "", "", false});
    }
    if (known.airspeed) {
        lines.push_back({"Fastest, calibrated", speed(sheet.fastest_mps, sheet.fastest_sigma_mps),
                         limits.never_exceed_mps > 0 ? speed(limits.never_exceed_mps) + " VNE" : "",
                         at(sheet.fastest_s), sheet.beyond_never_exceed_s > 0});
        lines.push_back(
            {"Beyond VNE",
             within(sheet.beyond_never_exceed_s, 2 * sheet.beyond_never_exceed_sigma_s, 1) + " s",
             "", "", sheet.beyond_never_exceed_s > 0});
        if (limits.overspeed_mps > 0)
            lines.push_back({"Propeller too fast",
                             within(sheet.overspeed_s, 2 * sheet.overspeed_sigma_s, 1) + " s",
                             "above " + speed(limits.overspeed_mps), "", sheet.overspeed_s > 0});
    } else {
        lines.push_back({"Airspeed", unknown, "", "", false});
    }
    lines.push_back({"Fastest tail first",
                     speed(sheet.fastest_back_mps, sheet.fastest_back_sigma_mps),
                     limits.tail_first_mps > 0 ? speed(limits.tail_first_mps) : "", "",
                     limits.tail_first_mps > 0 && sheet.fastest_back_mps > limits.tail_first_mps});
    lines.push_back(
        {"Full power", known.power ? units::formatTime(sheet.full_power_s) : unknown,
         limits.full_power_s > 0 ? units::formatTime(limits.full_power_s) + " at a stretch" : "",
         "", false});
    const double density = sortie.workspace->aircraft.mass.fuel_density_kgpm3;
    lines.push_back(
        {"Fuel used",
         known.fuel
             ? number(sheet.fuel_kg, 0) + " kg" +
                   (density > 0 ? ", " + number(sheet.fuel_kg / density * 1000, 0) + " l" : "")
             : unknown,
         "", "", false});
    return lines;
}

double drawPeaks(Document& document, const std::vector<Line>& lines, double top_mm) {
    Table table(document, {kMargin_mm, top_mm},
                {{"", 58, Align::Left},
                 {"recorded", 48, Align::Right},
                 {"limit", 42, Align::Right},
                 {"when", 37, Align::Right}},
                {6.6, 9, 7.4});
    table.head();
    for (const Line& line : lines) {
        table.row({{{(line.beyond ? "\u25b2 " : "") + line.what, table.style()}},
                   {{line.value, table.style(line.beyond ? Weight::Bold : Weight::SemiBold)}},
                   {{line.limit, table.style()}},
                   {{line.when, table.style()}}});
    }
    return table.bottom_mm();
}

void drawLevels(Document& document, const review::LoadBook& book, double x_mm, double top_mm,
                double end_mm) {
    drawTitle(document, {x_mm, top_mm}, "Time beyond each load");
    Table table(
        document, {x_mm, top_mm + 2},
        {{"load", 22, Align::Right}, {"time", 26, Align::Right}, {"times", 22, Align::Right}},
        {5.6, 8.4, 7.4});
    table.head();
    for (const review::LoadLevel& level : book.levels) {
        if (table.bottom_mm() + 5.6 > end_mm) break;
        table.row(
            {{{number(level.load_g, 0, true) + " g", table.style()}},
             {{within(level.beyond_s, 2 * level.sigma_s, 1) + " s", table.style(Weight::SemiBold)}},
             {{std::to_string(level.times), table.style()}}});
    }
}

void drawCycles(Document& document, const review::LoadBook& book, double x_mm, double top_mm,
                double end_mm) {
    drawTitle(document, {x_mm, top_mm}, "Load cycles", "rainflow, ASTM E1049");
    Table table(document, {x_mm, top_mm + 2},
                {{"range up to", 30, Align::Right},
                 {"mean", 24, Align::Right},
                 {"cycles", 24, Align::Right}},
                {5.6, 8.4, 7.4});
    table.head();
    for (const review::Cycle& cycle : book.cycles) {
        if (table.bottom_mm() + 5.6 > end_mm) break;
        table.row({{{number(cycle.range, 0) + " g", table.style()}},
                   {{number(cycle.mean, 1, true) + " g", table.style()}},
                   {{formatFixed(cycle.count, 1), table.style(Weight::SemiBold)}}});
    }
}

}  // namespace

Expected<std::string, std::string> crewPdf(const Sortie& sortie, const Print& print) {
    const load::Workspace& workspace = *sortie.workspace;
    const earth::SiteAir air(workspace.site.show_centre.elevation_m,
                             workspace.weather.temperature_k, workspace.weather.qnh_pa);
    const review::CrewSheet sheet =
        review::crewSheetOf(*sortie.flight, workspace.aircraft.limits, air);
    const review::LoadBook book = review::loadBookOf(*sortie.flight);
    Document document(print.paper, *print.fonts, workspace.aircraft.name + ": sortie for the crew");
    const std::vector<Line> lines = peaksOf(sortie, sheet, book);
    double y = drawHead(
        document,
        {workspace.aircraft.name + ": for the crew",
         workspace.site.name + "; " + workspace.routine.name,
         sortie.start_utc.empty() ? "no date in the recording" : dayAndTime(sortie.start_utc),
         windWords(workspace.weather, workspace.site, sortie.units) + " as planned"});
    y = drawPeaks(document, lines, y + 3) + 12;
    const double foot_mm = footTop(document);
    if (sortie.flight->known.load) {
        drawLevels(document, book, kMargin_mm, y, foot_mm - 16);
        drawCycles(document, book, kMargin_mm + 90, y, foot_mm - 16);
    }
    document.paragraph(
        {kMargin_mm, foot_mm - 13}, document.size().width_mm - 2 * kMargin_mm,
        {{"Loads as the seat\u2019s meter reads them; ripples under a quarter of a "
          "g are no cycles. "
          "\u25b2 beyond the limit of the aircraft file: the aircraft\u2019s "
          "documents say what is to "
          "be looked at then. \u00b1 holds 95 of 100 errors; a load that is off by it may move a "
          "cycle "
          "to the next row. Power, fuel and times are as the recording has them, which does "
          "not tell how surely.",
          quiet(7.2)}});
    drawFoot(document, "plan " + workspace.revision() + ", recording " + sortie.log_revision, 1, 1);
    return document.finish();
}

}  // namespace plumbline::sheets

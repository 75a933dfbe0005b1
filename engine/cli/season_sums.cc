// plumbline season trends, currency, loads, overhaul.

#include <cmath>
#include <cstdio>

#include <nlohmann/json.hpp>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/season.h"
#include "engine/cli/table.h"
#include "engine/record/clock_text.h"
#include "engine/season/airframe_loads.h"
#include "engine/season/currency.h"
#include "engine/season/trend_plot.h"

namespace plumbline::cli {

namespace {

using Json = nlohmann::ordered_json;

void printJson(const Json& json) {
    // A name that is no UTF-8 is no reason to fail.
    std::printf("%s\n", json.dump(2, ' ', false, Json::error_handler_t::replace).c_str());
}

Json jsonOf(const std::optional<double>& value) { return value ? Json(*value) : Json(); }

Json jsonOf(const std::vector<season::Trend>& trends) {
    Json list = Json::array();
    for (const season::Trend& t : trends) {
        Json points = Json::array();
        for (const season::TrendPoint& p : t.points)
            points.push_back({{"sortie", p.sortie},
                              {"utc", record::formatUtc(p.utc_s)},
                              {"value", p.value},
                              {"sigma", jsonOf(p.sigma)},
                              {"planned", jsonOf(p.planned)}});
        list.push_back({{"figure", t.figure},
                        {"element", t.element},
                        {"measure", t.kind.name},
                        {"course", season::courseWords(t.course)},
                        {"mean", t.mean},
                        {"slope_per_day", t.fit ? Json(t.fit->slope) : Json()},
                        {"slope_sigma_per_day", t.fit ? Json(t.fit->slope_sigma) : Json()},
                        {"points", points}});
    }
    return list;
}

std::string daysWords(double days) {
    const double whole = std::floor(days);
    return formatFixed(whole, 0) + (whole == 1 ? " day" : " days");
}

Json jsonOf(const season::AirframeLoads& a) {
    Json levels = Json::array(), cycles = Json::array();
    for (const review::LoadLevel& l : a.levels)
        levels.push_back({{"load_g", l.load_g}, {"beyond_s", l.beyond_s}, {"times", l.times}});
    for (const review::Cycle& c : a.cycles)
        cycles.push_back({{"range_g", c.range}, {"mean_g", c.mean}, {"count", c.count}});
    const bool loads = a.sorties > a.without_loads;
    return {{"airframe", a.airframe},
            {"since",
             a.since_utc_s ? Json(record::formatUtc(static_cast<double>(*a.since_utc_s))) : Json()},
            {"sorties", a.sorties},
            {"sorties_without_loads", a.without_loads},
            {"flown_s", a.flown_s},
            {"flown_with_loads_s", a.with_loads_s},
            {"most_g", loads ? Json(a.most_g) : Json()},
            {"least_g", loads ? Json(a.least_g) : Json()},
            {"quickest_gain_gps", loads ? Json(a.quickest_gps) : Json()},
            {"levels", levels},
            {"cycles", cycles},
            {"push_then_pull", a.push_pulls},
            {"full_power_s", a.full_power_s},
            {"sorties_without_power", a.without_power},
            {"fuel_kg", a.fuel_kg},
            {"sorties_without_fuel", a.without_fuel},
            {"beyond_never_exceed_s", a.beyond_never_exceed_s},
            {"overspeed_s", a.overspeed_s},
            {"sorties_without_airspeed", a.without_airspeed}};
}

std::string hours(double time_s) { return formatFixed(time_s / 3600, 1) + " h"; }

void printAirframe(const season::AirframeLoads& a) {
    std::printf("%s, %s: %d sorties, %s\n", a.airframe.c_str(),
                a.since_utc_s
                    ? ("since " + momentWords(static_cast<double>(*a.since_utc_s))).c_str()
                    : "no overhaul entered, all there is",
                a.sorties, hours(a.flown_s).c_str());
    if (a.without_loads > 0)
        std::printf("  %d of them tell no loads and are not in what follows\n", a.without_loads);
    if (a.without_power < a.sorties)
        std::printf("  full power %s%s\n", units::formatTime(a.full_power_s).c_str(),
                    a.without_power > 0 ? ", as far as recorded" : "");
    if (a.without_fuel < a.sorties)
        std::printf("  fuel %s kg%s\n", formatFixed(a.fuel_kg, 0).c_str(),
                    a.without_fuel > 0 ? ", as far as recorded" : "");
    if (a.beyond_never_exceed_s > 0)
        std::printf("  beyond VNE for %s s\n", formatFixed(a.beyond_never_exceed_s, 1).c_str());
    if (a.sorties == a.without_loads) return;
    std::printf("  loads %s to %s g, quickest gain %s g/s, push then pull %d times\n",
                formatFixed(a.least_g, 1).c_str(), formatFixed(a.most_g, 1).c_str(),
                formatFixed(a.quickest_gps, 0).c_str(), a.push_pulls);
    std::vector<std::vector<std::string>> rows = {{"  beyond", "times", "for", "times an hour"}};
    for (const review::LoadLevel& l : a.levels)
        rows.push_back({"  " + formatFixed(l.load_g, 0) + " g", std::to_string(l.times),
                        formatFixed(l.beyond_s, 0) + " s",
                        formatFixed(l.times / (a.with_loads_s / 3600), 1)});
    if (rows.size() > 1) printTable(stdout, rows);
    rows = {{"  cycles of up to", "count", "mean load"}};
    for (const review::Cycle& c : a.cycles)
        rows.push_back({"  " + formatFixed(c.range, 0) + " g", formatFixed(c.count, 1),
                        formatFixed(c.mean, 1) + " g"});
    if (rows.size() > 1) printTable(stdout, rows);
    std::printf(
        "  As recorded: a load that is off by a few tenths moves time, times and cycles to the "
        "next "
        "row.\n");
}

int writePlots(const std::string& output, const std::vector<season::Trend>& trends,
               units::DisplayUnits units) {
    if (trends.empty())
        return refuse(output, "there is nothing to draw",
                      "add more sorties, or choose another figure or measure");
    if (output.ends_with(".svg")) return writeResult(output, season::trendsSvg(trends, units));
    const page::Fonts fonts;
    const auto pdf = season::trendsPdf(trends, units, page::Paper::A4, fonts);
    if (!pdf) return refuse(output, "it cannot be drawn: " + pdf.error(), "give -o FILE.svg");
    return writeResult(output, *pdf);
}

}  // namespace

int runSeasonTrends(const Arguments& arguments) {
    OptionParser parser("season trends",
                        "How the numbers of each figure go over the season's sorties. A change is "
                        "said from five sorties on and beyond twice its own doubt.",
                        "plumbline season trends --figure Hammerhead -o hammerhead.pdf");
    std::string file;
    season::TrendWish wish;
    std::optional<std::string> since;
    std::string output;
    bool json = false;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    CLI::App& app = parser.app();
    app.add_option("--figure", wish.figure, "of this one only")->type_name("NAME");
    app.add_option("--measure", wish.measure, "this number only, as the table calls it")
        ->type_name("NAME");
    app.add_option("--routine", wish.routine, "as flown in this routine only")->type_name("NAME");
    app.add_option("--since", since, "sorties from this day on")->type_name("DAY");
    app.add_option("-o", output, "a plot of each, as .pdf or .svg")->type_name("FILE");
    app.add_flag("--json", json, "every point as JSON, SI units and radians");
    addBookOption(app, file);
    addUnitsOption(app, units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    if (since) {
        const auto utc_s = parseMoment("--since", *since);
        if (!utc_s) return refuse(utc_s.error());
        wish.since_utc_s = static_cast<std::int64_t>(*utc_s);
    }
    if (wish.measure && season::measureKind(*wish.measure) == nullptr) {
        std::string names;
        for (const season::MeasureKind& kind : season::measureKinds())
            names += (names.empty() ? "" : "; ") + std::string(kind.name);
        return refuse("--measure", "there is no measure \"" + *wish.measure + "\"",
                      "take one of: " + names);
    }
    if (!output.empty() && !output.ends_with(".pdf") && !output.ends_with(".svg"))
        return refuse(output, "plots are written as PDF or SVG",
                      "give a name that ends in .pdf or .svg");
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const auto trends = season::trends(*book, wish);
    if (!trends) return refuse(trends.error());
    if (!output.empty()) {
        const int written = writePlots(output, *trends, units);
        if (written != kDone) return written;
    }
    if (json) {
        printJson({{"trends", jsonOf(*trends)}, {"caution", check::caution()}});
        return kDone;
    }
    if (trends->empty()) {
        std::puts("nothing that was measured twice");
        return kDone;
    }
    std::vector<std::vector<std::string>> rows = {
        {"figure", "of it", "what", "times", "first", "last", "mean", "goes"}};
    for (const season::Trend& t : *trends) {
        const auto words = [&](const season::TrendPoint& p) {
            return season::measuredWords(t.kind, p.value, p.sigma, units);
        };
        rows.push_back({t.figure, t.element, std::string(t.kind.name),
                        std::to_string(t.points.size()), words(t.points.front()),
                        words(t.points.back()),
                        season::measureWords(t.kind, t.mean, t.points.back().sigma, units),
                        season::courseWords(t.course)});
    }
    printTable(stdout, rows);
    return kDone;
}

int runSeasonCurrency(const Arguments& arguments) {
    OptionParser parser("season currency",
                        "Days since, and how much was flown lately. The windows of 7, 30 and 90 "
                        "days are common practice, no source: what counts is for the display "
                        "authority and yourself to say.",
                        "plumbline season currency --within 30 --within 60");
    std::string file;
    std::vector<int> windows;
    bool json = false;
    parser.app()
        .add_option("--within", windows, "a window of so many days, in place of 7, 30, 90")
        ->type_name("DAYS")
        ->check(CLI::Range(1, 3660));
    parser.app().add_flag("--json", json, "as JSON");
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    if (windows.empty())
        windows.assign(std::begin(season::kUsualWindows_days),
                       std::end(season::kUsualWindows_days));
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const auto currency = season::currency(*book, now_utc_s(), windows);
    if (!currency) return refuse(currency.error());
    if (json) {
        Json shown = Json::array(), routines = Json::array(), figures = Json::array();
        for (const season::Window& w : currency->windows)
            shown.push_back({{"days", w.days}, {"sorties", w.sorties}, {"flown_s", w.flown_s}});
        const auto list = [](Json& to, const std::vector<season::Practice>& from) {
            for (const season::Practice& p : from)
                to.push_back({{"name", p.name},
                              {"last", record::formatUtc(p.last_utc_s)},
                              {"since_days", p.since_days},
                              {"sorties", p.sorties}});
        };
        list(routines, currency->routines);
        list(figures, currency->figures);
        printJson({{"since_days", jsonOf(currency->since_days)},
                   {"windows", shown},
                   {"routines", routines},
                   {"figures", figures}});
        return kDone;
    }
    if (!currency->since_days) {
        std::puts("nothing flown yet");
        return kDone;
    }
    std::printf("last sortie %s ago\n", daysWords(*currency->since_days).c_str());
    std::vector<std::vector<std::string>> rows = {{"", "last"}};
    for (const season::Window& w : currency->windows)
        rows.front().push_back("in " + std::to_string(w.days) + " days");
    rows.push_back({"sorties", ""});
    for (const season::Window& w : currency->windows)
        rows.back().push_back(std::to_string(w.sorties) + ", " + hours(w.flown_s));
    const auto add = [&rows](const std::vector<season::Practice>& list) {
        for (const season::Practice& p : list) {
            rows.push_back({p.name, daysWords(p.since_days) + " ago"});
            for (const int count : p.sorties) rows.back().push_back(std::to_string(count));
        }
    };
    add(currency->routines);
    add(currency->figures);
    printTable(stdout, rows);
    return kDone;
}

int runSeasonLoads(const Arguments& arguments) {
    OptionParser parser("season loads",
                        "What each airframe has felt since its last overhaul: how often and how "
                        "long beyond each load, and load cycles (rainflow, ASTM E1049), summed "
                        "over its sorties. No substitute for its own records.",
                        "plumbline season loads");
    std::string file;
    bool json = false;
    parser.app().add_flag("--json", json, "as JSON");
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const auto airframes = season::airframeLoads(*book);
    if (!airframes) return refuse(airframes.error());
    if (json) {
        Json list = Json::array();
        for (const season::AirframeLoads& a : *airframes) list.push_back(jsonOf(a));
        printJson({{"airframes", list}, {"caution", check::caution()}});
        return kDone;
    }
    for (const season::AirframeLoads& a : *airframes) printAirframe(a);
    if (airframes->empty()) std::puts("nothing flown yet");
    std::puts(check::caution());
    return kDone;
}

int runSeasonOverhaul(const Arguments& arguments) {
    OptionParser parser("season overhaul",
                        "Enters an overhaul: the airframe's loads are counted from there on.",
                        "plumbline season overhaul X-AAA --on 2026-03-01");
    std::string file;
    season::Overhaul overhaul;
    std::string on;
    parser.app().add_option("AIRFRAME", overhaul.airframe, "as season list has it")->required();
    parser.app().add_option("--on", on, "the day, UTC")->required()->type_name("DAY");
    parser.app().add_option("--notes", overhaul.notes, "what was done")->type_name("TEXT");
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    const auto utc_s = parseMoment("--on", on);
    if (!utc_s) return refuse(utc_s.error());
    overhaul.at_utc_s = static_cast<std::int64_t>(*utc_s);
    auto book = openBook(file, season::Book::Access::Make);
    if (!book) return refuse(book.error());
    const auto id = season::addOverhaul(*book, overhaul);
    return id ? kDone : refuse(id.error());
}

}  // namespace plumbline::cli

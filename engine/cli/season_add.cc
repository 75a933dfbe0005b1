// plumbline season add: a sortie, reviewed, or a routine.

#include <cstdio>

#include "engine/base/number_text.h"
#include "engine/check/gates.h"
#include "engine/cli/logs.h"
#include "engine/cli/season.h"
#include "engine/load/demo_name.h"
#include "engine/record/clock_text.h"
#include "engine/record/in_site.h"
#include "engine/review/alone.h"
#include "engine/review/tops.h"
#include "engine/season/sorties.h"
#include "engine/units/units.h"

namespace plumbline::cli {

namespace {

season::Routine routineOf(const load::Workspace& workspace) {
    season::Routine routine;
    routine.name = workspace.routine.name;
    routine.revision = workspace.revision();
    routine.text = workspace.routine_text;
    routine.added_utc_s = static_cast<std::int64_t>(now_utc_s());
    return routine;
}

/// The day as the plan's weather has it.
std::string conditionsOf(const data::Weather& weather) {
    std::string words = formatFixed(weather.temperature_k - 273.15, 0) + " C, QNH " +
                        formatFixed(weather.qnh_pa / 100, 0) + " hPa";
    if (weather.wind.empty()) return words + ", calm";
    const data::WindLayer& low = weather.wind.front();
    return words + ", wind " + units::formatHeading(low.from_rad) + "/" +
           formatFixed(low.speed_mps / units::kKnot_mps, 0) + " kt";
}

bool namesRoutine(const std::string& name) {
    return load::meansDemo(name) || name.ends_with(".routine.toml");
}

struct Wishes {
    std::vector<std::string> files;
    RoutineOptions plan;
    std::string book;
    std::optional<std::string> on, airframe, conditions, notes;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
};

int addRoutineFile(const Wishes& wishes) {
    if (wishes.files.size() > 1 || !wishes.plan.routine.empty())
        return refuse(wishes.files.front(), "a routine goes into the book by itself",
                      "add recordings in a call of their own, with --plan ROUTINE");
    const std::string& file = wishes.files.front();
    const auto workspace = load::meansDemo(file) ? load::loadDemo() : load::loadWorkspace(file);
    if (!workspace) return refuse(workspace.error());
    auto book = openBook(wishes.book, season::Book::Access::Make);
    if (!book) return refuse(book.error());
    const auto id = season::addRoutine(*book, routineOf(*workspace));
    if (!id) return refuse(id.error());
    std::printf("routine %lld: %s, revision %s\nkept in %s\n", static_cast<long long>(*id),
                workspace->routine.name.c_str(), workspace->revision().c_str(),
                book->file().string().c_str());
    return kDone;
}

/// When it was flown: as is said, else as the recording has it.
Expected<double, Problems> flownAt(const Wishes& wishes, const record::ImportedTrack& track) {
    if (wishes.on) return parseMoment("--on", *wishes.on);
    if (const std::optional<double> utc_s = record::parseUtc(track.start_utc)) return *utc_s;
    Problem problem;
    problem.where.file = wishes.files.front();
    problem.what = "this recording has no date";
    problem.remedy = "say when it was flown: --on 2026-05-14";
    return Unexpected(Problems{problem});
}

int addFlight(const Wishes& wishes) {
    Expected<Logs, Problems> logs = openLogs(wishes.files);
    if (!logs) return refuse(logs.error());
    std::vector<std::string_view> bytes;
    for (const system::MappedFile& file : logs->files) bytes.push_back(file.bytes());
    const std::string key = season::sortieKey(bytes);
    auto track = record::readRecordings(logs->named(), wishesOf("season"));
    if (!track) return refuse(track.error());
    const auto flown_utc_s = flownAt(wishes, *track);
    if (!flown_utc_s) return refuse(flown_utc_s.error());

    season::Sortie sortie;
    std::optional<season::Routine> plan;
    printProblems(track->warnings);
    if (wishes.plan.routine.empty()) {
        if (!wishes.airframe)
            return refuse(wishes.files.front(), "which aircraft was it?",
                          "name it with --airframe NAME, or give --plan ROUTINE");
        // Nothing is known of the place, so the recording keeps its own axes; and nothing of the
        // aircraft but its name: no limits, no span.
        const path::Path flight = std::move(track->path);
        path::Known known = flight.known;
        known.airspeed = false;
        sortie =
            season::sortieOf(review::reviewAlone(flight, 0, 0, {}, review::shelfFigures()),
                             review::crewSheetOf(flight, {}, earth::SiteAir(0, 288.15, 101325)),
                             review::loadBookOf(flight), known);
    } else {
        const auto flown = flyRoutine(wishes.plan, wishes.units);
        if (!flown) return refuse(flown.error());
        printRemarks(wishes.plan.routine, flown->remarks);
        const load::Workspace& w = flown->workspace;
        const path::Path flight = record::inSite(std::move(*track), w.site);
        const path::Path planned = flown->solution.samplePath(review::kPlanRate_hz);
        review::Review review = review::reviewFlight(flight, planned, w.aircraft, w.site);
        if (review.unlike_plan)
            std::fprintf(stderr,
                         "%s: this flight does not look like this plan: only figures that are "
                         "surely in it are kept\n",
                         wishes.files.front().c_str());
        review::addTops(review, flight, planned,
                        check::gatesOf(w.aircraft, w.site, w.pilot, flown->solution, planned));
        const earth::SiteAir air(w.site.show_centre.elevation_m, w.weather.temperature_k,
                                 w.weather.qnh_pa);
        sortie = season::sortieOf(review, review::crewSheetOf(flight, w.aircraft.limits, air),
                                  review::loadBookOf(flight), flight.known);
        plan = routineOf(w);
        sortie.site = w.site.name;
        sortie.airframe = w.aircraft.name;
        sortie.conditions = conditionsOf(w.weather);
    }
    sortie.key = key;
    sortie.name = std::filesystem::path(wishes.files.front()).filename().string();
    sortie.flown_utc_s = static_cast<std::int64_t>(*flown_utc_s);
    sortie.added_utc_s = static_cast<std::int64_t>(now_utc_s());
    if (wishes.airframe) sortie.airframe = *wishes.airframe;
    if (wishes.conditions) sortie.conditions = *wishes.conditions;
    if (wishes.notes) sortie.notes = *wishes.notes;

    auto book = openBook(wishes.book, season::Book::Access::Make);
    if (!book) return refuse(book.error());
    const auto id = season::addSortie(*book, sortie, plan ? &*plan : nullptr);
    if (!id) return refuse(id.error());
    std::size_t numbers = 0;
    for (const season::FlownFigure& figure : sortie.figures) numbers += figure.measures.size();
    std::printf("sortie %lld: %s, %s UTC, %s, %zu figures, %zu numbers\nkept in %s\n",
                static_cast<long long>(*id), sortie.name.c_str(), momentWords(*flown_utc_s).c_str(),
                sortie.airframe.c_str(), sortie.figures.size(), numbers,
                book->file().string().c_str());
    return kDone;
}

}  // namespace

int runSeasonAdd(const Arguments& arguments) {
    OptionParser parser("season add",
                        "Reviews a recorded flight and keeps its numbers in the season's book; or "
                        "keeps a routine there.",
                        "plumbline season add morning.csv --plan evening.routine.toml --on "
                        "2026-05-14 --notes \"second of the day\"");
    Wishes wishes;
    CLI::App& app = parser.app();
    app.add_option("FILE", wishes.files,
                   "recordings of one flight, or one *.routine.toml (demo: the built-in one)")
        ->required();
    app.add_option("--plan", wishes.plan.routine, "the routine that was to be flown")
        ->type_name("ROUTINE");
    addVariantOptions(app, wishes.plan.variant);
    app.add_option("--on", wishes.on, "when it was flown, UTC; without it as the recording says")
        ->type_name("TIME");
    app.add_option("--airframe", wishes.airframe,
                   "which one, for its loads; without it the name in the plan's aircraft file")
        ->type_name("NAME");
    app.add_option("--conditions", wishes.conditions,
                   "the weather there was, in words; without it that of the plan")
        ->type_name("TEXT");
    app.add_option("--notes", wishes.notes, "anything else")->type_name("TEXT");
    addBookOption(app, wishes.book);
    addUnitsOption(app, wishes.units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    return namesRoutine(wishes.files.front()) ? addRoutineFile(wishes) : addFlight(wishes);
}

}  // namespace plumbline::cli

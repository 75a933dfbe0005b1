// plumbline season list, sortie, remove, note, export.

#include <cstdio>

#include "engine/base/number_text.h"
#include "engine/cli/season.h"
#include "engine/cli/table.h"
#include "engine/season/export_csv.h"
#include "engine/season/measures.h"
#include "engine/season/sorties.h"
#include "engine/system/whole_file.h"

namespace plumbline::cli {

namespace {

std::string loadsOf(const season::Sortie& s) {
    if (!s.loads) return "not told";
    return formatFixed(s.loads->least_g, 1) + " to " + formatFixed(s.loads->most_g, 1) + " g";
}

std::string flownWords(const season::Measured& m, units::DisplayUnits units) {
    const season::MeasureKind* kind = season::measureKind(m.name);
    return kind == nullptr ? formatDouble(m.value)  // of a newer program's making
                           : season::measuredWords(*kind, m.value, m.sigma, units);
}

std::string wordsOf(const season::Measured& m, double value, units::DisplayUnits units) {
    const season::MeasureKind* kind = season::measureKind(m.name);
    return kind == nullptr ? formatDouble(value)  // of a newer program's making
                           : season::measureWords(*kind, value, m.sigma, units);
}

void printWords(const char* what, const std::string& words) {
    if (!words.empty()) std::printf("%s: %s\n", what, words.c_str());
}

void printRemarkLines(const std::vector<season::Remark>& remarks) {
    for (const season::Remark& r : remarks)
        std::printf("  %s  %s%s%s  (remark %lld)\n", units::formatTime(r.time_s).c_str(),
                    r.by.c_str(), r.by.empty() ? "" : ": ", r.words.c_str(),
                    static_cast<long long>(r.id));
}

}  // namespace

int runSeasonList(const Arguments& arguments) {
    OptionParser parser("season list", "Lists the sorties and routines of the season's book.",
                        "plumbline season list");
    std::string file;
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const auto sorties = season::sorties(*book);
    if (!sorties) return refuse(sorties.error());
    const auto routines = season::routines(*book);
    if (!routines) return refuse(routines.error());
    std::vector<std::vector<std::string>> rows = {
        {"sortie", "flown, UTC", "recording", "routine", "airframe", "time", "loads", "remarks"}};
    for (const season::Sortie& s : *sorties)
        rows.push_back({std::to_string(s.id), momentWords(static_cast<double>(s.flown_utc_s)),
                        s.name, s.routine == 0 ? "none" : s.routine_name, s.airframe,
                        units::formatTime(s.flown_s), loadsOf(s), std::to_string(s.remarks)});
    if (rows.size() > 1) printTable(stdout, rows);
    rows = {{"routine", "name", "revision", "added", "flown"}};
    for (const season::Routine& r : *routines)
        rows.push_back({std::to_string(r.id), r.name, r.revision,
                        momentWords(static_cast<double>(r.added_utc_s)),
                        std::to_string(r.sorties) + " times"});
    if (rows.size() > 1) {
        if (!sorties->empty()) std::puts("");
        printTable(stdout, rows);
    }
    if (sorties->empty() && routines->empty()) std::puts("nothing yet: plumbline season add");
    return kDone;
}

int runSeasonSortie(const Arguments& arguments) {
    OptionParser parser("season sortie", "Tells all there is of a sortie in the season's book.",
                        "plumbline season sortie 3");
    std::string file;
    std::int64_t id = 0;
    units::DisplayUnits units = units::DisplayUnits::Aviation;
    parser.app().add_option("NUMBER", id, "as season list has it")->required();
    addBookOption(parser.app(), file);
    addUnitsOption(parser.app(), units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const auto s = season::sortie(*book, id);
    if (!s) return refuse(s.error());
    const auto remarks = season::remarksOn(*book, {season::Subject::Kind::Sortie, s->key});
    if (!remarks) return refuse(remarks.error());
    std::printf("sortie %lld: %s, %s UTC, %s, loads %s\n", static_cast<long long>(s->id),
                s->name.c_str(), momentWords(static_cast<double>(s->flown_utc_s)).c_str(),
                units::formatTime(s->flown_s).c_str(), loadsOf(*s).c_str());
    printWords("airframe", s->airframe);
    printWords("routine", s->routine_name);
    printWords("site", s->site);
    printWords("conditions", s->conditions);
    printWords("notes", s->notes);
    std::vector<std::vector<std::string>> rows = {{"figure", "of it", "what", "flown", "planned"}};
    for (const season::FlownFigure& f : s->figures)
        for (const season::Measured& m : f.measures)
            rows.push_back({f.name + (f.again ? " (again)" : ""), m.element, m.name,
                            flownWords(m, units), m.planned ? wordsOf(m, *m.planned, units) : ""});
    if (rows.size() > 1) printTable(stdout, rows);
    if (!remarks->empty()) std::puts("remarks:");
    printRemarkLines(*remarks);
    return kDone;
}

int runSeasonRemove(const Arguments& arguments) {
    OptionParser parser("season remove",
                        "Takes a sortie out of the season's book, with the remarks on it; or a "
                        "routine that no sortie was flown to.",
                        "plumbline season remove 3");
    std::string file;
    std::int64_t id = 0;
    bool routine = false;
    parser.app().add_option("NUMBER", id, "as season list has it")->required();
    parser.app().add_flag("--routine", routine, "it is a routine's number");
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const Problems problems =
        routine ? season::removeRoutine(*book, id) : season::removeSortie(*book, id);
    return problems.empty() ? kDone : refuse(problems);
}

int runSeasonNote(const Arguments& arguments) {
    OptionParser parser("season note", "Writes the weather and the notes of a sortie anew.",
                        "plumbline season note 3 --conditions \"gusts from the left\"");
    std::string file;
    std::int64_t id = 0;
    std::optional<std::string> conditions, notes;
    parser.app().add_option("NUMBER", id, "as season list has it")->required();
    parser.app()
        .add_option("--conditions", conditions, "the weather there was, in words")
        ->type_name("TEXT");
    parser.app().add_option("--notes", notes, "anything else")->type_name("TEXT");
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    if (!conditions && !notes)
        return refuse("plumbline season note", "nothing to write",
                      "give --conditions TEXT or --notes TEXT");
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const Problems problems = season::noteSortie(*book, id, conditions, notes);
    return problems.empty() ? kDone : refuse(problems);
}

int runSeasonExport(const Arguments& arguments) {
    OptionParser parser("season export",
                        "Writes the season's book as tables (CSV, SI units): sorties, figures, "
                        "measures, loads, routines, remarks, overhauls.",
                        "plumbline season export -o tables");
    std::string file, folder;
    parser.app()
        .add_option("-o", folder, "folder for them; made if it is not there")
        ->required()
        ->type_name("FOLDER");
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const auto tables = season::exportTables(*book);
    if (!tables) return refuse(tables.error());
    std::error_code error;
    std::filesystem::create_directories(folder, error);
    if (error) return refuse(folder, "cannot be made: " + error.message(), "name another folder");
    for (const season::NamedTable& table : *tables) {
        const int done =
            writeResult((std::filesystem::path(folder) / table.name).string(), table.bytes);
        if (done != kDone) return done;
    }
    return kDone;
}

}  // namespace plumbline::cli

// plumbline season: the book of sorties, routines and remarks.

#include "engine/cli/season.h"

#include <array>
#include <chrono>
#include <cstdio>
#include <vector>

#include "engine/base/nearest_word.h"
#include "engine/cli/commands.h"
#include "engine/load/demo_name.h"
#include "engine/record/clock_text.h"
#include "engine/season/sorties.h"

namespace plumbline::cli {

namespace {

constexpr std::array kWords = {
    Command{"add", "a flown sortie, or a routine: LOG... --plan ROUTINE", runSeasonAdd},
    Command{"list", "the sorties and routines there are", runSeasonList},
    Command{"sortie", "all there is of one: NUMBER", runSeasonSortie},
    Command{"remove", "a sortie or a routine out of the book", runSeasonRemove},
    Command{"note", "weather and notes of a sortie: NUMBER --notes TEXT", runSeasonNote},
    Command{"remark", "a remark on a moment: ABOUT --at 95s --by NAME TEXT", runSeasonRemark},
    Command{"remarks", "the remarks there are, or those on one sortie or routine",
            runSeasonRemarks},
    Command{"trends", "how the numbers of each figure go: --figure NAME", runSeasonTrends},
    Command{"currency", "days since, and how much was flown lately", runSeasonCurrency},
    Command{"loads", "what each airframe has felt since its last overhaul", runSeasonLoads},
    Command{"overhaul", "an airframe begins anew: AIRFRAME --on DAY", runSeasonOverhaul},
    Command{"export", "all of it as tables: -o FOLDER", runSeasonExport},
};

void printHelp(std::FILE* to) {
    std::fputs(
        "plumbline season: the book of sorties, routines and remarks\n"
        "\nUsage: plumbline season WORD ...\n\n",
        to);
    for (const Command& word : kWords)
        std::fprintf(to, "  %-9.*s %.*s\n", static_cast<int>(word.name.size()), word.name.data(),
                     static_cast<int>(word.summary.size()), word.summary.data());
    const std::string usual = season::usualBook().string();
    std::fprintf(to,
                 "\nEach has --help, with an example. The book is %s;\n--book FILE names another. "
                 "It is one file: copy it to keep it safe.\n\nExample:\n  plumbline season add "
                 "morning.csv --plan evening.routine.toml --on 2026-05-14\n",
                 usual.empty() ? "nowhere unless named" : usual.c_str());
}

Problems problemOf(const std::string& file, std::string what, std::string remedy) {
    Problem problem;
    problem.where.file = file;
    problem.what = std::move(what);
    problem.remedy = std::move(remedy);
    return {problem};
}

}  // namespace

int runSeason(const Arguments& arguments) {
    if (arguments.empty() || arguments[0] == "--help" || arguments[0] == "-h") {
        printHelp(arguments.empty() ? stderr : stdout);
        return arguments.empty() ? kBadInput : kDone;
    }
    const std::string& name = arguments.front();
    std::vector<std::string_view> names;
    for (const Command& word : kWords) {
        if (word.name == name) return word.run({arguments.begin() + 1, arguments.end()});
        names.push_back(word.name);
    }
    const std::string nearest(nearestWord(name, names));
    std::fprintf(stderr, "plumbline season: there is no word \"%s\": %s\n", name.c_str(),
                 nearest.empty() ? "see plumbline season --help"
                                 : ("did you mean " + nearest + "?").c_str());
    return kBadInput;
}

void addBookOption(CLI::App& app, std::string& file) {
    app.add_option("--book", file, "the season's book; without it the usual one of this person")
        ->type_name("FILE");
}

Expected<season::Book, Problems> openBook(const std::string& file, season::Book::Access access) {
    return season::Book::open(file.empty() ? season::usualBook() : std::filesystem::path(file),
                              access);
}

double now_utc_s() {
    return std::chrono::duration<double>(std::chrono::system_clock::now().time_since_epoch())
        .count();
}

std::string momentWords(double utc_s) {
    std::string words = record::formatUtc(utc_s);  // 2009-10-17T18:37:26Z
    words[10] = ' ';
    words.resize(16);
    return words.ends_with(" 00:00") ? words.substr(0, 10) : words;
}

Expected<double, Problems> parseMoment(const std::string& option, const std::string& text) {
    if (const std::optional<double> utc_s = record::parseUtc(text)) return *utc_s;
    if (const std::optional<double> day_s = record::parseDate(text)) return *day_s;
    const std::size_t blank = text.find(' ');
    if (blank != text.npos) {
        const auto day_s = record::parseDate(std::string_view(text).substr(0, blank));
        const auto time_s = record::parseTimeOfDay(std::string_view(text).substr(blank + 1));
        if (day_s && time_s) return *day_s + *time_s;
    }
    return Unexpected(problemOf(option, "\"" + text + "\" is no date",
                                "write it as 2026-05-14 or \"2026-05-14 10:30\", in UTC"));
}

Expected<season::Subject, Problems> subjectOf(season::Book& book, const std::string& about) {
    if (about.find_first_not_of("0123456789") == about.npos && about.size() < 10) {
        const auto sortie = season::sortie(book, std::stoll("0" + about));
        if (!sortie) return Unexpected(sortie.error());
        return season::Subject{season::Subject::Kind::Sortie, sortie->key};
    }
    const auto routines = season::routines(book);
    if (!routines) return Unexpected(routines.error());
    for (const season::Routine& routine : *routines)
        if (routine.name == about) return season::aboutRoutine(about);
    std::error_code error;
    const bool demo = load::meansDemo(about);
    if (!demo && !std::filesystem::exists(about, error))
        return Unexpected(problemOf(about, "neither a sortie's number nor a routine",
                                    "plumbline season list tells the numbers and names"));
    const auto workspace = demo ? load::loadDemo() : load::loadWorkspace(about);
    if (!workspace) return Unexpected(workspace.error());
    return season::aboutRoutine(workspace->routine.name);
}

}  // namespace plumbline::cli

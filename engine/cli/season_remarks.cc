// plumbline season remark, remarks.

#include <cstdio>

#include "engine/cli/season.h"
#include "engine/cli/table.h"
#include "engine/season/sorties.h"

namespace plumbline::cli {

namespace {

/// The remark of that number.
Expected<season::Remark, Problems> remarkOf(season::Book& book, std::int64_t id) {
    auto all = season::allRemarks(book);
    if (!all) return Unexpected(std::move(all.error()));
    for (season::Remark& remark : *all)
        if (remark.id == id) return std::move(remark);
    return Unexpected(book.problem("there is no remark " + std::to_string(id),
                                   "plumbline season remarks lists those there are"));
}

}  // namespace

int runSeasonRemark(const Arguments& arguments) {
    OptionParser parser("season remark",
                        "Keeps a remark on a moment of a sortie or a routine; changes one, or "
                        "drops it.",
                        "plumbline season remark 3 --at 95s --by Coach \"late on the pull\"\n  "
                        "plumbline season remark --change 7 \"late on the push\"");
    std::string file;
    std::vector<std::string> words;
    std::optional<std::string> at, by;
    std::int64_t change = 0, drop = 0;
    CLI::App& app = parser.app();
    app.add_option("WORDS", words,
                   "what it is about (a sortie's number, or a routine: its file or its name), then "
                   "the remark; with --change the remark alone")
        ->type_name("ABOUT TEXT");
    app.add_option("--at", at, "when, from the start of the flight or the routine: 95s")
        ->type_name("TIME");
    app.add_option("--by", by, "whose it is")->type_name("NAME");
    CLI::Option* changes = app.add_option("--change", change, "another text, time or author for it")
                               ->type_name("NUMBER");
    app.add_option("--drop", drop, "take it out")->type_name("NUMBER")->excludes(changes);
    addBookOption(app, file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    std::optional<double> time_s;
    if (at) {
        const auto parsed = units::parseQuantity(*at, units::Dimension::Time);
        if (!parsed) return refuse("--at", parsed.error().what, parsed.error().remedy);
        time_s = *parsed;
    }
    const std::size_t wanted = drop != 0 ? 0 : change != 0 ? 1 : 2;
    if (words.size() > wanted || (change == 0 && words.size() < wanted))
        return refuse("plumbline season remark", "what is it about, and what is the remark?",
                      "give both, the remark in quotes: see plumbline season remark --help");
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    const auto now = static_cast<std::int64_t>(now_utc_s());
    if (drop != 0) {
        const Problems problems = season::deleteRemark(*book, drop);
        return problems.empty() ? kDone : refuse(problems);
    }
    if (change != 0) {
        auto remark = remarkOf(*book, change);
        if (!remark) return refuse(remark.error());
        if (!words.empty()) remark->words = words[0];
        if (by) remark->by = *by;
        if (time_s) remark->time_s = *time_s;
        const Problems problems = season::changeRemark(*book, *remark, now);
        return problems.empty() ? kDone : refuse(problems);
    }
    if (!time_s)
        return refuse("plumbline season remark", "which moment is it on?",
                      "give --at with a time: --at 95s");
    const auto about = subjectOf(*book, words[0]);
    if (!about) return refuse(about.error());
    season::Remark remark;
    remark.about = *about;
    remark.time_s = *time_s;
    remark.by = by.value_or("");
    remark.words = words[1];
    remark.written_utc_s = now;
    const auto kept = season::addRemark(*book, remark);
    if (!kept) return refuse(kept.error());
    std::printf("remark %lld\n", static_cast<long long>(kept->id));
    return kDone;
}

int runSeasonRemarks(const Arguments& arguments) {
    OptionParser parser("season remarks", "Lists the remarks of the season's book.",
                        "plumbline season remarks 3");
    std::string file, wanted;
    parser.app().add_option(
        "ABOUT", wanted, "a sortie's number, or a routine: its file or its name; without it all");
    addBookOption(parser.app(), file);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;
    auto book = openBook(file, season::Book::Access::Existing);
    if (!book) return refuse(book.error());
    auto remarks = season::allRemarks(*book);
    if (!wanted.empty()) {
        const auto about = subjectOf(*book, wanted);
        if (!about) return refuse(about.error());
        remarks = season::remarksOn(*book, *about);
    }
    if (!remarks) return refuse(remarks.error());
    const auto sorties = season::sorties(*book);
    if (!sorties) return refuse(sorties.error());
    std::vector<std::vector<std::string>> rows = {{"remark", "on", "at", "by", "words"}};
    for (const season::Remark& r : *remarks) {
        std::string on = r.about.key;
        if (r.about.kind == season::Subject::Kind::Sortie) {
            on = "a sortie not in the book";
            for (const season::Sortie& s : *sorties)
                if (s.key == r.about.key) on = "sortie " + std::to_string(s.id);
        }
        rows.push_back({std::to_string(r.id), on, units::formatTime(r.time_s), r.by, r.words});
    }
    if (rows.size() > 1)
        printTable(stdout, rows);
    else
        std::puts("no remarks");
    return kDone;
}

}  // namespace plumbline::cli

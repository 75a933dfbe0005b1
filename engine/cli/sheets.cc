#include "engine/cli/sheets.h"

#include <cstdio>

#ifndef __EMSCRIPTEN__
#include "engine/page/font_files.h"
#include "engine/record/clock_text.h"
#include "engine/season/last_times.h"
#include "engine/season/remarks.h"
#include "engine/sheets/folder.h"
#endif

namespace plumbline::cli {

void addSheetOptions(CLI::App& app, SheetOptions& options) {
    app.add_option("-o,--output", options.folder,
                   "write the debrief and the crew's sheet as PDF, and the tables as CSV and JSON, "
                   "into this folder")
        ->type_name("DIR");
    app.add_option(
           "--book", options.book,
           "the season's book that tells how the same routine went before, if not the usual "
           "one")
        ->type_name("FILE");
    addPaperOptions(app, options);
}

void addPaperOptions(CLI::App& app, SheetOptions& options) {
    app.add_option("--paper", options.paper, "a4 or letter; default a4")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->type_name("NAME");
    addFontOption(app, options.fonts);
}

void addFontOption(CLI::App& app, std::vector<std::string>& files) {
    app.add_option("--font", files,
                   "a font file (TrueType, OpenType) for scripts that the built-in font lacks; may "
                   "be given several times")
        ->type_name("FILE")
        ->expected(1)
        ->multi_option_policy(CLI::MultiOptionPolicy::TakeAll);
}

#ifdef __EMSCRIPTEN__

int writeSortie(const SheetOptions&, const Reviewed&) {
    return refuse("-o", "this program was built without sheets to print",
                  "use the program of a desktop");
}

#else

page::Paper paperOf(const SheetOptions& options) {
    return page::paperNamed(options.paper).value_or(page::Paper::A4);
}

namespace {

/// What the season's book has of the same routine; a book that cannot be read only costs that.
std::vector<season::LastTimes> lastTimesOf(const SheetOptions& options, const Reviewed& reviewed) {
    const std::filesystem::path file =
        options.book.empty() ? season::usualBook() : std::filesystem::path(options.book);
    std::error_code failed;
    if (file.empty() || !std::filesystem::exists(file, failed)) return {};
    auto book = season::Book::open(file, season::Book::Access::Existing);
    if (!book) {
        printProblems(book.error());
        return {};
    }
    season::Sortie sortie = season::sortieOf(reviewed.review, {}, {}, reviewed.flight.known);
    if (const auto utc_s = record::parseUtc(reviewed.start_utc))
        sortie.flown_utc_s = static_cast<std::int64_t>(*utc_s);
    season::LastWish wish;
    wish.routine = reviewed.flown.workspace.routine.name;
    wish.key = season::sortieKey(reviewed.files);
    auto last = season::lastTimes(*book, reviewed.review, sortie, wish);
    if (last) return std::move(*last);
    printProblems(last.error());
    return {};
}

}  // namespace

int writeSortie(const SheetOptions& options, const Reviewed& reviewed) {
    const Expected<page::Fonts, Problems> fonts = page::openFonts(options.fonts);
    if (!fonts) return refuse(fonts.error());
    sheets::Sortie sortie;
    sortie.flight = &reviewed.flight;
    sortie.plan = &reviewed.plan;
    sortie.workspace = &reviewed.flown.workspace;
    sortie.review = &reviewed.review;
    sortie.variant = reviewed.flown.label;
    sortie.start_utc = reviewed.start_utc;
    sortie.log_revision = reviewed.log.words();
    sortie.notes = reviewed.notes;
    sortie.units = reviewed.units;
    sortie.last = lastTimesOf(options, reviewed);
    const sheets::Print print{paperOf(options), &*fonts};
    const Expected<std::vector<sheets::File>, Problems> files = sheets::sortieFiles(sortie, print);
    if (!files) return refuse(files.error());
    if (const Problems problems = sheets::writeFiles(options.folder, *files); !problems.empty())
        return refuse(problems);
    if (const std::string missing = fonts->missing(); !missing.empty())
        std::fprintf(stderr, "no font has these letters: %s: give one that does with --font FILE\n",
                     missing.c_str());
    std::printf("written into %s:", options.folder.c_str());
    for (const sheets::File& file : *files) std::printf(" %s", file.name.c_str());
    std::puts("");
    return kDone;
}

#endif

}  // namespace plumbline::cli

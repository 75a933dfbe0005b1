#include "engine/cli/sheets.h"

#include <cstdio>

#ifndef __EMSCRIPTEN__
#include "engine/sheets/folder.h"
#include "engine/system/whole_file.h"
#endif

namespace plumbline::cli {

void addSheetOptions(CLI::App& app, SheetOptions& options) {
    app.add_option("-o,--output", options.folder,
                   "write the debrief and the crew's sheet as PDF, and the tables as CSV and JSON, "
                   "into this folder")
        ->type_name("DIR");
    addPaperOptions(app, options);
}

void addPaperOptions(CLI::App& app, SheetOptions& options) {
    app.add_option("--paper", options.paper, "a4 or letter; default a4")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->type_name("NAME");
    app.add_option("--font", options.fonts,
                   "a font file for letters that the built-in one lacks; may be given again")
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

Expected<page::Fonts, Problems> openFonts(const std::vector<std::string>& files) {
    page::Fonts fonts;
    Problems problems;
    for (const std::string& name : files) {
        system::ReadFile file = system::readWholeFile(name);
        std::string reason = file.reason;
        if (file.bytes) reason = fonts.add(std::move(*file.bytes));
        if (reason.empty()) continue;
        Problem problem;
        problem.where.file = name;
        problem.what = "this font cannot be used: " + reason;
        problem.remedy = "give a .ttf or .otf file";
        problems.push_back(std::move(problem));
    }
    if (!problems.empty()) return Unexpected(std::move(problems));
    return fonts;
}

int writeSortie(const SheetOptions& options, const Reviewed& reviewed) {
    const Expected<page::Fonts, Problems> fonts = openFonts(options.fonts);
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

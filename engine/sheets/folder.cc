#include "engine/sheets/folder.h"

#include "engine/review/load_book.h"
#include "engine/review/review_json.h"
#include "engine/sheets/crew.h"
#include "engine/sheets/debrief.h"
#include "engine/sheets/tables_csv.h"
#include "engine/system/whole_file.h"

namespace plumbline::sheets {

namespace fs = std::filesystem;

namespace {

Problem problem(const std::string& file, const std::string& what, const std::string& remedy) {
    Problem out;
    out.where.file = file;
    out.what = what;
    out.remedy = remedy;
    return out;
}

}  // namespace

Expected<std::vector<File>, Problems> sortieFiles(const Sortie& sortie, const Print& print) {
    std::vector<File> files;
    Problems problems;
    const auto take = [&](const char* name, Expected<std::string, std::string> made) {
        if (made)
            files.push_back({name, std::move(*made)});
        else
            problems.push_back(problem(name, "this page could not be made: " + made.error(),
                                       "try again; report it if it stays so"));
    };
    take("debrief.pdf", debriefPdf(sortie, print));
    take("crew.pdf", crewPdf(sortie, print));
    const load::Workspace& workspace = *sortie.workspace;
    const earth::SiteAir air(workspace.site.show_centre.elevation_m,
                             workspace.weather.temperature_k, workspace.weather.qnh_pa);
    files.push_back(
        {"review.json",
         review::reviewJson(*sortie.review, workspace.routine.name,
                            review::crewSheetOf(*sortie.flight, workspace.aircraft.limits, air),
                            review::loadBookOf(*sortie.flight), sortie.flight->known) +
             "\n"});
    for (File& table : reviewTables(sortie)) files.push_back(std::move(table));
    if (!problems.empty()) return Unexpected(std::move(problems));
    return files;
}

Problems writeFiles(const fs::path& folder, const std::vector<File>& files) {
    std::vector<system::NamedContent> contents;
    for (const File& file : files) contents.push_back({file.name, file.bytes});
    const std::string reason = system::writeWholeFiles(folder, contents);
    if (reason.empty()) return {};
    return {problem(folder.generic_string(), "cannot be written into: " + reason,
                    "give a folder that may be written to")};
}

}  // namespace plumbline::sheets

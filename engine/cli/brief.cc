// plumbline brief: the sheets for pilot, narrator and display director.

#include "engine/brief/brief.h"

#include <cmath>
#include <cstdio>

#include "engine/base/number_text.h"
#include "engine/check/check.h"
#include "engine/cli/commands.h"
#include "engine/cli/options.h"
#include "engine/cli/pace.h"
#include "engine/cli/sheets.h"
#include "engine/out/viewer_page.h"
#include "engine/page/font_files.h"
#include "engine/system/whole_file.h"

namespace plumbline::cli {

namespace {

/// "140 words/min", "140/min".
std::optional<double> readPace(std::string text) {
    for (const std::string_view unit : {"words/min", "/min", "words a minute"})
        if (text.size() > unit.size() && text.ends_with(unit)) {
            text.resize(text.size() - unit.size());
            while (!text.empty() && text.back() == ' ') text.pop_back();
            const std::optional<double> pace = parseDouble(text);
            constexpr double kLeast = 40, kMost = 300;  // chosen: slower and faster nobody speaks
            if (pace && *pace >= kLeast && *pace <= kMost) return pace;
            return std::nullopt;
        }
    return std::nullopt;
}

/// The page to send by mail.
struct PageOptions {
    bool wanted = false;  ///< by name: it is amiss when it cannot be made
    std::vector<std::string> logs;
};

/// @return nothing: it was not asked for and there is no viewer for browsers, which was said
Expected<std::optional<out::ViewerPage>, Problems> makePage(const RoutineOptions& options,
                                                            const PageOptions& page,
                                                            units::DisplayUnits units) {
    const bool wanted = page.wanted || !page.logs.empty();
    const Expected<std::string, Problems> viewer = out::viewerForBrowsers();
    if (!viewer) {
        if (wanted) return Unexpected(viewer.error());
        std::fprintf(stderr, "%s: no page to send by mail: %s: %s\n", options.routine.c_str(),
                     viewer.error().front().what.c_str(), viewer.error().front().remedy.c_str());
        return std::optional<out::ViewerPage>();
    }
    const Expected<variant::Wish, Problems> variant = readVariant(options.variant, units);
    if (!variant) return Unexpected(variant.error());
    out::PageWish wish;
    if (!isDemo(options)) wish.routine = options.routine;
    wish.overrides = options.variant.overrides;
    wish.variant = *variant;
    wish.logs.assign(page.logs.begin(), page.logs.end());
    Expected<out::ViewerPage, Problems> made = out::makeViewerPage(*viewer, wish);
    if (made) {
        printRemarks(out::kPageName, made->left_out);
        return std::optional<out::ViewerPage>(std::move(*made));
    }
    if (wanted) return Unexpected(std::move(made).error());
    std::fprintf(stderr, "%s: no page to send by mail:\n", options.routine.c_str());
    printProblems(made.error());
    return std::optional<out::ViewerPage>();
}

}  // namespace

int runBrief(const Arguments& arguments) {
    OptionParser parser(
        "brief",
        "Writes the sheets that everyone is briefed with, as PDF: card.pdf for the "
        "pilot's knee, cues.pdf for the narrator, director.pdf for the display "
        "director; the narrator's script as captions: captions.vtt (WebVTT), captions.srt; and "
        "page.html, the whole viewer with the routine in one file, which opens in a browser.",
        "plumbline brief evening.routine.toml -o evening\n"
        "  plumbline brief demo --paper letter --units feet --pace 130/min -o demo\n"
        "  plumbline brief evening.routine.toml --sortie friday.igc -o evening");
    RoutineOptions options;
    brief::Wishes wishes;
    std::string folder, pace = "140/min", paper = "a4";
    std::vector<std::string> font_files;
    PageOptions page_options;
    addRoutineOptions(parser.app(), options);
    parser.app()
        .add_option("-o,--output", folder, "the folder for the sheets; made if it is not there")
        ->type_name("DIR")
        ->required();
    parser.app()
        .add_option("--paper", paper, "a4 (the card on a5) or letter (the card on half-letter)")
        ->check(CLI::IsMember({"a4", "letter"}))
        ->type_name("SIZE");
    parser.app()
        .add_option("--pace", pace, "how fast the narrator speaks, default 140/min (words)")
        ->type_name("N/min");
    addFontOption(parser.app(), font_files);
    parser.app()
        .add_option("--flights", wishes.flights,
                    "imperfect flights for the windows of the cues, default 200")
        ->check(CLI::Range(std::uint64_t{20}, std::uint64_t{100000}))
        ->type_name("N");
    parser.app()
        .add_option("--seed", wishes.seed, "which flights are drawn, default 1")
        ->type_name("S");
    parser.app().add_flag("--page", page_options.wanted,
                          "page.html is a must: without the viewer for browsers it is an error");
    parser.app()
        .add_option("--sortie", page_options.logs,
                    "recordings of one flight that page.html shows over the routine")
        ->type_name("LOG...");
    addUnitsOption(parser.app(), wishes.units);
    if (const std::optional<int> done = parser.parse(arguments)) return *done;

    wishes.letter = paper == "letter";
    const std::optional<double> words_per_min = readPace(pace);
    if (!words_per_min)
        return refuse("--pace", "\"" + pace + "\" is no number of words a minute",
                      "give 40/min to 300/min");
    wishes.words_per_min = *words_per_min;
    const Expected<page::Fonts, Problems> fonts = page::openFonts(font_files);
    if (!fonts) return refuse(fonts.error());
    const Expected<variant::Flown, Problems> flown = flyRoutine(options, wishes.units);
    if (!flown) return refuse(flown.error());
    printRemarks(options.routine, flown->remarks);
    const Expected<std::optional<out::ViewerPage>, Problems> page =
        makePage(options, page_options, wishes.units);
    if (!page) return refuse(page.error());
    Pace progress(1);
    wishes.executor = system::parallel();
    wishes.progress = [&](std::uint64_t done) {
        const double share = static_cast<double>(done) / static_cast<double>(wishes.flights);
        if (done != wishes.flights && progress.due())
            std::fprintf(stderr, "brief: %.0f %% of the flights for the cues, about %.0f s left\n",
                         100 * share, std::ceil(progress.left_s(share)));
        return true;
    };
    const Expected<brief::Brief, std::string> made = brief::makeBrief(*flown, *fonts, wishes);
    if (!made) return refuse(folder, "the pages cannot be made: " + made.error(), "report this");
    std::vector<system::NamedContent> files;
    for (const brief::Sheet& sheet : made->sheets) files.push_back({sheet.file, sheet.bytes});
    for (const brief::TextFile& captions : made->captions)
        files.push_back({captions.file, captions.text});
    if (*page) files.push_back({out::kPageName, (*page)->html});
    if (const std::string reason = system::writeWholeFiles(folder, files); !reason.empty())
        return refuse(folder, "cannot be written: " + reason,
                      "give a folder that may be written to");
    printRemarks(options.routine, made->remarks);
    for (const brief::Sheet& sheet : made->sheets)
        std::printf("%s/%s, %d %s\n", folder.c_str(), sheet.file.c_str(), sheet.pages,
                    sheet.pages == 1 ? "page" : "pages");
    for (const brief::TextFile& captions : made->captions)
        std::printf("%s/%s\n", folder.c_str(), captions.file.c_str());
    if (*page)
        std::printf("%s/%s, %.1f MB, carries %zu %s\n", folder.c_str(), out::kPageName,
                    static_cast<double>((*page)->html.size()) / 1e6, (*page)->files,
                    (*page)->files == 1 ? "file" : "files");
    std::printf("%s\n", check::caution());
    return kDone;
}

}  // namespace plumbline::cli

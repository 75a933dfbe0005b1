// Writes the brief that is looked at, beside the routine.

#include <map>
#include <string>
#include <utility>

#include "engine/out/viewer_page.h"
#include "engine/page/font_files.h"
#include "engine/system/whole_file.h"
#include "viewer/model/beside_frames.h"
#include "viewer/model/brief_desk.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"

namespace plumbline::model {
namespace {

/// Of the routine as it is written here, be it saved or not.
out::PageWish pageOf(const Model& model) {
    out::PageWish wish;
    wish.routine = model.editor.files.front().file;
    wish.overrides = model.overrides;
    wish.variant = model.variant;
    std::map<std::filesystem::path, std::string> texts;
    for (const EditedFile& file : model.editor.files) texts[file.file] = file.buffer.text();
    wish.files = [texts = std::move(texts)](const std::filesystem::path& file) {
        const auto text = texts.find(file);
        return text == texts.end() ? system::readWholeFile(file)
                                   : system::ReadFile{text->second, ""};
    };
    return wish;
}

}  // namespace

std::filesystem::path briefFolder(const Model& model) {
    if (!model.editor.open() || model.editor.built_in) return {};
    const std::filesystem::path& file = model.editor.files.front().file;
    std::string name = file.filename().string();
    name = name.substr(0, name.find(".routine.toml"));
    return file.parent_path() / (name + "-brief");
}

void BriefDesk::write(Model& model) {
    if (!model.shown || !model.shown->workspace || !model.editor.stand_in.empty()) {
        say(model, "There is no flown routine to brief", true);
        return;
    }
    const std::filesystem::path folder = briefFolder(model);
    if (folder.empty()) {
        say(model, "The pages go beside the routine: save it first (Ctrl S)", true);
        return;
    }
    if (writing_.busy()) {
        say(model, "The pages before are still being written", true);
        return;
    }
    if (model.shown->draft || (model.editor.open() && !model.editor.problems.empty())) {
        say(model, "The routine is not flown as it is written yet: mend or wait, then write", true);
        return;
    }
    say(model, "The pages are being written");
    writing_ = system::Later<Outcome>::begin(
        [wish = wishOf(model), page_wish = pageOf(model), folder]() -> Outcome {
            const Expected<page::Fonts, Problems> fonts = page::openFonts(wish.fonts);
            if (!fonts) return {describe(fonts.error().front()), true};
            brief::Wishes wishes;
            wishes.letter = wish.letter;
            wishes.units = wish.units;
            wishes.words_per_min = wish.words_per_min;
            wishes.executor = halfTheCores();
            const auto made = brief::makeBrief(flownOf(*wish.shown), *fonts, wishes);
            if (!made) return {"The pages cannot be made: " + made.error(), true};
            std::vector<system::NamedContent> files;
            for (const brief::Sheet& sheet : made->sheets)
                files.push_back({sheet.file, sheet.bytes});
            for (const brief::TextFile& file : made->captions)
                files.push_back({file.file, file.text});
            // The viewer for browsers need not be installed.
            const Expected<std::string, Problems> viewer = out::viewerForBrowsers();
            std::string why_no_page = viewer ? "" : viewer.error().front().what;
            std::optional<out::ViewerPage> page;
            if (viewer) {
                if (auto html = out::makeViewerPage(*viewer, page_wish)) {
                    page = std::move(*html);
                    files.push_back({out::kPageName, page->html});
                } else {
                    why_no_page = html.error().front().what;
                }
            }
            if (const std::string reason = system::writeWholeFiles(folder, files); !reason.empty())
                return {folder.string() + " cannot be written: " + reason, true};
            if (page)
                return {"Card, cue sheet, director's sheet, captions and the page to send are in " +
                            folder.string(),
                        false};
            return {"Card, cue sheet, director's sheet and captions are in " + folder.string() +
                        "; no page to send: " + why_no_page,
                    false};
        });
}

}  // namespace plumbline::model

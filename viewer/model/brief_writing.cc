// Writes the brief that is looked at, beside the routine.

#include <utility>

#include "engine/page/font_files.h"
#include "engine/system/whole_file.h"
#include "viewer/model/beside_frames.h"
#include "viewer/model/brief_desk.h"
#include "viewer/model/model.h"
#include "viewer/model/say.h"

namespace plumbline::model {

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
    writing_ = system::Later<Outcome>::begin([wish = wishOf(model), folder]() -> Outcome {
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
        for (const brief::Sheet& sheet : made->sheets) files.push_back({sheet.file, sheet.bytes});
        for (const brief::TextFile& file : made->captions) files.push_back({file.file, file.text});
        if (const std::string reason = system::writeWholeFiles(folder, files); !reason.empty())
            return {folder.string() + " cannot be written: " + reason, true};
        return {"Card, cue sheet, director's sheet and captions are in " + folder.string(), false};
    });
}

}  // namespace plumbline::model

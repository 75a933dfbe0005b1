#include "viewer/model/keeper.h"

#include <algorithm>
#include <utility>

#include "engine/system/whole_file.h"
#include "viewer/model/kept_text.h"
#include "viewer/model/named_files.h"
#include "viewer/model/say.h"
#include "viewer/model/text_merge.h"

namespace plumbline::model {
namespace {

namespace fs = std::filesystem;

constexpr double kRest_s = 0.4;    // chosen: a pause in typing
constexpr double kLatest_s = 0.8;  // chosen: with the writing, never more than a second is lost
constexpr double kLookEach_s = 1;
constexpr int kMostWindows = 16;

std::uint64_t revisionOf(const Editor& editor) {
    std::uint64_t sum = 0;
    for (const EditedFile& file : editor.files) sum += file.buffer.revision();
    return sum;
}

std::string nameOf(const EditedFile& file) { return file.file.filename().string(); }

Question::Choice choice(std::string words, ActionKind kind) {
    Question::Choice out;
    out.words = std::move(words);
    out.action.kind = kind;
    return out;
}

void ask(Model& model, const EditedFile& file) {
    model.question = Question();
    model.question.text =
        nameOf(file) + " was changed outside, in the same lines as here. Whose text goes on?";
    model.question.choices = {
        choice("Mine", ActionKind::KeepMine),
        choice("The one outside (undo brings mine back)", ActionKind::TakeTheirs)};
}

/// What is on the disk comes into the text, beside the changes made here.
/// @return false: both changed the same lines
bool takeIn(EditedFile& file, const std::string& disk) {
    const MergedText merged = mergeTexts(file.base, file.buffer.text(), disk);
    if (merged.clash) return false;
    file.buffer.endTyping();
    file.buffer.become(merged.text);
    file.base = disk;
    return true;
}

void keepCaretInside(Editor& editor) {
    const std::size_t size = editor.text().size();
    editor.caret = std::min(editor.caret, size);
    editor.anchor = std::min(editor.anchor, size);
}

void sayUnkept(Model& model, const std::string& reason) {
    say(model,
        "What is not saved cannot be put aside (" + reason +
            "): a crash would lose it. Ctrl S saves, Ctrl Shift S elsewhere",
        true);
}

}  // namespace

fs::path Keeper::keptFile() const { return folder_ / keptName(claimed_name_, window_); }

void Keeper::claim(const std::string& name) {
    claim_.letGo();
    window_ = -1;
    claimed_name_ = name;
    if (folder_.empty()) return;
    std::error_code ignored;
    fs::create_directories(folder_, ignored);
    for (int i = 0; i < kMostWindows; ++i) {
        if (!claim_.take(folder_ / (keptName(name, i) + ".window"))) continue;
        window_ = i;
        return;
    }
}

void Keeper::opened(Model& model, const fs::path& file, std::string text, bool built_in) {
    std::error_code failed;
    const fs::path absolute = built_in ? file : fs::absolute(file, failed);
    beginEditing(model.editor, built_in || failed ? file : absolute, std::move(text), built_in);
    model.question = Question();
    others_.clear();
    on_disk_ = !built_in;
    claim(model.editor.files.front().file.generic_string());
    kept_revision_ = seen_revision_ = revisionOf(model.editor);
    unkept_s_ = rested_s_ = 0;
    model.editor.saved = model.shown;
    bringBack(model);
    refreshRows(model);
}

void Keeper::bringBack(Model& model) {
    if (window_ < 0) return;
    const system::ReadFile read = system::readWholeFile(keptFile());
    const auto kept = read.bytes ? keptFromBytes(*read.bytes) : std::nullopt;
    if (!kept) return;
    bool any = false, all_merged = true;
    for (const KeptText& one : *kept) {
        const int index = openFile(model.editor, fs::u8path(one.file));
        if (index < 0) continue;
        EditedFile& file = model.editor.files[static_cast<std::size_t>(index)];
        if (one.text == file.base) continue;
        const std::string disk = file.base;
        file.base = one.base;
        file.buffer.become(one.text);
        all_merged = takeIn(file, disk) && all_merged;
        file.base = disk;
        any = true;
    }
    if (!any) return;
    say(model, all_merged ? "Changes that were not saved are back. Ctrl Z takes them out again"
                          : "Changes that were not saved are back, in place of what somebody else "
                            "wrote since. Ctrl Z shows that text");
}

void Keeper::closed(Model& model) {
    model.editor = Editor();
    claim_.letGo();
    window_ = -1;
}

std::string Keeper::putAside(const Model& model) {
    if (folder_.empty() || !model.editor.open()) return "";
    unkept_s_ = rested_s_ = 0;
    const std::uint64_t revision = revisionOf(model.editor);
    std::vector<KeptText> kept;
    for (const EditedFile& file : model.editor.files) {
        if (!file.changed()) continue;
        kept.push_back({file.file.generic_string(), file.base, file.buffer.text()});
    }
    std::string failure;
    if (window_ < 0) {
        if (!kept.empty()) failure = folder_.generic_string() + " cannot be written";
    } else if (kept.empty()) {
        std::error_code ignored;
        fs::remove(keptFile(), ignored);
    } else {
        failure = system::writeWholeFile(keptFile(), keptBytes(kept));
    }
    if (failure.empty()) kept_revision_ = revision;
    return failure;
}

/// A failure is said once, and tried again after each pause.
void Keeper::putAsideNow(Model& model) {
    const std::string said = unkept_reason_;
    unkept_reason_ = putAside(model);
    if (!unkept_reason_.empty() && unkept_reason_ != said) sayUnkept(model, unkept_reason_);
}

bool Keeper::putAsideOrSay(Model& model) {
    unkept_reason_ = putAside(model);
    if (unkept_reason_.empty()) return true;
    sayUnkept(model, unkept_reason_);
    return false;
}

void Keeper::giveUp(Model& model) {
    std::error_code ignored;
    if (window_ >= 0) fs::remove(keptFile(), ignored);
    Editor fresh;
    fresh.asked = model.editor.asked;
    fresh.answered = model.editor.answered;
    model.editor = std::move(fresh);
}

void Keeper::tick(Model& model, double elapsed_s) {
    if (!model.editor.open()) return;
    const std::uint64_t revision = revisionOf(model.editor);
    rested_s_ = revision == seen_revision_ ? rested_s_ + elapsed_s : 0;
    seen_revision_ = revision;
    if (revision != kept_revision_) {
        unkept_s_ += elapsed_s;
        if (rested_s_ >= kRest_s || unkept_s_ >= kLatest_s) putAsideNow(model);
    }
    looked_s_ += elapsed_s;
    if (on_disk_ && looked_s_ >= kLookEach_s && model.question.choices.empty()) look(model);
}

void Keeper::look(Model& model) {
    looked_s_ = 0;
    for (EditedFile& file : model.editor.files) {
        const system::ReadFile read = system::readWholeFile(file.file);
        if (!read.bytes || *read.bytes == file.base) continue;
        if (takeIn(file, *read.bytes)) {
            say(model, nameOf(file) + " was changed outside: the changes are in, yours stay");
        } else {
            ask(model, file);
        }
        keepCaretInside(model.editor);
    }
    lookAtOthers(model);
}

/// Aircraft, site, weather, pilot and figure files that are only read.
void Keeper::lookAtOthers(Model& model) {
    if (!model.shown || !model.shown->workspace || !model.editor.stand_in.empty()) return;
    const load::Workspace& workspace = *model.shown->workspace;
    const routine::Routine& routine = workspace.routine;
    std::vector<std::string> names{routine.aircraft_file, routine.site_file, routine.weather_file,
                                   routine.pilot_file};
    for (const routine::RoutineFigure& figure : routine.figures) {
        names.push_back(figure.figure_file);
    }
    for (const std::string& name : names) {
        const fs::path file = workspace.routine_path.parent_path() / name;
        const auto written = [&file](const EditedFile& edited) { return edited.file == file; };
        const std::vector<EditedFile>& files = model.editor.files;
        if (file.extension() != ".toml" || std::any_of(files.begin(), files.end(), written)) {
            continue;
        }
        std::error_code failed;
        const fs::file_time_type now = fs::last_write_time(file, failed);
        if (failed) continue;
        const auto seen = others_.emplace(file, now);
        if (seen.first->second == now) continue;
        seen.first->second = now;
        world_changed_ = true;
        say(model, name + " was changed outside: flown anew with it");
    }
}

bool Keeper::save(Model& model) {
    for (EditedFile& file : model.editor.files) {
        if (!file.changed()) continue;
        const system::ReadFile read = system::readWholeFile(file.file);
        if (read.bytes && *read.bytes != file.base && !takeIn(file, *read.bytes)) {
            ask(model, file);
            return false;
        }
        const std::string failure = system::writeWholeFile(file.file, file.buffer.text());
        if (!failure.empty()) {
            say(model,
                nameOf(file) + " cannot be saved (" + failure +
                    "): Ctrl Shift S saves it elsewhere; nothing is lost meanwhile",
                true);
            return false;
        }
        file.base = file.buffer.text();
        file.buffer.endTyping();
    }
    putAside(model);
    model.editor.saved = model.shown;
    say(model, "Saved");
    return true;
}

/// The files that a built-in routine names, where the folder has none of their names.
bool Keeper::writeBeside(Model& model, const fs::path& folder) {
    const Editor& editor = model.editor;
    if (!editor.built_in) return true;
    for (const auto& name :
         {std::string("marrel.aircraft.toml"), std::string("vellmoor.site.toml"),
          std::string("vellmoor.pilot.toml"), std::string("vellmoor.weather.toml"),
          std::string("vellmoor.score.toml")}) {
        std::error_code failed;
        const auto bytes = load::embeddedAsset("demo/" + name);
        if (editor.routineText().find(name) == std::string::npos || !bytes ||
            fs::exists(folder / name, failed)) {
            continue;
        }
        std::string text(*bytes);
        for (const EditedFile& other : editor.files) {
            if (nameOf(other) == name) text = other.buffer.text();
        }
        const std::string failure = system::writeWholeFile(folder / name, text);
        if (failure.empty()) continue;
        say(model, name + " cannot be written beside it (" + failure + "): choose another folder",
            true);
        return false;
    }
    return true;
}

bool Keeper::saveAs(Model& model, const fs::path& file) {
    Editor& editor = model.editor;
    std::error_code failed;
    const fs::path absolute = fs::absolute(file, failed);
    if (!writeBeside(model, absolute.parent_path())) return false;
    std::string text = editor.routineText();
    const fs::path folder = absolute.parent_path();
    if (!editor.built_in) {
        text = namedFrom(text, editor.files.front().file.parent_path(), folder);
    }
    const std::string failure = system::writeWholeFile(absolute, text);
    if (!failure.empty()) {
        say(model,
            file.filename().string() + " cannot be written (" + failure +
                "): choose another folder",
            true);
        return false;
    }
    // What was put aside under the old name has its home now.
    std::error_code ignored;
    if (window_ >= 0) fs::remove(keptFile(), ignored);
    // What was there already stays as it is, and what was changed here is a change of it.
    for (EditedFile& other : editor.files) {
        if (!editor.built_in) break;
        other.file = folder / other.file.filename();
        other.base = system::readWholeFile(other.file).bytes.value_or("");
    }
    TextBuffer& buffer = editor.files.front().buffer;
    if (text != buffer.text()) {
        buffer.endTyping();
        buffer.become(text);
        keepCaretInside(editor);
    }
    editor.files.front().file = absolute;
    editor.files.front().base = editor.routineText();
    editor.built_in = false;
    on_disk_ = true;
    claim(absolute.generic_string());
    putAside(model);
    editor.saved = model.shown;
    say(model, "Saved as " + file.filename().string());
    return true;
}

void Keeper::takeTheirs(Model& model) {
    model.question = Question();
    for (EditedFile& file : model.editor.files) {
        const system::ReadFile read = system::readWholeFile(file.file);
        if (!read.bytes || *read.bytes == file.base) continue;
        file.buffer.endTyping();
        file.buffer.become(*read.bytes);
        file.base = *read.bytes;
    }
    keepCaretInside(model.editor);
}

void Keeper::keepMine(Model& model) {
    model.question = Question();
    for (EditedFile& file : model.editor.files) {
        const system::ReadFile read = system::readWholeFile(file.file);
        if (read.bytes) file.base = *read.bytes;
    }
    say(model, "Your text goes on; Ctrl S writes it over the other");
}

void Keeper::finish(const Model& model) {
    if (window_ < 0) return;
    putAside(model);
    claim_.letGo();
}

}  // namespace plumbline::model

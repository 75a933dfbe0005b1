// What the stage does with the files that are written in the window: solved while one writes, put
// aside, saved, guarded when something else is opened.

#include <algorithm>
#include <ctime>

#include "viewer/app/stage.h"
#include "viewer/model/action_list.h"
#include "viewer/model/remark_book.h"

namespace plumbline::app {

void Stage::begin(const std::filesystem::path& file, std::string text, bool built_in) {
    keeper_->opened(model_, file, std::move(text), built_in);
    // The path shown is another one's when a routine with mistakes or a new one begins.
    const bool same =
        model_.shown && model_.shown->workspace && model_.shown->workspace->routine_path == file;
    if (same && model_.shown->source.ghost) {
        model_.editor.beside = model_.shown->source.ghost->path;
        model_.editor.beside_title = model_.shown->beside;
    }
    live_->begin(same ? model_.shown : nullptr, model_.editor.files.front().file);
    asked_for_ = 0;
}

void Stage::beginWriting(const std::filesystem::path& folder, std::FILE* log) {
    live_ = std::make_unique<model::LiveSolver>();
    keeper_ = std::make_unique<model::Keeper>(folder);
    margins_ = std::make_unique<model::MarginsDesk>();
    // A film of what was done leaves the book alone.
    const std::filesystem::path book =
        folder.empty() ? std::filesystem::path() : model::usualRemarkBook();
    remark_desk_ = std::make_unique<model::RemarkDesk>(book);
    trends_desk_ = std::make_unique<model::TrendsDesk>(book);
    debrief_desk_.setBook(book);
    log_ = log;
}

void Stage::finishWriting() {
    if (keeper_) keeper_->finish(model_);
}

/// Asks for the path of the newest texts, takes those that are done.
void Stage::fly() {
    exporter_.look(model_);
    debrief_desk_.look(model_);
    if (!live_) return;
    model::Editor& editor = model_.editor;
    if (keeper_ && keeper_->takeWorldChanged()) {
        live_->forgetFiles();
        asked_for_ = 0;
    }
    if (editor.open()) {
        const std::uint64_t state = textState(editor);
        if (state != asked_for_ || model_.variant != asked_variant_) {
            asked_for_ = state;
            asked_variant_ = model_.variant;
            model::LiveWish wish;
            wish.number = ++editor.asked;
            wish.routine = editor.files.front().file;
            wish.built_in = editor.built_in;
            for (const model::EditedFile& file : editor.files) {
                wish.texts[file.file] = file.buffer.text();
            }
            wish.overrides = wish_.overrides;
            wish.variant = model_.variant;
            model::lookAt(model_, wish.figure, wish.in_it_s);
            wish.now = model_.shown;
            const bool before = editor.compares && editor.changed() && editor.saved;
            wish.beside = before ? editor.saved->source.path : editor.beside;
            wish.beside_title = before ? std::string("the path as saved") : editor.beside_title;
            live_->ask(std::move(wish));
        }
    }
    while (auto result = live_->take()) {
        const bool fine = !result->draft;
        model::showLive(model_, std::move(*result));
        if (fine && !editor.changed()) editor.saved = model_.shown;
    }
    if (auto shelf = live_->takeShelf()) {
        model_.shelf = std::make_shared<const std::vector<model::ShelfFigure>>(std::move(*shelf));
    }
}

/// @param follows  another action brought it about
void Stage::logAction(const model::Action& action, bool follows) {
    if (log_ == nullptr) return;
    std::fprintf(log_, "%.3f %s%s\n", log_s_, follows ? "so " : "",
                 model::actionText(action).c_str());
    std::fflush(log_);
}

/// Something else takes the place of a text with changes only when that was said.
/// @return it was not said yet, and is asked now
bool Stage::asksFirst(const model::Action& anyway, const char* words) {
    if (!model_.editor.open() || !model_.editor.changed()) return false;
    model_.question = model::Question();
    model_.question.text =
        model_.editor.files.front().file.filename().string() + " has changes that are not saved.";
    model::Action stay;
    stay.kind = model::ActionKind::DismissMessage;
    model_.editor.writing = false;  // the answers are keys
    model_.question.choices = {{words, anyway}, {"Stay here", stay}};
    return true;
}

/// Logs go over the routine that is open, a routine under the recording that has none. Changes that
/// are not saved are put aside and come back with their text: nothing is asked.
/// @return false: it is to be opened by itself
bool Stage::openOverPlan(const std::vector<std::filesystem::path>& files) {
    if (!model_.shown || model_.start_panel || files.empty()) return false;
    const auto routine = [](const std::filesystem::path& file) {
        return file.extension() == ".toml";
    };
    const bool logs = std::none_of(files.begin(), files.end(), routine);
    const model::Shown& shown = *model_.shown;
    model::OpenWish wish;
    wish.files = files;
    if (logs && shown.workspace && model_.editor.stand_in.empty()) {
        wish.plan = model_.shown;
        plan_is_new_ = model_.editor.open() && model_.editor.built_in && !shown.demo;
        plan_wish_ = model::OpenWish();
        plan_wish_.overrides = wish_.overrides;
        plan_wish_.variant = model_.variant;
        if (!shown.demo) plan_wish_.files = {shown.workspace->routine_path};
    } else if (logs && shown.review && shown.review->plan) {
        wish.plan = shown.review->plan;  // another flight of the same
    } else if (files.size() == 1 && !logs && shown.recording() && !shown.logs.empty() &&
               !(shown.review && shown.review->plan)) {
        wish.files.insert(wish.files.end(), shown.logs.begin(), shown.logs.end());
        wish.review = true;
    } else {
        return false;
    }
    if (keeper_ && !keeper_->putAsideOrSay(model_)) return true;
    model_.question = model::Question();
    open(std::move(wish));
    return true;
}

/// From the flight to its plan with the flight beside it, and back to the flight over the plan as
/// it is then.
void Stage::toggleReview() {
    if (!model_.shown || !keeper_) return;
    const model::Shown& shown = *model_.shown;
    model::OpenWish wish;
    if (shown.review && shown.review->plan) {
        if (plan_is_new_) {
            model::Action again;
            again.kind = model::ActionKind::NewRoutine;
            again.value = 1;
            newGuarded(again);
            return;
        }
        wish = plan_wish_;
        wish.flight = model_.shown;
    } else if (model_.flight && shown.workspace) {
        if (!keeper_->putAsideOrSay(model_)) return;
        plan_wish_.variant = model_.variant;
        wish.files = model_.flight->logs;
        wish.plan = model_.shown;
        wish.flight = model_.flight;
    } else {
        return;
    }
    model::lookAt(model_, return_to_.figure, return_to_.in_it_s);
    return_to_.wanted = true;
    open(std::move(wish));
}

void Stage::openGuarded(const model::Action& action) {
    if (action.kind == model::ActionKind::Open && openOverPlan(action.files)) return;
    model::Action anyway = action;
    anyway.kind = model::ActionKind::OpenAnyway;
    if (action.kind == model::ActionKind::Open &&
        asksFirst(anyway, "Open the other; these come back with their file")) {
        return;
    }
    if (keeper_ && !keeper_->putAsideOrSay(model_)) return;
    model_.question = model::Question();
    model_.start_panel = false;
    model::OpenWish wish;
    wish.files = action.files;
    open(std::move(wish));
}

void Stage::newGuarded(const model::Action& action) {
    constexpr const char* kNew = "demo/new.routine.toml";
    const bool of_new =
        model_.editor.open() && model_.editor.built_in && model_.editor.files.front().file == kNew;
    model::Action anyway = action;
    anyway.value = 1;
    if (action.value == 0 &&
        asksFirst(anyway, of_new ? "Begin anew; what stands here is given up"
                                 : "Begin a new one; these come back with their file")) {
        return;
    }
    if (of_new) {
        keeper_->giveUp(model_);
    } else if (!keeper_->putAsideOrSay(model_)) {
        return;
    }
    model_.question = model::Question();
    begin(kNew, model::newRoutineText(), true);
    model_.editor.saved = nullptr;
    model_.editor.stand_in = "Not flown yet: the path shown is another routine's";
    model_.editor.go_to = "Run in";
    model_.start_panel = false;
    model_.variant = variant::Wish();
    model::Action write;
    write.kind = model::ActionKind::WriteFigure;
    model::refreshRows(model_);
    model::apply(model_, write);
}

void Stage::quitGuarded() {
    if (!model_.editor.open() || !model_.editor.changed()) {
        model_.quit = true;
        return;
    }
    model_.question = model::Question();
    model_.question.text =
        model_.editor.files.front().file.filename().string() + " has changes that are not saved.";
    model::Action save, quit, stay;
    save.kind = model::ActionKind::Save;
    save.value = 1;
    quit.kind = model::ActionKind::QuitAnyway;
    stay.kind = model::ActionKind::DismissMessage;
    model_.editor.writing = false;  // the answers are keys
    model_.question.choices = {
        {"Save and quit", save}, {"Quit; they come back with the file", quit}, {"Stay", stay}};
}

bool Stage::applyToFiles(const model::Action& action) {
    using K = model::ActionKind;
    switch (action.kind) {
        case K::Open:
        case K::OpenAnyway:
            openGuarded(action);
            return true;
        case K::Quit:
            quitGuarded();
            return true;
        case K::QuitAnyway:
            model_.quit = true;
            return true;
        case K::WriteDebrief:
            debrief_desk_.begin(model_);
            return true;
        case K::WriteBrief:
            briefDesk().write(model_);
            return true;
        case K::ToggleReview:
            toggleReview();
            return true;
        default:
            break;
    }
    if (!keeper_) return false;
    if (remark_desk_->apply(model_, action, static_cast<std::int64_t>(std::time(nullptr)))) {
        if (action.kind == K::KeepRemark) model_.session.coach = action.x != 0;
        return true;
    }
    switch (action.kind) {
        case K::NewRoutine:
            newGuarded(action);
            return true;
        case K::Save:
            model_.question = model::Question();
            quit_when_saved_ = action.value != 0;
            if (model_.editor.built_in) {
                model::Action ask;
                ask.kind = K::ShowList;
                ask.index = static_cast<int>(model::ListKind::SaveFile);
                model::Actions none;
                model::applyToList(model_, ask, none);
            } else if (keeper_->save(model_) && quit_when_saved_) {
                model_.quit = true;
            }
            return true;
        case K::SaveAs:
            if (!action.files.empty() && keeper_->saveAs(model_, action.files.front())) {
                model::remember(model_.session, action.files.front());
                asked_for_ = 0;
                if (quit_when_saved_) model_.quit = true;
            }
            return true;
        case K::Export:
            if (!action.files.empty()) exporter_.begin(model_, action.files.front());
            return true;
        case K::TakeTheirs:
            keeper_->takeTheirs(model_);
            return true;
        case K::KeepMine:
            keeper_->keepMine(model_);
            return true;
        case K::DismissMessage:
            model_.question = model::Question();
            return false;
        case K::ShowList:
            if (action.index == static_cast<int>(model::ListKind::Shelf) && !model_.shelf) {
                live_->askShelf();
            }
            return false;
        default:
            return false;
    }
}

void Stage::applyActions() {
    std::vector<model::Action> list = actions_.list();
    actions_.clear();
    const std::size_t asked = list.size();
    for (std::size_t i = 0; i < list.size(); ++i) {
        const model::Action action = list[i];
        logAction(action, i >= asked);
        if (applyToFiles(action)) continue;
        model::Actions more;
        if (model::applyToList(model_, action, more)) {
            list.insert(list.end(), more.list().begin(), more.list().end());
            continue;
        }
        model::apply(model_, action);
    }
}

}  // namespace plumbline::app

// Opening, and what becomes of what was opened.

#include <utility>

#include "engine/system/whole_file.h"
#include "viewer/app/stage.h"

namespace plumbline::app {

void Stage::begins(const model::OpenWish& wish) {
    model::Action action;
    action.kind = model::ActionKind::Open;
    action.files = wish.files;
    model::apply(model_, action);
    wish_ = wish;
}

void Stage::open(model::OpenWish wish) {
    begins(wish);
    opener_.open(std::move(wish));
}

bool Stage::openAndWait(const model::OpenWish& wish) {
    begins(wish);
    model::show(model_, opener_.openAtOnce(wish));
    return model_.problems.empty();
}

void Stage::takeOpened() {
    auto result = opener_.take();
    if (model_.opening) model_.opening_progress = opener_.progress();
    if (!result) return;
    const bool first = model_.shown == nullptr;
    const Problems problems = result->problems;
    const bool good = result->shown != nullptr;
    const model::StandIn stand_in = result->stand_in;
    model::show(model_, std::move(*result));
    const bool over_plan = good && model_.shown->review && model_.shown->review->plan;
    if (over_plan && wish_.review) {
        plan_wish_ = wish_;
        plan_wish_.review = plan_is_new_ = false;
        std::erase_if(plan_wish_.files,
                      [](const auto& file) { return file.extension() != ".toml"; });
    }
    const bool back = std::exchange(return_to_.wanted, false);
    if (model_.shown && !over_plan && !back && (first || model_.problems.empty())) {
        model_.clock.play();
    }
    if (good && back) {
        for (const model::OutlineRow& row : model_.shown->outline) {
            if (row.name == return_to_.figure) {
                model_.clock.seek(row.start_s + return_to_.in_it_s);
                break;
            }
        }
    }
    if (!keeper_) return;
    if (good && model_.shown->workspace) {
        const load::Workspace& workspace = *model_.shown->workspace;
        begin(workspace.routine_path, workspace.routine_text, model_.shown->demo);
        model_.variant = wish_.variant;
        model_.overrides = wish_.overrides;
        asked_variant_ = wish_.variant;
        if (!model_.editor.changed()) asked_for_ = model::textState(model_.editor);
    } else if (good) {
        keeper_->closed(model_);
        model::refreshRows(model_);
    } else if (stand_in.shown && wish_.files.size() == 1) {
        mend(stand_in, problems);
    }
    if (good && !wish_.files.empty()) model::remember(model_.session, wish_.files.front());
    // The pictures hold what they need themselves.
    wish_.plan = nullptr;
    wish_.flight = nullptr;
}

/// A routine with mistakes is a text to be mended, with what can be flown of it behind.
void Stage::mend(const model::StandIn& stand_in, Problems problems) {
    const system::ReadFile read = system::readWholeFile(wish_.files.front());
    if (!read.bytes) return;
    model::OpenResult shown;
    shown.shown = stand_in.shown;
    model::show(model_, std::move(shown));
    begin(wish_.files.front(), *read.bytes, false);
    model::Editor& editor = model_.editor;
    editor.saved = nullptr;
    editor.stand_in = stand_in.words;
    for (Problem& problem : problems) {
        if (problem.where.file == wish_.files.front().generic_string()) {
            problem.where.file = editor.files.front().file.generic_string();
        }
    }
    model::Action write;
    write.kind = model::ActionKind::WriteFile;
    model::apply(model_, write);
    if (const auto at = model::byteOfProblem(editor, problems.front())) {
        editor.caret = editor.anchor = *at;
    }
    editor.problems = std::move(problems);
}

}  // namespace plumbline::app

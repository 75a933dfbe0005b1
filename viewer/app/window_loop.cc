#include "viewer/app/window_loop.h"

#include <algorithm>
#include <utility>
#include <vector>

#include "engine/system/worker.h"
#include "viewer/model/model.h"

namespace plumbline::app {
namespace {

platform::Cursor cursorFor(const ui::UiState& state) {
    if (state.wants_text && !state.wants_resize_across) return platform::Cursor::Text;
    if (state.wants_resize_across) return platform::Cursor::ResizeAcross;
    if (state.wants_resize_down) return platform::Cursor::ResizeDown;
    return state.wants_hand ? platform::Cursor::Hand : platform::Cursor::Arrow;
}

/// True while pictures change without anybody doing anything.
bool moving(Stage& stage) {
    const model::Model& model = stage.model();
    const bool on_the_day =
        (model.prompter.on && (model.prompter.live || !model.prompter.prompt)) ||
        (model.walk.on && model.walk.run_in_s > 0);
    return on_the_day || model.clock.playing() || model.opening || model.message.left_s > 0 ||
           stage.renderer().pendingWork() > 0 || stage.busy() || model.editor.wrong_s > 0;
}

/// The window's title: what is open, which variant of it.
std::string windowTitle(const model::Model& model) {
    if (!model.shown) return "Plumbline";
    const std::string& variant = model.shown->variant;
    const char* unsaved = model.editor.open() && model.editor.changed() ? "\u2022 " : "";
    return unsaved + model::titleOf(model) + (variant.empty() ? "" : " (" + variant + ")") +
           " \u2013 Plumbline";
}

/// A wish to paste becomes what the clipboard holds.
void pasteInto(platform::Window& window, Stage& stage) {
    const std::vector<model::Action> list = stage.actions().list();
    const auto wishes = [](const model::Action& a) { return a.kind == model::ActionKind::Paste; };
    if (std::none_of(list.begin(), list.end(), wishes)) return;
    stage.actions().clear();
    for (model::Action action : list) {
        if (wishes(action)) {
            action.kind = model::ActionKind::TypeText;
            action.text = window.clipboardText();
            std::string& text = action.text;
            text.erase(std::remove(text.begin(), text.end(), '\r'), text.end());
        }
        stage.actions().push(std::move(action));
    }
}

}  // namespace

bool WindowLoop::frame(bool may_wait) {
    constexpr double kIdleWait_s = 0.25;
    constexpr double kLongestFrame_s = 0.25;  // after a pause of the system time does not jump
    const bool wait = may_wait && !moving(stage_) && input_.empty() && settle_ <= 0;
    // Keys reach the show from whichever of the two windows has them.
    input_.push(text_window_.frame(stage_));
    std::vector<platform::Event> events = window_.takeEvents(wait ? kIdleWait_s : 0);
    settle_ = events.empty() ? settle_ - 1 : kSettle;
    input_.push(std::move(events));
    WindowInput::Taken taken = input_.feed();
    if (taken.close) stage_.actions().push(model::ActionKind::Quit);
    if (!taken.dropped.empty()) {
        model::Action open;
        open.kind = model::ActionKind::Open;
        open.files = std::move(taken.dropped);
        stage_.actions().push(std::move(open));
    }
    pasteInto(window_, stage_);
    const auto now = std::chrono::steady_clock::now();
    const double passed_s = std::chrono::duration<double>(now - before_).count();
    const double elapsed_s = std::min(passed_s, kLongestFrame_s);
    stage_.model().wall_s += passed_s - elapsed_s;  // the show's clock misses nothing
    before_ = now;
    const platform::PixelSize size = window_.pixelSize();
    if (size.width_px < 1 || size.height_px < 1) return false;
    render::bindWindow();
    stage_.frame(size.width_px, size.height_px, window_.pixelRatio(), elapsed_s);
    window_.swap();
    if (first_) {
        first_ = false;  // in a browser it is seen only once its turn has ended
    } else {
        system::workBetweenFrames();
    }
    const std::string copied = stage_.takeCopied();
    if (!copied.empty()) window_.setClipboardText(copied);
    window_.setCursor(cursorFor(stage_.uiState()));
    window_.setFullScreen(stage_.model().full_screen);
    const std::string wish = windowTitle(stage_.model());
    if (wish != title_) window_.setTitle(title_ = wish);
    return true;
}

}  // namespace plumbline::app

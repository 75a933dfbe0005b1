#include "viewer/app/show.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>

#include "engine/system/whole_file.h"
#include "viewer/app/stage.h"
#include "viewer/app/text_window.h"
#include "viewer/app/window_input.h"
#include "viewer/platform/folders.h"
#include "viewer/platform/window.h"

namespace plumbline::app {
namespace {

using Clock = std::chrono::steady_clock;

double secondsBetween(Clock::time_point from, Clock::time_point to) {
    return std::chrono::duration<double>(to - from).count();
}

std::filesystem::path sessionFile() {
    const std::filesystem::path folder = platform::configFolder();
    return folder.empty() ? folder : folder / "session.toml";
}

model::Session loadSession() {
    const std::filesystem::path file = sessionFile();
    if (file.empty()) return {};
    const system::ReadFile read = system::readWholeFile(file);
    return read.bytes ? model::sessionFromText(*read.bytes) : model::Session();
}

/// A session that cannot be kept is no reason to bother anyone on the way out.
void saveSession(const model::Session& session) {
    const std::filesystem::path file = sessionFile();
    if (file.empty()) return;
    std::error_code ignored;
    std::filesystem::create_directories(file.parent_path(), ignored);
    const std::string failure = system::writeWholeFile(file, model::sessionText(session));
    if (!failure.empty()) {
        std::fprintf(stderr, "plumbline: settings not kept in %s: %s\n", file.string().c_str(),
                     failure.c_str());
    }
}

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

/// What `--bench` prints: when things were first seen, and how long frames take.
class Bench {
public:
    explicit Bench(Clock::time_point start) : start_(start) {}
    /// After each frame. @return true when enough has been measured
    bool frameDone(const model::Model& model, int pending) {
        const Clock::time_point now = Clock::now();
        if (frames_ == 0) {
            first_frame_s_ = secondsBetween(start_, now);
            first_frame_cpu_s_ = processorSeconds();
        }
        if (model.shown && shown_s_ < 0) {
            shown_s_ = secondsBetween(start_, now);
            shown_cpu_s_ = processorSeconds();
        }
        if (model.shown && pending == 0 && settled_s_ < 0) {
            settled_s_ = secondsBetween(start_, now);
            settled_cpu_s_ = processorSeconds();
        }
        if (settled_s_ >= 0) {
            if (timed_ > 0) worst_s_ = std::max(worst_s_, secondsBetween(before_, now));
            ++timed_;
        }
        before_ = now;
        before_cpu_s_ = processorSeconds();
        ++frames_;
        constexpr double kLong_s = 5;
        return settled_s_ >= 0 && secondsBetween(start_, now) > settled_s_ + kLong_s;
    }
    void print() const {
        const double timed_s = secondsBetween(start_, before_) - settled_s_;
        // Processor time beside it: on a busy machine the clock tells little.
        const auto line = [](const char* what, double wall_s, double cpu_s) {
            std::printf("%-17s %.3f s (processor %.3f s)\n", what, wall_s, cpu_s);
        };
        line("first frame", first_frame_s_, first_frame_cpu_s_);
        line("routine shown", shown_s_, shown_cpu_s_);
        line("picture finished", settled_s_, settled_cpu_s_);
        std::printf("%.1f frames/s, longest frame %.1f ms, processor %.1f ms a frame\n",
                    (timed_ - 1) / timed_s, worst_s_ * 1000,
                    (before_cpu_s_ - settled_cpu_s_) / std::max(timed_ - 1, 1) * 1000);
    }

private:
    static double processorSeconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

    Clock::time_point start_;
    Clock::time_point before_;
    double first_frame_s_ = 0, first_frame_cpu_s_ = 0;
    double shown_s_ = -1, shown_cpu_s_ = 0;
    double settled_s_ = -1, settled_cpu_s_ = 0, before_cpu_s_ = 0;
    double worst_s_ = 0;
    int frames_ = 0;
    int timed_ = 0;
};

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

void runLoop(platform::Window& window, Stage& stage, Bench* bench) {
    constexpr double kIdleWait_s = 0.25;
    constexpr double kLongestFrame_s = 0.25;  // after a pause of the system time does not jump
    constexpr int kSettle = 3;                // frames until hover and pointer shape have settled
    WindowInput input;
    TextWindow text_window(window);
    Clock::time_point before = Clock::now();
    int settle = kSettle;
    std::string title;
    while (!stage.model().quit) {
        const bool wait = !moving(stage) && input.empty() && settle <= 0;
        // Keys reach the show from whichever of the two windows has them.
        input.push(text_window.frame(stage));
        std::vector<platform::Event> events = window.takeEvents(wait ? kIdleWait_s : 0);
        settle = events.empty() ? settle - 1 : kSettle;
        input.push(std::move(events));
        WindowInput::Taken taken = input.feed();
        if (taken.close) stage.actions().push(model::ActionKind::Quit);
        if (!taken.dropped.empty()) {
            model::Action open;
            open.kind = model::ActionKind::Open;
            open.files = std::move(taken.dropped);
            stage.actions().push(std::move(open));
        }
        pasteInto(window, stage);
        const Clock::time_point now = Clock::now();
        const double elapsed_s = std::min(secondsBetween(before, now), kLongestFrame_s);
        // The show's clock misses nothing.
        stage.model().wall_s += secondsBetween(before, now) - elapsed_s;
        before = now;
        const platform::PixelSize size = window.pixelSize();
        if (size.width_px < 1 || size.height_px < 1) continue;
        render::bindWindow();
        stage.frame(size.width_px, size.height_px, window.pixelRatio(), elapsed_s);
        window.swap();
        const std::string copied = stage.takeCopied();
        if (!copied.empty()) window.setClipboardText(copied);
        if (bench != nullptr && bench->frameDone(stage.model(), stage.renderer().pendingWork())) {
            return;
        }
        window.setCursor(cursorFor(stage.uiState()));
        window.setFullScreen(stage.model().full_screen);
        const std::string wish = windowTitle(stage.model());
        if (wish != title) window.setTitle(title = wish);
    }
}

}  // namespace

int runShow(ShowWish wish) {
    const bool bench = wish.bench;
    Bench measured(Clock::now());
    if (!platform::displayAvailable()) {
        std::fprintf(stderr,
                     "plumbline: no display to open a window on: draw pictures instead with "
                     "plumbline picture, or set DISPLAY\n");
        return 2;
    }
    model::Session session = bench ? model::Session() : loadSession();
    platform::WindowSettings settings;
    settings.title = "Plumbline";
    settings.width = wish.width > 0 ? wish.width : session.window_width;
    settings.height = wish.height > 0 ? wish.height : session.window_height;
    settings.wait_for_display = !bench;
    auto window = platform::Window::create(settings);
    if (!window) {
        std::fprintf(stderr, "plumbline: %s; plumbline picture draws without a window\n",
                     window.error().c_str());
        return 2;
    }
    auto stage = Stage::create((*window)->loader());
    if (!stage) {
        std::fprintf(stderr, "plumbline: %s\n", stage.error().c_str());
        return 2;
    }
    model::Model& model = (*stage)->model();
    model.session = session;
    model.start_panel = wish.open.files.empty();
    if (!bench) (*stage)->music().allowSound();
    std::FILE* log = wish.log_file.empty() ? nullptr : std::fopen(wish.log_file.c_str(), "wb");
    if (!bench) {
        (*stage)->beginWriting(sessionFile().empty() ? std::filesystem::path()
                                                     : sessionFile().parent_path() / "unsaved",
                               log);
    }
    wish.open.review = true;
    (*stage)->open(std::move(wish.open));
    runLoop(**window, **stage, bench ? &measured : nullptr);
    if (bench) {
        measured.print();
        return 0;
    }
    (*stage)->finishWriting();
    if (log != nullptr) std::fclose(log);
    const platform::PixelSize size = (*window)->pixelSize();
    const double ratio = (*window)->pixelRatio();
    if (!model.full_screen && size.width_px > 0) {
        model.session.window_width = static_cast<int>(size.width_px / ratio);
        model.session.window_height = static_cast<int>(size.height_px / ratio);
    }
    saveSession(model.session);
    return 0;
}

}  // namespace plumbline::app

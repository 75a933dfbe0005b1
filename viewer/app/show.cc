#include "viewer/app/show.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <ctime>

#include "viewer/app/session_file.h"
#include "viewer/app/stage.h"
#include "viewer/app/window_loop.h"
#include "viewer/platform/window.h"

namespace plumbline::app {
namespace {

using Clock = std::chrono::steady_clock;

double secondsBetween(Clock::time_point from, Clock::time_point to) {
    return std::chrono::duration<double>(to - from).count();
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

void runLoop(platform::Window& window, Stage& stage, Bench* bench) {
    WindowLoop loop(window, stage);
    while (!stage.model().quit) {
        if (!loop.frame(true)) continue;
        if (bench != nullptr && bench->frameDone(stage.model(), stage.renderer().pendingWork())) {
            return;
        }
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
        (*stage)->beginWriting(unsavedFolder(), log);
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

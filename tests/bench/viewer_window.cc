// The whole window offscreen, panels and all, while the demo plays; the pictures in it alone, so
// that the difference is what the panels cost; and an hour of it in a loop, for what it grows by.
// No picture is read back, but each is waited for; `given_ms` is the program's own part, until all
// of a frame is given to the driver. On a graphics card that is what a frame costs the processor:
// waiting for the card only burns time there.

#include <array>
#include <chrono>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <memory>

#include <benchmark/benchmark.h>
#include <glad/gl.h>

#include "tests/bench/resident.h"
#include "viewer/app/stage.h"
#include "viewer/platform/surface.h"
#include "viewer/render/gl_objects.h"

namespace {

using namespace plumbline;

struct Desk {
    std::unique_ptr<platform::Offscreen> context;
    std::unique_ptr<app::Stage> stage;

    Desk() {
        auto made = platform::Offscreen::create();
        if (!made) fail(made.error());
        context = std::move(*made);
        auto opened = app::Stage::create(context->loader());
        if (!opened) fail(opened.error());
        stage = std::move(*opened);
        if (!stage->openAndWait({})) fail("no demo");
        stage->model().session.second_place = model::SecondPlace::None;  // one picture at all times
        stage->finishWork();
    }
    [[noreturn]] static void fail(const std::string& why) {
        std::fprintf(stderr, "%s\n", why.c_str());
        std::exit(2);
    }
    void seek(double time_s) const {
        model::Action action;
        action.kind = model::ActionKind::Seek;
        action.value = time_s;
        model::apply(stage->model(), action);
    }
};

Desk& desk() {
    static Desk made;
    return made;
}

enum Part { Whole, Pictures };

void window(benchmark::State& state) {
    const bool large = state.range(0) != 0;
    const auto part = static_cast<Part>(state.range(1));
    const int width_px = large ? 1920 : 1280, height_px = large ? 1080 : 720;
    state.SetLabel(std::string(large ? "1920x1080" : "1280x720") +
                   (part == Whole ? ", whole window" : ", its pictures alone"));
    Desk& made = desk();
    app::Stage& stage = *made.stage;
    const render::OffscreenTarget target(width_px, height_px);
    ui::LayoutWish wish;
    const ui::Layout layout =
        ui::layoutOf(static_cast<float>(width_px), static_cast<float>(height_px), wish);
    const auto draw = [&](const scene::ViewSettings& view, const ui::Rect& rect) {
        const model::Model& model = stage.model();
        const scene::DrawList list = scene::buildDrawList(
            model.shown->source, view, model.session.marks, model.clock.time_s(),
            static_cast<int>(rect.width), static_cast<int>(rect.height));
        stage.renderer().draw(list, static_cast<int>(rect.x),
                              height_px - static_cast<int>(rect.bottom()),
                              static_cast<int>(rect.width), static_cast<int>(rect.height));
    };
    double time_s = 0;
    std::chrono::duration<double, std::milli> given{};
    std::int64_t frame = 0;
    for (auto _ : state) {
        target.bind();
        const auto start = std::chrono::steady_clock::now();
        made.seek(time_s);
        if (part == Whole) {
            stage.frame(width_px, height_px, 1, 0);
        } else {
            draw(stage.model().session.view, layout.picture);
        }
        given += std::chrono::steady_clock::now() - start;
        glFinish();
        // chosen: a tenth of a second played, then elsewhere: every kind of moment in a few hundred
        time_s += ++frame % 6 == 0 ? 7.3 : 1.0 / 60;
        if (time_s > stage.model().clock.duration_s()) time_s -= stage.model().clock.duration_s();
    }
    state.counters["given_ms"] = given.count() / static_cast<double>(frame);
}
BENCHMARK(window)
    ->ArgsProduct({{0, 1}, {Whole, Pictures}})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

/// A minute of the demo looped for an hour at 30 frames a second, in a window of 640x360, with
/// another view each second of it. What it grows by after the first quarter of an hour is told.
void loopedWindow(benchmark::State& state) {
    Desk& made = desk();
    app::Stage& stage = *made.stage;
    const render::OffscreenTarget target(640, 360);
    stage.model().clock.setLoop(model::Loop{60, 120});
    stage.model().clock.seek(60);
    constexpr int kQuarter = 15 * 60 * 30;
    int frame = 0;
    double before_kb = 0;
    for (auto _ : state) {
        target.bind();
        stage.model().session.view.view = static_cast<scene::View>(frame / 30 % scene::kViewCount);
        stage.model().clock.play();
        stage.frame(640, 360, 1, 1.0 / 30);
        glFinish();
        if (++frame == kQuarter) before_kb = bench::residentKilobytes();
    }
    if (before_kb > 0) state.counters["grown_kB"] = bench::residentKilobytes() - before_kb;
    state.counters["resident_kB"] = bench::residentKilobytes();
    stage.model().clock.setLoop(std::nullopt);
    stage.model().session.view.view = scene::View::Crowd;
}
BENCHMARK(loopedWindow)->Iterations(60 * 60 * 30)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

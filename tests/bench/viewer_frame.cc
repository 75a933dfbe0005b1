// Frames of the demo offscreen, by view and by what is left out, along the whole routine; reading
// the picture back is included. And the way from nothing to the first frame, inside a running
// program. The processor's time is that of all threads: on a busy machine it tells more than the
// clock; a software driver on two idle cores needs a little over half of it.

#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <memory>
#include <string>

#include <benchmark/benchmark.h>

#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "tests/bench/resident.h"
#include "viewer/platform/surface.h"
#include "viewer/render/renderer.h"
#include "viewer/scene/build.h"

namespace {

using namespace plumbline;

constexpr int kWidth_px = 1280;
constexpr int kHeight_px = 720;

template <class T, class E>
T orExit(Expected<T, E> result, const std::string& why) {
    if (!result) {
        std::fprintf(stderr, "%s\n", why.c_str());
        std::exit(2);
    }
    return std::move(*result);
}

/// A context, a renderer with the aircraft in it, and the demo as a scene.
struct Demo {
    std::unique_ptr<platform::Offscreen> context;
    std::unique_ptr<render::Renderer> renderer;
    scene::SceneSource source;

    Demo() {
        context = orExit(platform::Offscreen::create(), "no offscreen context");
        renderer = orExit(render::Renderer::create(context->loader()), "no renderer");
        std::ifstream file(PLUMBLINE_ASSETS "/aircraft/plumbline.glb", std::ios::binary);
        const std::string model{std::istreambuf_iterator<char>(file), {}};
        orExit(renderer->setAircraftModel(reinterpret_cast<const std::uint8_t*>(model.data()),
                                          model.size()),
               "no aircraft model");
        const auto work = orExit(load::loadDemo(), "no demo");
        const auto solution = fly::solve(work.aircraft, work.site, work.weather, work.routine);
        source.path = std::make_shared<path::Path>(solution.samplePath(100));
        source.aircraft = std::make_shared<data::Aircraft>(work.aircraft);
        source.world = scene::makeWorld(work.site, work.weather, 1);
        source.shape = scene::makeShape(*source.path);
    }

    scene::DrawList list(scene::View view, double time_s) const {
        scene::ViewSettings settings;
        settings.view = view;
        return scene::buildDrawList(source, settings, scene::Marks{}, time_s, kWidth_px,
                                    kHeight_px);
    }
};

const Demo& sharedDemo() {
    static const Demo demo;
    return demo;
}

/// A software driver puts work off until a picture is read back: none of it may be left over.
void settle(const Demo& demo, scene::View view) {
    const scene::DrawList list = demo.list(view, 0);
    demo.renderer->finishWork(list);
    benchmark::DoNotOptimize(demo.renderer->drawImage(list, kWidth_px, kHeight_px));
}

void frame(benchmark::State& state) {
    const Demo& demo = sharedDemo();
    const auto view = static_cast<scene::View>(state.range(0));
    state.SetLabel(scene::viewWord(view));
    settle(demo, view);
    const double duration_s = demo.source.path->duration_s();
    double time_s = 0;
    for (auto _ : state) {
        benchmark::DoNotOptimize(
            demo.renderer->drawImage(demo.list(view, time_s), kWidth_px, kHeight_px));
        time_s += 7.3;  // chosen: meets every kind of moment in a few hundred frames
        if (time_s > duration_s) time_s -= duration_s;
    }
}
/// What is left out; the difference to nothing left out is its cost. The map's world alone is the
/// ground's.
enum Without { Nothing, Smoke, BandAndLadder, Aircraft, Crowd, Lines, All };
constexpr const char* kWithoutWords[] = {"whole",    "no smoke", "no band",    "no aircraft",
                                         "no crowd", "no lines", "world alone"};

void without(benchmark::State& state) {
    const Demo& demo = sharedDemo();
    const auto view = static_cast<scene::View>(state.range(0));
    const auto what = static_cast<Without>(state.range(1));
    const bool large = state.range(2) != 0;
    const int width_px = large ? 1920 : kWidth_px, height_px = large ? 1080 : kHeight_px;
    state.SetLabel(std::string(scene::viewWord(view)) + ", " + kWithoutWords[what] +
                   (large ? ", 1920x1080" : ", 1280x720"));
    settle(demo, view);
    double time_s = 0;
    for (auto _ : state) {
        scene::DrawList list = demo.list(view, time_s);
        if (what == Smoke || what == All) list.smoke.clear();
        if (what == BandAndLadder || what == All) list.bands.clear();
        if (what == Aircraft || what == All) list.aircraft.hidden = true;
        if (what == Crowd || what == All) list.show_crowd = false;
        if (what == Lines || what == All) list.lines.clear();
        benchmark::DoNotOptimize(demo.renderer->drawImage(list, width_px, height_px));
        time_s += 7.3;
        if (time_s > demo.source.path->duration_s()) time_s -= demo.source.path->duration_s();
    }
}
BENCHMARK(without)
    ->ArgsProduct({{static_cast<int>(scene::View::Crowd), static_cast<int>(scene::View::Cockpit),
                    static_cast<int>(scene::View::Chase), static_cast<int>(scene::View::Map)},
                   benchmark::CreateDenseRange(Nothing, All, 1),
                   {0, 1}})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

BENCHMARK(frame)
    ->DenseRange(0, scene::kViewCount - 1)
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime();

/// A minute of the demo in a loop, 60 frames a second, in small; an hour is 216000 frames:
/// --benchmark_filter=loopedReplay --benchmark_min_time=... for as long as you like. What it grows
/// by after the first loop is told.
void loopedReplay(benchmark::State& state) {
    const Demo& demo = sharedDemo();
    settle(demo, scene::View::Crowd);
    constexpr int kLoopFrames = 3600;
    int frame = 0;
    double before_kb = 0;
    render::Image image;
    for (auto _ : state) {
        const double time_s = 60 + (frame % kLoopFrames) / 60.0;
        const auto view = static_cast<scene::View>(frame / 60 % scene::kViewCount);
        image = demo.renderer->drawImage(demo.list(view, time_s), 320, 180);
        if (++frame == kLoopFrames) before_kb = bench::residentKilobytes();
    }
    if (before_kb > 0) state.counters["grown_kB"] = bench::residentKilobytes() - before_kb;
    state.counters["frames"] = frame;
}
BENCHMARK(loopedReplay)->Iterations(10800)->Unit(benchmark::kMillisecond)->UseRealTime();

void nothingToFirstFrame(benchmark::State& state) {
    for (auto _ : state) {
        const Demo demo;
        benchmark::DoNotOptimize(
            demo.renderer->drawImage(demo.list(scene::View::Crowd, 0), kWidth_px, kHeight_px));
    }
}
BENCHMARK(nothingToFirstFrame)->Iterations(3)->Unit(benchmark::kMillisecond)->UseRealTime();

}  // namespace

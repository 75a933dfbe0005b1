// From a changed number to its picture: text, path, draw list, and the vertices of all that follows
// the path in the graphics memory. What else the frame draws stays where it is.

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <memory>
#include <random>
#include <string>
#include <vector>

#include <benchmark/benchmark.h>

#include "viewer/model/model.h"
#include "viewer/model/routine_blocks.h"
#include "viewer/platform/surface.h"
#include "viewer/render/bands.h"
#include "viewer/render/renderer.h"
#include "viewer/scene/build.h"

namespace plumbline::model {
namespace {

/// What of the renderer depends on the path.
class Painted {
public:
    Painted() {
        auto context = platform::Offscreen::create();
        if (!context) exitWith(context.error());
        context_ = std::move(*context);
        auto renderer = render::Renderer::create(context_->loader());
        if (!renderer) exitWith(renderer.error());
        std::string problem;
        target_ = render::Target(16, 16, 0);
        target_.bind();
        block_ = render::UniformBlock(sizeof(render::FrameBlock));
        bands_ = std::make_unique<render::BandPainter>(problem);
        lines_ = std::make_unique<render::LinePainter>(problem);
        if (!problem.empty()) exitWith(problem);
    }
    /// Made and uploaded; drawn into a few pixels.
    void paint(const scene::DrawList& list) {
        const render::Frame frame = render::makeFrame(list, kWidth_px, kHeight_px);
        block_.upload(&frame.block, sizeof(render::FrameBlock));
        lines_->begin(frame);
        bands_->drawFills(frame);
        render::BandPainter::addLines(frame, *lines_);
        for (const scene::Polyline& line : list.lines) {
            if (!line.on_ground && !line.inside) lines_->addPolyline(line);
        }
        lines_->flush(true);
    }
    static constexpr int kWidth_px = 1280, kHeight_px = 720;

private:
    [[noreturn]] static void exitWith(const std::string& why) {
        std::fprintf(stderr, "%s\n", why.c_str());
        std::exit(2);
    }

    std::unique_ptr<platform::Offscreen> context_;
    render::Target target_;
    render::UniformBlock block_;
    std::unique_ptr<render::BandPainter> bands_;
    std::unique_ptr<render::LinePainter> lines_;
};

double threadSeconds() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

double atShare(std::vector<double>& times_s, double share) {
    std::sort(times_s.begin(), times_s.end());
    return 1000 *
           times_s[static_cast<std::size_t>(share * static_cast<double>(times_s.size() - 1))];
}

/// Steps a number of a random figure up and down again.
void editDemo(benchmark::State& state) {
    static Painted painted;
    Model model;
    show(model, openNow({}, 1));
    beginEditing(model.editor, "demo/demo.routine.toml",
                 std::string(load::embeddedAsset("demo/demo.routine.toml").value()), true);
    model.editor.saved = model.shown;
    LiveWish wish;
    wish.routine = "demo/demo.routine.toml";
    wish.built_in = true;
    std::string& text = wish.texts[wish.routine];
    text = model.editor.text();
    LiveFlight flight(LiveFlight::Kind::Draft);
    flight.begin(model.shown, wish.routine);
    std::mt19937 random(1);
    std::vector<double> wall_s, processor_s;
    std::int64_t flown = 0;
    std::uint64_t revision = 1;
    const auto edit = [&] {
        wish.number = ++model.editor.asked;
        lookAt(model, wish.figure, wish.in_it_s);
        LiveResult result = flight.fly(wish, ++revision);
        const bool good = result.shown != nullptr;
        showLive(model, std::move(result));
        painted.paint(scene::buildDrawList(model.shown->source, model.session.view,
                                           model.session.marks, model.clock.time_s(),
                                           Painted::kWidth_px, Painted::kHeight_px));
        return good;
    };
    for (auto _ : state) {
        state.PauseTiming();
        const std::vector<FigureBlock> blocks = figureBlocks(text);
        const FigureBlock& block = blocks[random() % blocks.size()];
        std::optional<NumberInText> number;
        for (int i = 0; i < 50 && !number; ++i) {
            number =
                numberAt(text, block.text.begin + random() % (block.text.end - block.text.begin));
        }
        for (const OutlineRow& row : model.shown->outline) {
            if (row.name == block.name) model.clock.seek(row.start_s + 2);
        }
        const std::string before = text;
        if (number) {
            text.replace(number->number.begin, number->number.end - number->number.begin,
                         steppedNumber(text.substr(number->number.begin,
                                                   number->number.end - number->number.begin),
                                       number->unit, 1, true));
        }
        state.ResumeTiming();
        const auto began = std::chrono::steady_clock::now();
        const double began_s = threadSeconds();
        if (edit()) ++flown;
        processor_s.push_back(threadSeconds() - began_s);
        wall_s.push_back(
            std::chrono::duration<double>(std::chrono::steady_clock::now() - began).count());
        state.PauseTiming();
        text = before;
        edit();
        state.ResumeTiming();
    }
    state.counters["wall_p50_ms"] = atShare(wall_s, 0.5);
    state.counters["wall_p99_ms"] = atShare(wall_s, 0.99);
    state.counters["cpu_p50_ms"] = atShare(processor_s, 0.5);
    state.counters["cpu_p99_ms"] = atShare(processor_s, 0.99);
    state.counters["flown"] = static_cast<double>(flown) / static_cast<double>(wall_s.size());
}
BENCHMARK(editDemo)->Unit(benchmark::kMillisecond)->Iterations(400);

}  // namespace
}  // namespace plumbline::model

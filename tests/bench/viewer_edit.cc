// From a changed number to its path: the draft that the next frame shows, over the whole demo.

#include <algorithm>
#include <random>
#include <vector>

#include <benchmark/benchmark.h>

#include "viewer/model/live_solver.h"
#include "viewer/model/routine_blocks.h"

namespace plumbline::model {
namespace {

/// Steps a number of a random figure up and down again; the times of all edits give the p99.
void editDemo(benchmark::State& state) {
    LiveWish wish;
    wish.routine = "demo/demo.routine.toml";
    wish.built_in = true;
    std::string& text = wish.texts[wish.routine];
    text = std::string(load::embeddedAsset("demo/demo.routine.toml").value());
    LiveFlight flight;
    flight.fly(wish, 0, true);
    std::mt19937 random(1);
    std::vector<double> took_s;
    std::int64_t flown = 0;
    for (auto _ : state) {
        state.PauseTiming();
        const std::vector<FigureBlock> blocks = figureBlocks(text);
        const TextRange range = blocks[random() % blocks.size()].text;
        std::optional<NumberInText> number;
        for (int i = 0; i < 50 && !number; ++i) {
            number = numberAt(text, range.begin + random() % (range.end - range.begin));
        }
        const std::string before = text;
        if (number) {
            text.replace(number->number.begin, number->number.end - number->number.begin,
                         steppedNumber(text.substr(number->number.begin,
                                                   number->number.end - number->number.begin),
                                       number->unit, 1, true));
        }
        ++wish.number;
        state.ResumeTiming();
        const LiveResult result = flight.fly(wish, wish.number, true);
        benchmark::DoNotOptimize(result.shown);
        took_s.push_back(result.took_s);
        if (result.shown) ++flown;
        state.PauseTiming();
        text = before;
        ++wish.number;
        flight.fly(wish, wish.number, true);
        state.ResumeTiming();
    }
    std::sort(took_s.begin(), took_s.end());
    const auto at = [&](double share) {
        return took_s[static_cast<std::size_t>(share * static_cast<double>(took_s.size() - 1))] *
               1000;
    };
    state.counters["p50_ms"] = at(0.5);
    state.counters["p99_ms"] = at(0.99);
    state.counters["flown"] = static_cast<double>(flown) / static_cast<double>(took_s.size());
}
BENCHMARK(editDemo)->Unit(benchmark::kMillisecond)->Iterations(400);

}  // namespace
}  // namespace plumbline::model

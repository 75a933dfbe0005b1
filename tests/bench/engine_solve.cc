// The demo routine solved whole, on one core: what a changed number costs before the picture
// changes. Must stay under 16 ms, one frame at 60 Hz.

#include <cstdio>
#include <cstdlib>

#include <benchmark/benchmark.h>

#include "engine/fly/solve.h"
#include "engine/load/load.h"

namespace {

using namespace plumbline;

const load::Workspace& demo() {
    static const auto loaded = load::loadDemo();
    if (!loaded) {
        std::fprintf(stderr, "%s\n", describe(loaded.error()).c_str());
        std::exit(2);
    }
    return *loaded;
}

void solveDemo(benchmark::State& state) {
    const load::Workspace& work = demo();
    fly::SolveOptions options;
    options.relative_tolerance = 1e-8;
    std::int64_t evaluations = 0;
    double duration_s = 0;
    for (auto _ : state) {
        const auto solution =
            fly::solve(work.aircraft, work.site, work.weather, work.routine, options);
        evaluations = solution.evaluations();
        duration_s = solution.duration_s();
        benchmark::DoNotOptimize(&solution);
    }
    state.counters["evaluations"] = static_cast<double>(evaluations);
    state.counters["flown_s"] = duration_s;
}
BENCHMARK(solveDemo)->Unit(benchmark::kMillisecond);

void samplePath100Hz(benchmark::State& state) {
    const load::Workspace& work = demo();
    const auto solution = fly::solve(work.aircraft, work.site, work.weather, work.routine);
    for (auto _ : state) benchmark::DoNotOptimize(solution.samplePath(100));
}
BENCHMARK(samplePath100Hz)->Unit(benchmark::kMillisecond);

void readDemo(benchmark::State& state) {
    for (auto _ : state) benchmark::DoNotOptimize(load::loadDemo());
}
BENCHMARK(readDemo)->Unit(benchmark::kMillisecond);

}  // namespace

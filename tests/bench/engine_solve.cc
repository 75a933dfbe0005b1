// The demo routine solved whole, on one core: what a changed number costs before the picture
// changes. Must stay under 16 ms, one frame at 60 Hz.

#include <cstdio>
#include <cstdlib>

#include <benchmark/benchmark.h>

#include "engine/check/check.h"
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

// Sixty short figures with every kind of shape. Must stay under 8 ms.
void solveRoutine(benchmark::State& state, const char* file) {
    const auto work = load::loadWorkspace(file);
    if (!work) {
        state.SkipWithError(describe(work.error()).c_str());
        return;
    }
    std::int64_t evaluations = 0;
    for (auto _ : state) {
        const auto solution = fly::solve(work->aircraft, work->site, work->weather, work->routine);
        evaluations = solution.evaluations();
        benchmark::DoNotOptimize(&solution);
    }
    state.counters["evaluations"] = static_cast<double>(evaluations);
}
void solveSixty(benchmark::State& state) {
    solveRoutine(state, PLUMBLINE_ASSETS "/../tests/data/routines/sixty.routine.toml");
}
BENCHMARK(solveSixty)->Unit(benchmark::kMillisecond);

// Sixty longer figures, half an hour, with every element of figure text.
void solveEveryElement(benchmark::State& state) {
    solveRoutine(state, PLUMBLINE_ASSETS "/../tests/data/routines/every_element.routine.toml");
}
BENCHMARK(solveEveryElement)->Unit(benchmark::kMillisecond);

// A number changed in the last figure: what an editor waits for.
void solveDemoAgain(benchmark::State& state) {
    const load::Workspace& work = demo();
    const auto before = fly::solve(work.aircraft, work.site, work.weather, work.routine);
    routine::Routine changed = work.routine;
    ++changed.figures.back().elements.front().span.column;
    std::int64_t evaluations = 0;
    for (auto _ : state) {
        const auto solution = fly::solveAgain(before, changed);
        evaluations = solution.evaluations();
        benchmark::DoNotOptimize(&solution);
    }
    state.counters["evaluations"] = static_cast<double>(evaluations);
}
BENCHMARK(solveDemoAgain)->Unit(benchmark::kMillisecond);

// Every check of the demo, and its gates.
void checkDemo(benchmark::State& state) {
    const load::Workspace& work = demo();
    const auto solution = fly::solve(work.aircraft, work.site, work.weather, work.routine);
    const path::Path path = solution.samplePath(100);
    for (auto _ : state) {
        const auto findings =
            check::checkRoutine(work.aircraft, work.site, work.weather, work.routine, path,
                                solution.notes(), work.pilot, work.rules);
        benchmark::DoNotOptimize(findings.data());
    }
}
BENCHMARK(checkDemo)->Unit(benchmark::kMillisecond);

void gatesDemo(benchmark::State& state) {
    const load::Workspace& work = demo();
    const auto solution = fly::solve(work.aircraft, work.site, work.weather, work.routine);
    const path::Path path = solution.samplePath(100);
    for (auto _ : state) {
        const auto gates = check::gatesOf(work.aircraft, work.site, work.pilot, solution, path);
        benchmark::DoNotOptimize(gates.data());
    }
}
BENCHMARK(gatesDemo)->Unit(benchmark::kMillisecond);

// A loop put on show centre with its top at a height: two values found together.
void solveAims(benchmark::State& state) {
    const load::Workspace& work = demo();
    const auto read = routine::readRoutine(R"(
name = "Aims"
aircraft = "a"
site = "s"
[start]
x = "-900 m"
height = "100 m"
heading = "crowd-right"
speed = "82 m/s"
fuel = "40 l"
[[figure]]
name = "Loop"
text = """
line level {run}
pull 360 deg at {load}
line level 50 m
"""
values = { run = "200 m", load = "4 g" }
[[figure.aim]]
change = "run"
from = "20 m"
to = "1400 m"
want = "centre x 0 m"
[[figure.aim]]
change = "load"
from = "3 g"
to = "7 g"
want = "top 340 m"
)",
                                           "aims");
    std::int64_t evaluations = 0;
    for (auto _ : state) {
        const auto solution = fly::solve(work.aircraft, work.site, work.weather, read.routine);
        evaluations = solution.evaluations();
        benchmark::DoNotOptimize(&solution);
    }
    state.counters["evaluations"] = static_cast<double>(evaluations);
}
BENCHMARK(solveAims)->Unit(benchmark::kMillisecond);

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

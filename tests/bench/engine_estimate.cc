// Attitude from raw sensors: the demo's twelve minutes at 200 Hz.

#include <benchmark/benchmark.h>

#include "engine/estimate/smoother.h"
#include "engine/fly/solve.h"
#include "engine/load/load.h"
#include "tests/figures/sensor_simulator.h"

namespace {

using namespace plumbline;

void smoothTwelveMinutes(benchmark::State& state) {
    const auto work = load::loadDemo();
    const path::Path fine =
        fly::solve(work->aircraft, work->site, work->weather, work->routine).samplePath(2000);
    const estimate::Streams streams = figures::simulateSensors(fine, {}, 1);
    for (auto _ : state) benchmark::DoNotOptimize(estimate::smooth(streams));
    state.counters["samples"] = static_cast<double>(streams.inertial.size());
}
BENCHMARK(smoothTwelveMinutes)->Unit(benchmark::kMillisecond);

}  // namespace

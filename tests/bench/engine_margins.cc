// The demo flown imperfectly: cost of a flight, and how it grows with their number and the
// tolerance.

#include <benchmark/benchmark.h>

#include "engine/margins/margins.h"

namespace plumbline {
namespace {

const variant::Flown& demo() {
    static const variant::Flown flown = variant::fly(load::loadDemo().value(), {}).value();
    return flown;
}

/// @param flights, exponent of the tolerance
void margins(benchmark::State& state) {
    margins::Wishes wishes;
    wishes.flights = static_cast<std::uint64_t>(state.range(0));
    wishes.tolerance = state.range(1) == 8 ? 1e-8 : state.range(1) == 6 ? 1e-6 : 1e-5;
    wishes.executor = system::parallel();
    for (auto _ : state) benchmark::DoNotOptimize(margins::fly(demo(), wishes));
    state.counters["flights/s"] = benchmark::Counter(static_cast<double>(state.range(0)),
                                                     benchmark::Counter::kIsIterationInvariantRate);
}
BENCHMARK(margins)
    ->Args({250, 5})
    ->Args({1000, 5})
    ->Args({1000, 6})
    ->Args({1000, 8})
    ->Unit(benchmark::kMillisecond)
    ->UseRealTime();

}  // namespace
}  // namespace plumbline
